import { type Node, parse, parseTree, printParseErrorCode, visit } from 'jsonc-parser'
import type { Place } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { LIMITS } from '../describe/limits.ts'
import { LineIndex } from './line-index.ts'
import { startOf, TroubleError } from './trouble-error.ts'

const LENIENT = { disallowComments: false, allowTrailingComma: true } as const

const SYNTAX: Readonly<Record<string, readonly [what: string, fix: string]>> = {
  InvalidSymbol: [
    'this word is not JSON',
    'Put text in double quotation marks; only true, false and null stand without.',
  ],
  InvalidNumberFormat: [
    'this number is not written as JSON writes it',
    'Write digits with a point, such as 0.5.',
  ],
  PropertyNameExpected: ['a key in double quotation marks is expected here', 'Write "key": value.'],
  ValueExpected: ['a value is expected here', 'Write text, a number, true, false, null, { … } or [ … ].'],
  ColonExpected: ['a colon is expected here', 'Write "key": value.'],
  CommaExpected: ['a comma is missing before this', 'Put a comma after the value before it.'],
  CloseBraceExpected: ['an object is not closed', 'Close it with }.'],
  CloseBracketExpected: ['a list is not closed', 'Close it with ].'],
  EndOfFileExpected: ['there is more text after the description', 'Take it out; a file holds one object.'],
  UnexpectedEndOfComment: ['a comment is not closed', 'Close it with */.'],
  UnexpectedEndOfString: ['a text is not closed', 'Close it with a quotation mark on the same line.'],
  UnexpectedEndOfNumber: ['a number breaks off', 'Write all of its digits.'],
  InvalidUnicode: ['this \\u code is not one', 'Write \\u and four digits 0–9 or A–F.'],
  InvalidEscapeCharacter: ['this \\ code is not one', 'Write \\\\ for a backslash.'],
  InvalidCharacter: [
    'a character that may not stand in JSON text',
    'Take it out, or write it as \\u and four digits.',
  ],
}

/** Looks at every token once: syntax, depth, keys written twice, keys that reach into the runtime. True if it is strict JSON. */
function survey(text: string, file: string): boolean {
  const open: (Set<string> | undefined)[] = []
  let strict = true
  const stop = (what: string, fix: string, line: number, character: number): never => {
    throw new TroubleError(what, fix, { file, line: line + 1, column: character + 1 })
  }
  const enter = (keys: Set<string> | undefined, line: number, character: number): void => {
    open.push(keys)
    if (open.length > LIMITS.depth)
      stop(
        `lists and objects lie more than ${LIMITS.depth} deep`,
        'A description needs ten.',
        line,
        character,
      )
  }
  visit(
    text,
    {
      onObjectBegin: (_offset, _length, line, character) => enter(new Set(), line, character),
      onObjectEnd: () => void open.pop(),
      onArrayBegin: (_offset, _length, line, character) => enter(undefined, line, character),
      onArrayEnd: () => void open.pop(),
      onObjectProperty: (key, _offset, _length, line, character) => {
        const keys = open.at(-1)
        if (key === '__proto__')
          stop('“__proto__” is no key of a description', 'Take it out.', line, character)
        if (keys?.has(key))
          stop(
            `${quote(key)} is written twice in one object, so one would be lost`,
            'Keep one.',
            line,
            character,
          )
        keys?.add(key)
      },
      onComment: () => {
        strict = false
      },
      onError: (code, _offset, _length, line, character) => {
        const name = printParseErrorCode(code)
        const [what, fix] = SYNTAX[name] ?? [`this is not JSON (${name})`, 'Mend the text here.']
        stop(what, fix, line, character)
      },
    },
    LENIENT,
  )
  return strict
}

/**
 * Reads JSON text. Comments and trailing commas are tolerated; nothing is executed.
 * @throws TroubleError at the place, if it is empty, no JSON, nested without end, or has a key twice in one object
 */
export function parseJson(text: string, file: string): unknown {
  if (text.trim() === '')
    throw new TroubleError(
      'the file is empty',
      'Begin it with { "loomwright": 1 }, or remove it.',
      startOf(file),
    )
  if (survey(text, file)) {
    try {
      return JSON.parse(text) as unknown
    } catch {
      // Only a trailing comma is left: the survey lets it pass.
    }
  }
  return parse(text, [], LENIENT) as unknown
}

/**
 * The value at a path below a node, members of an object are looked up instead of walked, since
 * as many places may be asked for as it has members.
 */
function nodeFinder(): (tree: Node, path: readonly (string | number)[]) => Node | undefined {
  const members = new Map<Node, Map<unknown, Node | undefined>>()
  const membersOf = (node: Node): Map<unknown, Node | undefined> => {
    let known = members.get(node)
    if (!known) {
      // Of two members with one name the first counts.
      const pairs = (node.children ?? []).map(
        ({ children }) => [children?.[0]?.value, children?.[1]] as const,
      )
      known = new Map(pairs.reverse())
      members.set(node, known)
    }
    return known
  }
  return (tree, path) => {
    let node: Node | undefined = tree
    for (const key of path) {
      if (typeof key === 'string' && node?.type === 'object') node = membersOf(node).get(key)
      else if (typeof key === 'number' && node?.type === 'array') node = node.children?.[key]
      else return undefined
    }
    return node
  }
}

/** Finds values in JSON text. The tree is built at the first question, since a sound file is never asked about. */
export function jsonLocator(text: string, file: string): (path: readonly (string | number)[]) => Place {
  const lines = new LineIndex(text)
  const find = nodeFinder()
  let tree: Node | undefined
  return (path) => {
    tree ??= parseTree(text, [], LENIENT)
    if (!tree) return startOf(file)
    for (let length = path.length; length > 0; length--) {
      const found = find(tree, path.slice(0, length))
      // A member is pointed at by its key, an entry of a list by itself.
      const node = found?.parent?.type === 'property' ? found.parent : found
      if (node) return { file, ...lines.at(node.offset) }
    }
    return { file, ...lines.at(tree.offset) }
  }
}
