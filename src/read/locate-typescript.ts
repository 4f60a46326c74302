import { type Frame, type Mark, markOf } from '../author/site.ts'
import type { Place } from '../base/place.ts'
import { LineIndex } from './line-index.ts'
import { argumentsOf, type Found, follow, isName } from './scan-call.ts'
import { startOf } from './trouble-error.ts'

export type Path = readonly (string | number)[]

/** Turns positions of bundled code into positions of the sources, and hands out those sources. */
export interface SourceLookup {
  /** Undefined for code that is no description: the tool's own, a package's. */
  readonly original: (bundled: Place) => Place | undefined
  readonly source: (file: string) => { readonly text: string; readonly lines: LineIndex } | undefined
}

export interface Call {
  readonly place: Place
  readonly text: string
  readonly lines: LineIndex
  readonly at: number
}

const isContainer = (value: unknown): value is Record<string | number, unknown> =>
  typeof value === 'object' && value !== null

/** The deepest object on a path that a builder made, and what is left of the path below it. */
export function deepest(data: unknown, path: Path): { object: object; mark: Mark; rest: Path } | undefined {
  let at = data
  let found: { object: object; mark: Mark; rest: Path } | undefined
  for (let depth = 0; isContainer(at); depth++) {
    const mark = markOf(at)
    if (mark) found = { object: at, mark, rest: path.slice(depth) }
    const key = path[depth]
    at = key === undefined || !Object.hasOwn(at, key) ? undefined : at[key]
  }
  return found
}

export function callOf(frame: Frame, lookup: SourceLookup): Call | undefined {
  const file = frame.getFileName()
  const line = frame.getLineNumber()
  const column = frame.getColumnNumber()
  if (!file || line === null || column === null) return undefined
  const place = lookup.original({ file, line, column })
  if (!place) return undefined
  const source = lookup.source(place.file)
  return source
    ? { place, ...source, at: source.lines.offset(place.line, place.column) }
    : { place, text: '', lines: new LineIndex(''), at: 0 }
}

/** Where a value stands among the arguments of a builder's call. */
export function inArguments(call: Call, args: readonly string[], path: Path): Found | undefined {
  const [first, ...rest] = path
  const parts = argumentsOf(call.text, call.at)?.parts
  if (first === undefined || !parts) return undefined
  const position = args.indexOf(String(first))
  const part = parts[position]
  if (part) return follow(call.text, { start: part.start, value: part, whole: false }, rest)
  for (const [index, options] of parts.entries()) {
    if (args[index] !== '') continue
    const found = follow(call.text, { start: -1, value: options, whole: false }, path)
    if (found.start >= 0) return found
  }
  return undefined
}

/** Whether the call writes the object's own name as text, which tells one turn of a helper function from the next. */
function writesName(call: Call, object: object): boolean {
  const id: unknown = 'id' in object ? object.id : undefined
  const span = argumentsOf(call.text, call.at)?.span
  if (typeof id !== 'string' || !span) return false
  const text = call.text.slice(span.start, span.end)
  return [`'${id}'`, `"${id}"`, `\`${id}\``].some((quoted) => text.includes(quoted))
}

const placeIn = (call: Call, offset: number): Place => ({ file: call.place.file, ...call.lines.at(offset) })

/**
 * Where a value of a description was written. Of the calls that led to its object the nearest is taken in which the value
 * itself is written out, else the nearest that writes the object's name, else the builder's own call: so a wire made by
 * a helper function of the shop is found where the shop wrote its number.
 * @param data what the builders made, not a copy of it
 */
export function locateTypescript(data: unknown, path: Path, file: string, lookup: SourceLookup): Place {
  const found = deepest(data, path)
  if (!found) return startOf(file)
  const { object, mark, rest } = found
  const calls = mark.frames.flatMap((frame) => callOf(frame, lookup) ?? [])
  const [nearest] = calls
  if (!nearest) return startOf(file)
  const written = mark.route ? mark.route(object, rest) : rest
  const value = inArguments(nearest, mark.args, written)
  if (value && !isName(nearest.text, value.value)) return placeIn(nearest, value.start)
  const named = calls.find((call) => writesName(call, object))
  if (named && named !== nearest) return named.place
  return value ? placeIn(nearest, value.start) : (named ?? nearest).place
}
