import type { EditValue, ValueChange } from '../base/finding.ts'
import type { TextEdit } from '../base/text-edit.ts'
import { isName } from './scan-call.ts'
import type { SourceDocument, WrittenAt } from './shop-source.ts'

/** An edit of one source file. */
export interface SourceEdit extends TextEdit {
  readonly file: string
  /** Nothing else may be added at the same spot. */
  readonly alone?: boolean
}

type ReadSource = (file: string) => string | undefined

const QUOTED = /^(['"`])([^\\\n]*)\1$/

/** The value of a literal, or undefined for anything that has to be worked out. */
function literal(text: string): string | number | boolean | undefined {
  const quoted = QUOTED.exec(text)
  if (quoted) return quoted[1] === '`' && text.includes('${') ? undefined : quoted[2]
  if (text === 'true' || text === 'false') return text === 'true'
  return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : undefined
}

const quoted = (value: string, mark: string): string =>
  `${mark}${value.replaceAll('\\', '\\\\').replaceAll(mark, `\\${mark}`)}${mark}`

const keyText = (key: string): string => (/^[A-Za-z_$][\w$]*$/.test(key) ? key : quoted(key, "'"))

/** Plain data as an expression. */
function expression(value: EditValue): string {
  if (typeof value === 'string') return quoted(value, "'")
  if (typeof value !== 'object') return String(value)
  if (Array.isArray(value)) return `[${value.map(expression).join(', ')}]`
  return `{ ${Object.entries(value)
    .map(([key, inner]) => `${keyText(key)}: ${expression(inner)}`)
    .join(', ')} }`
}

/** Fields whose values builders take as they stand in the data. */
const TAKEN_AS_DATA: ReadonlySet<string> = new Set(['plugEmpty', 'contact', 'seal', 'pins', 'size', 'rating'])

function addMember(at: WrittenAt, text: string, key: string, value: EditValue): SourceEdit {
  const member = `${keyText(key)}: ${expression(value)}`
  const { file, start, end } = at
  if (at.kind === 'arguments') {
    const comma = /,\s*$/.test(text.slice(0, start)) ? ' ' : ', '
    return { file, start, end: start, text: `${comma}{ ${member} }`, alone: true }
  }
  if (text.slice(start + 1, end - 1).trim() === '') return { file, start, end, text: `{ ${member} }` }
  const lead = /^[ \t]*\r?\n[ \t]*/.exec(text.slice(start + 1))?.[0]
  return {
    file,
    start: start + 1,
    end: start + 1,
    text: lead === undefined ? ` ${member},` : `${lead}${member},`,
  }
}

/** One value that is written out as text, a number, true or false: replaced by another of its kind. */
function replaceLiteral(at: WrittenAt, text: string, old: unknown, value: EditValue): SourceEdit | undefined {
  const written = text.slice(at.start, at.end)
  if (literal(written) !== old || typeof value !== typeof old) return undefined
  const mark = /^['"`]/.exec(written)?.[0] ?? "'"
  return {
    file: at.file,
    start: at.start,
    end: at.end,
    text: typeof value === 'string' ? quoted(value, mark) : expression(value),
  }
}

function one(
  document: SourceDocument,
  { at, value }: ValueChange,
  old: unknown,
  read: ReadSource,
): SourceEdit | undefined {
  const spot = document.writtenAt?.(at.path)
  const text = spot && read(spot.file)
  if (!spot || text === undefined) return undefined
  if (spot.kind === 'value') return replaceLiteral(spot, text, old, value)
  const key = at.path.at(-1)
  return typeof key === 'string' && TAKEN_AS_DATA.has(key) ? addMember(spot, text, key, value) : undefined
}

/** Two values that change places: what stands in one spot of the text goes to the other, expression or literal. */
function exchanged(
  document: SourceDocument,
  changes: readonly ValueChange[],
  olds: readonly unknown[],
  read: ReadSource,
): SourceEdit[] | undefined {
  const [a, b] = changes
  if (!a || !b || changes.length !== 2 || a.value !== olds[1] || b.value !== olds[0]) return undefined
  const [one, two] = [document.writtenAt?.(a.at.path), document.writtenAt?.(b.at.path)]
  if (one?.kind !== 'value' || two?.kind !== 'value' || one.file !== two.file) return undefined
  const text = read(one.file)
  if (text === undefined) return undefined
  // A bare name may mean something else a few lines on.
  if (isName(text, one) || isName(text, two)) return undefined
  const [first, second] = [text.slice(one.start, one.end), text.slice(two.start, two.end)]
  return [
    { file: one.file, start: one.start, end: one.end, text: second },
    { file: one.file, start: two.start, end: two.end, text: first },
  ]
}

/**
 * The edits of source files that make changes to a description in code. Undefined where one of the values is not written out at
 * a place of its own: then a person has to make the change.
 * @param olds what stands at each change now
 * @param read the text of a file of the shop; undefined for a file that is not the shop's
 */
export function editTypescript(
  document: SourceDocument,
  changes: readonly ValueChange[],
  olds: readonly unknown[],
  read: ReadSource,
): SourceEdit[] | undefined {
  const swap = exchanged(document, changes, olds, read)
  if (swap) return swap
  const edits = changes.map((change, index) => one(document, change, olds[index], read))
  return edits.every((edit) => edit !== undefined) ? edits : undefined
}
