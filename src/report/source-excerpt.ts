import { escapeTerminal } from '../base/escape.ts'
import type { Place } from '../base/place.ts'
import { cells } from './text-layout.ts'

/** Gives the text of the line a place is on, without its line end; undefined when the file is not at hand. */
export type SourceLine = (place: Place) => string | undefined

const TAB = '  '
/** Lines are windowed to what a person takes in at a glance: a JSON file may be one line of five megabytes. */
const WIDEST = 160

const show = (text: string): string => escapeTerminal(text.replaceAll('\t', TAB))

/**
 * The source line and, under it, a caret at the column: two lines without indent, or none when the line is unknown.
 * Long lines are cut on both sides of the column so that the caret stays in view.
 */
export function sourceExcerpt(
  place: Place,
  sourceLine: SourceLine,
  width: number,
): readonly [string, string] | undefined {
  const raw = sourceLine(place)
  if (raw === undefined || raw.trim() === '') return undefined
  const gutter = `${place.line} │ `
  const room = Math.max(24, Math.min(WIDEST, width - gutter.length))
  const column = Math.min(Math.max(0, place.column - 1), raw.length)
  const indent = raw.length - raw.trimStart().length
  // Leading space says nothing in an excerpt and would push the caret off a narrow screen.
  const start = column - indent > room * 0.6 ? column - Math.floor(room / 3) : Math.min(indent, column)
  const before = (start > indent ? '…' : '') + show(raw.slice(start, column))
  const rest = show(raw.slice(column, start + room))
  const after = rest.trimEnd() + (start + room < raw.trimEnd().length ? '…' : '')
  return [`${gutter}${before}${after}`, `${' '.repeat(gutter.length + cells(before))}^`]
}
