import type { Nodes, Root } from 'mdast'
import remarkGfm from 'remark-gfm'
import remarkParse from 'remark-parse'
import { unified } from 'unified'
import type { Procedure } from '../describe/shop.ts'

/** A procedure read: its Markdown as a tree whose lines are those of the file, and its front matter. */
export interface ProcedureTree {
  readonly file: string
  readonly tree: Root
  /** `key: value` lines between two `---` lines at the very top, keys in lower case. */
  readonly matter: ReadonlyMap<string, string>
}

/** Longer files are not procedures anybody follows; the limit keeps a wrong file from holding a build up. */
const MOST_CHARACTERS = 1_000_000

const FRONT_MATTER = /^---[ \t]*\r?\n([\s\S]*?)\r?\n---[ \t]*(?:\r?\n|$)/

/** Reads a procedure. Never throws: any text is some Markdown. */
export function readProcedure({ file, text }: Procedure): ProcedureTree {
  const whole = text.slice(0, MOST_CHARACTERS)
  const front = FRONT_MATTER.exec(whole)
  // Blanked and not cut off, so that every line keeps its number.
  const body = front ? front[0].replace(/[^\r\n]/g, ' ') + whole.slice(front[0].length) : whole
  const tree = unified().use(remarkParse).use(remarkGfm).parse(body)
  return { file, tree, matter: readMatter(front?.[1] ?? '') }
}

function readMatter(text: string): ReadonlyMap<string, string> {
  const pairs = text.split(/\r?\n/).flatMap((line) => {
    const found = /^([A-Za-z][\w-]*)[ \t]*:[ \t]*(.*)$/.exec(line)
    return found?.[1]
      ? [[found[1].toLowerCase(), (found[2] ?? '').trim().replace(/^(["'])(.*)\1$/, '$2')] as const]
      : []
  })
  return new Map(pairs)
}

/** The plain text of a node and all below it. */
export function plainText(node: Nodes): string {
  if ('value' in node) return node.value
  return 'children' in node ? node.children.map((child) => plainText(child)).join('') : ''
}
