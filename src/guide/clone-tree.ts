import type { Root } from 'mdast'

/** A copy that may be changed: a Markdown tree is plain data, so it goes through JSON whole. */
export const cloneTree = (tree: Root): Root => JSON.parse(JSON.stringify(tree)) as Root
