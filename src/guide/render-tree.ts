import type { Root, RootContent } from 'mdast'
import rehypeStringify from 'rehype-stringify'
import remarkGfm from 'remark-gfm'
import remarkRehype from 'remark-rehype'
import remarkStringify from 'remark-stringify'
import { unified } from 'unified'
import { visit } from 'unist-util-visit'
import { type Markup, markup } from '../sheets/templates.ts'
import { cloneTree } from './clone-tree.ts'

const root = (children: readonly RootContent[]): Root => ({ type: 'root', children: [...children] })

/**
 * Markdown content as HTML. Raw HTML cannot pass: what is left of it is dropped by the conversion, after `expandTree` has
 * already made it text.
 */
export function treeToHtml(children: readonly RootContent[], topHeading = 3): Markup {
  const tree = withHeadingsFrom(root(children), topHeading)
  const html = unified().use(remarkRehype).use(rehypeStringify)
  return markup(html.stringify(html.runSync(tree)))
}

/** Markdown content as Markdown text. */
export function treeToMarkdown(children: readonly RootContent[], topHeading = 3): string {
  const tree = withHeadingsFrom(root(children), topHeading)
  return unified().use(remarkGfm).use(remarkStringify, { bullet: '-', rule: '-' }).stringify(tree).trim()
}

/** Headings are moved down below the page's own, so that the outline of the page stays whole. */
function withHeadingsFrom(tree: Root, top: number): Root {
  const result = cloneTree(tree)
  const depths: number[] = []
  visit(result, 'heading', (node) => {
    depths.push(node.depth)
  })
  const shift = top - Math.min(6, ...depths)
  visit(result, 'heading', (node) => {
    node.depth = Math.min(6, Math.max(top, node.depth + shift)) as 1 | 2 | 3 | 4 | 5 | 6
  })
  return result
}
