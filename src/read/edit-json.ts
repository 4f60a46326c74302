import { findNodeAtLocation, type Node, parseTree } from 'jsonc-parser'
import type { EditValue } from '../base/finding.ts'
import type { TextEdit } from '../base/text-edit.ts'

/** A value to put in at a path. */
export interface JsonChange {
  readonly path: readonly (string | number)[]
  readonly value: EditValue
}

/** Plain data on one line, spaced as people space it. */
export function inline(value: EditValue): string {
  if (Array.isArray(value)) return `[${value.map(inline).join(', ')}]`
  if (typeof value === 'object') {
    const members = Object.entries(value).map(([key, inner]) => `${JSON.stringify(key)}: ${inline(inner)}`)
    return members.length === 0 ? '{}' : `{ ${members.join(', ')} }`
  }
  return JSON.stringify(value)
}

interface After {
  /** Whether a comma follows the last entry already. */
  readonly comma: boolean
  /** Behind the entry and its comma. */
  readonly at: number
  /** Where the line ends, if there is nothing more on it than a comment; undefined if there is. */
  readonly lineEnd: number | undefined
}

/** What follows the last entry of an object or list. */
function afterLast(text: string, last: Node): After {
  let at = last.offset + last.length
  let comma = false
  for (let i = at; i < text.length; i++) {
    const here = text[i]
    if (here === '\n') return { comma, at, lineEnd: text[i - 1] === '\r' ? i - 1 : i }
    if (here === ',' && !comma) {
      comma = true
      at = i + 1
    } else if (text.startsWith('//', i)) {
      const end = text.indexOf('\n', i)
      if (end < 0) break
      i = end - 1
      // A comment in stars can belong to either side, so the new entry goes right behind the value.
    } else if (!/\s/.test(here ?? '')) break
  }
  return { comma, at, lineEnd: undefined }
}

/** Blanks before the first thing on a line, if nothing else stands before it. */
function indentOf(text: string, offset: number): string | undefined {
  const start = text.lastIndexOf('\n', offset - 1) + 1
  const before = text.slice(start, offset)
  return /^[ \t]*$/.test(before) && start > 0 ? before : undefined
}

/** Entries added behind the last one of an object or list, in the way the others are laid out. */
function additions(text: string, parent: Node, entries: readonly string[]): TextEdit[] {
  const last = parent.children?.at(-1)
  const [open, close] = parent.type === 'array' ? ['[', ']'] : ['{', '}']
  if (!last) {
    const inside = parent.type === 'array' ? entries.join(', ') : ` ${entries.join(', ')} `
    const blank = text.slice(parent.offset + 1, parent.offset + parent.length - 1).trim() === ''
    return blank
      ? [{ start: parent.offset, end: parent.offset + parent.length, text: `${open}${inside}${close}` }]
      : [{ start: parent.offset + 1, end: parent.offset + 1, text: inside.trimEnd() }]
  }
  const indent = indentOf(text, last.offset)
  const { comma, at, lineEnd } = afterLast(text, last)
  const here = last.offset + last.length
  if (indent === undefined || lineEnd === undefined) {
    const added = entries.map((entry) => `, ${entry}`).join('')
    return [{ start: here, end: here, text: added }]
  }
  const eol = text.includes('\r\n') ? '\r\n' : '\n'
  const lines = entries.map(
    (entry, index) => `${eol}${indent}${entry}${comma || index < entries.length - 1 ? ',' : ''}`,
  )
  // A comment at the end of the last line stays with what it speaks of.
  return comma || lineEnd === at
    ? [{ start: lineEnd, end: lineEnd, text: `${comma ? '' : ','}${lines.join('')}` }]
    : [
        { start: here, end: here, text: ',' },
        { start: lineEnd, end: lineEnd, text: lines.join('') },
      ]
}

/**
 * The edits that put values into JSON text, with or without comments, and leave every other character as it is: a value that
 * stands there is replaced in its place, a member or entry that is new goes behind the last one. Undefined if a path leads nowhere.
 */
export function editJson(text: string, changes: readonly JsonChange[]): TextEdit[] | undefined {
  const tree = parseTree(text, [], { disallowComments: false, allowTrailingComma: true })
  if (!tree) return undefined
  const edits: TextEdit[] = []
  const added = new Map<Node, string[]>()
  for (const { path, value } of changes) {
    const node = findNodeAtLocation(tree, [...path])
    const key = path.at(-1)
    const parent = findNodeAtLocation(tree, path.slice(0, -1))
    if (node) edits.push({ start: node.offset, end: node.offset + node.length, text: inline(value) })
    else if (parent?.type === 'object' && typeof key === 'string')
      added.set(parent, [...(added.get(parent) ?? []), `${JSON.stringify(key)}: ${inline(value)}`])
    else if (parent?.type === 'array' && typeof key === 'number')
      added.set(parent, [...(added.get(parent) ?? []), inline(value)])
    else return undefined
  }
  for (const [parent, entries] of added) edits.push(...additions(text, parent, entries))
  return edits
}
