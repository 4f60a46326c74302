import type { Link, PhrasingContent, Root, RootContent } from 'mdast'
import { SKIP, visit } from 'unist-util-visit'
import { parseCitation } from './citation.ts'
import { cloneTree } from './clone-tree.ts'
import { expandCitation } from './expand-citation.ts'
import type { Facts } from './facts.ts'
import { plainText } from './procedure-tree.ts'

/** Gives the page of an address, relative to the page being written; undefined where there is none. */
export type Href = (address: string) => string | undefined

/** Links that may leave the page; everything else is taken apart into its words. */
const SAFE_LINK = /^(?:https?:\/\/|mailto:|tel:)/i

/**
 * A procedure with its citations expanded and everything unsafe made plain: raw HTML becomes text, pictures and links that
 * are not to a web page become their words. The result holds no markup of its author's but Markdown.
 */
export function expandTree(tree: Root, facts: Facts, href?: Href): Root {
  const result = cloneTree(tree)
  plainBlocks(result)
  const definitions = definitionsOf(result)
  visit(result, (node, index, parent) => {
    if (index === undefined || !parent) return undefined
    const replaced = replacement(node as RootContent, definitions, facts, href)
    if (replaced === undefined) return undefined
    parent.children.splice(index, 1, ...(replaced as never[]))
    // What was put in is finished; walking it again could expand the words of a user.
    return [SKIP, index + replaced.length]
  })
  return result
}

/**
 * Footnotes, ticked lists and table alignment in plain form: several procedures share one page, where their anchors would
 * clash and a tick box without a name is nothing to a screen reader.
 */
function plainBlocks(tree: Root): void {
  visit(tree, (node, index, parent) => {
    if (node.type === 'table') node.align = null
    if (node.type === 'listItem' && typeof node.checked === 'boolean') {
      const [first] = node.children
      if (first?.type === 'paragraph') first.children.unshift(text(node.checked ? '☑ ' : '☐ '))
      node.checked = null
    }
    if (index === undefined || !parent) return
    if (node.type === 'footnoteReference')
      parent.children.splice(index, 1, text(`(note ${node.identifier})`) as never)
    if (node.type === 'footnoteDefinition')
      parent.children.splice(index, 1, { type: 'blockquote', children: node.children } as never)
  })
}

function definitionsOf(tree: Root): ReadonlyMap<string, string> {
  const all = new Map<string, string>()
  visit(tree, 'definition', (node) => {
    if (!all.has(node.identifier)) all.set(node.identifier, node.url)
  })
  return all
}

function replacement(
  node: RootContent,
  definitions: ReadonlyMap<string, string>,
  facts: Facts,
  href: Href | undefined,
): RootContent[] | undefined {
  switch (node.type) {
    case 'html':
      return node.value.trim() === '' ? [] : [{ type: 'text', value: node.value }]
    case 'image':
      return [{ type: 'text', value: `(picture: ${node.alt || node.url})` }]
    case 'imageReference':
      return [{ type: 'text', value: `(picture: ${node.alt || node.identifier})` }]
    case 'definition':
      return []
    case 'link':
      return linkReplacement(node.url, node.children, facts, href)
    case 'linkReference':
      return linkReplacement(definitions.get(node.identifier) ?? '', node.children, facts, href)
    default:
      return undefined
  }
}

function linkReplacement(
  url: string,
  children: readonly PhrasingContent[],
  facts: Facts,
  href: Href | undefined,
): PhrasingContent[] {
  const citation = parseCitation(url)
  const words = children.map((child) => plainText(child)).join('')
  if (!citation) {
    if (!SAFE_LINK.test(url)) return words === '' ? [] : [text(words)]
    return [link(url, words === '' ? url : words)]
  }
  const expansion = expandCitation(facts, citation)
  if (!expansion.ok) return [strong(`${words === '' ? url : words} (STALE: ${expansion.problem})`)]
  const shown = words === '' ? expansion.text : words
  const target = expansion.address === undefined ? undefined : href?.(expansion.address)
  if (target !== undefined) return [link(target, shown, words === '' ? undefined : expansion.text)]
  // Without a page to go to, words of the author's own still carry the fact beside them.
  return words === '' ? [strong(shown)] : [text(`${words} (${expansion.text})`)]
}

const text = (value: string): PhrasingContent => ({ type: 'text', value })
const strong = (value: string): PhrasingContent => ({ type: 'strong', children: [{ type: 'text', value }] })
const link = (url: string, value: string, title?: string): Link => ({
  type: 'link',
  url,
  title: title ?? null,
  children: [{ type: 'text', value }],
})
