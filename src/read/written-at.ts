import { type Mark, markOf } from '../author/site.ts'
import { type Call, callOf, deepest, inArguments, type Path, type SourceLookup } from './locate-typescript.ts'
import { argumentsOf, follow } from './scan-call.ts'
import type { WrittenAt } from './shop-source.ts'

const isContainer = (value: unknown): value is Record<string | number, unknown> =>
  typeof value === 'object' && value !== null

/** The spot of the nearest call in the bundle, as a key; undefined where the engine tells none. */
function spotOf({ frames }: Mark): string | undefined {
  const [frame] = frames
  return frame ? `${frame.getFileName()}:${frame.getLineNumber()}:${frame.getColumnNumber()}` : undefined
}

/** How many things each call of a builder made: a call in a loop or a helper makes many. */
function countCalls(roots: readonly unknown[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  const seen = new Set<unknown>()
  const open = [...roots]
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    if (!isContainer(at)) continue
    const mark = markOf(at)
    const spot = mark && spotOf(mark)
    // One thing that stands in two places counts twice: a change to it reaches both.
    if (spot !== undefined) counts.set(spot, (counts.get(spot) ?? 0) + 1)
    if (seen.has(at)) continue
    seen.add(at)
    open.push(...Object.values(at))
  }
  return counts
}

function has(data: unknown, path: Path): boolean {
  let at = data
  for (const key of path) {
    if (!isContainer(at) || !Object.hasOwn(at, key)) return false
    at = at[key]
  }
  return true
}

/** The object literal at a path below a builder's object, or the end of a call that has no options yet. */
function container(call: Call, mark: Mark, rest: Path): Omit<WrittenAt, 'file'> | undefined {
  const given = argumentsOf(call.text, call.at)
  const position = mark.args.indexOf('')
  if (!given || position < 0) return undefined
  const options = given.parts[position]
  if (!options) {
    const last = given.parts.length === position && rest.length === 0
    return last ? { kind: 'arguments', start: given.span.end - 1, end: given.span.end - 1 } : undefined
  }
  const found = follow(call.text, { start: options.start, value: options, whole: false }, rest)
  const braces = found.whole && call.text[found.value.start] === '{'
  return braces ? { kind: 'members', ...found.value } : undefined
}

/** Where the values of one document are written, as far as each stands alone. `all` is everything the builders made. */
export function writtenAtIn(
  data: unknown,
  all: () => readonly unknown[],
  lookup: SourceLookup,
): (path: Path) => WrittenAt | undefined {
  let counts: ReadonlyMap<string, number> | undefined
  return (path) => {
    const found = deepest(data, path)
    const spot = found && spotOf(found.mark)
    const frame = found?.mark.frames[0]
    if (!found || spot === undefined || !frame) return undefined
    counts ??= countCalls(all())
    if ((counts.get(spot) ?? 0) > 1) return undefined
    const call = callOf(frame, lookup)
    if (!call || call.text === '') return undefined
    const { file } = call.place
    const { mark, object, rest } = found
    if (!has(data, path)) {
      const inside = mark.route ? undefined : container(call, mark, rest.slice(0, -1))
      return inside && { file, ...inside }
    }
    const value = inArguments(call, mark.args, mark.route ? mark.route(object, rest) : rest)
    return value?.whole ? { file, kind: 'value', ...value.value } : undefined
  }
}
