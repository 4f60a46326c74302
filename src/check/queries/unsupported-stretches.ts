import { formatLength } from '../../base/format-quantity.ts'
import type { LaidBranch, Lay } from '../../solve/lay.ts'

/** A stretch of a loom between two things that hold it. */
export interface Stretch {
  readonly lengthMm: number
  /** What holds its two ends: "P1", "the tie at 400 mm of B1-P2". */
  readonly ends: readonly [string, string]
  readonly branches: readonly LaidBranch[]
}

interface Arm {
  readonly lengthMm: number
  readonly end: string
  readonly branches: readonly LaidBranch[]
  /** First place on it that nothing holds. */
  readonly free?: string
}

const HOLDS: ReadonlySet<string> = new Set(['tie', 'clip', 'grommet', 'gland'])

interface Hold {
  readonly atMm: number
  readonly name: string
}

/** What holds a branch along its length, from its start on. */
function holdsOf({ source, address }: LaidBranch): readonly Hold[] {
  const holds: Hold[] = (source.marks ?? [])
    .filter(({ kind }) => HOLDS.has(kind))
    .map(({ kind, at }) => ({ atMm: at, name: `the ${kind} at ${formatLength(at)} of ${address}` }))
  const [first, last] = regularTies(source) ?? []
  for (const atMm of new Set([first, last]))
    if (atMm !== undefined) holds.push({ atMm, name: `the tie at ${formatLength(atMm)} of ${address}` })
  return holds.sort((a, b) => a.atMm - b.atMm)
}

/** Where ties at equal distances begin and end; those between hold alike, and there may be millions of them. */
function regularTies({ supportEvery, length }: LaidBranch['source']): readonly [number, number] | undefined {
  if (supportEvery === undefined || !(supportEvery > 0) || supportEvery >= length) return undefined
  return [supportEvery, (Math.ceil(length / supportEvery) - 1) * supportEvery]
}

/** Whether a loom says anything about what holds it. */
export const tellsSupports = (lay: Lay): boolean =>
  lay.branches.some(
    ({ source }) =>
      source.supportEvery !== undefined ||
      source.marks?.some(({ kind }) => kind === 'tie' || kind === 'clip') === true,
  )

/** A tie this near a breakout holds the breakout. */
const AT_BREAKOUT_MM = 25

/** Connectors and components hold a loom; a breakout is held by a tie at it, and by ties all along a branch that ends there. */
function heldPlaces(lay: Lay): ReadonlySet<string> {
  const held = new Set([
    ...lay.use.harness.connectors.map(({ id }) => id),
    ...(lay.use.harness.components ?? []).map(({ id }) => id),
  ])
  for (const { source } of lay.branches) {
    const { from, to, length, supportEvery } = source
    const holds = (source.marks ?? []).filter(({ kind }) => HOLDS.has(kind))
    if (supportEvery !== undefined || holds.some(({ at }) => at <= AT_BREAKOUT_MM)) held.add(from)
    if (supportEvery !== undefined || holds.some(({ at }) => at >= length - AT_BREAKOUT_MM)) held.add(to)
  }
  return held
}

/**
 * Stretches between neighbouring holds, longest first. A stretch may go through breakouts that nothing holds: at each the two
 * longest arms count, and of the stretches through one of them the longest is told.
 */
export function unsupportedStretches(lay: Lay): readonly Stretch[] {
  const fixed = heldPlaces(lay)
  const holds = new Map(lay.branches.map((branch) => [branch, holdsOf(branch)]))
  const known = new Map<string, Arm>()
  /** From a place into a branch, as far as the first thing that holds. */
  const arm = (branch: LaidBranch, from: string): Arm => {
    const key = `${branch.address} ${from}`
    const before = known.get(key)
    if (before) return before
    const { source } = branch
    const list = holds.get(branch) ?? []
    const first = from === source.from ? list[0] : list.at(-1)
    const place = from === source.from ? source.to : source.from
    const made = first
      ? {
          lengthMm: from === source.from ? first.atMm : source.length - first.atMm,
          end: first.name,
          branches: [branch],
        }
      : onwards(branch, place)
    known.set(key, made)
    return made
  }
  const onwards = (branch: LaidBranch, place: string): Arm => {
    const arms = fixed.has(place)
      ? []
      : lay
          .at(place)
          .filter((next) => next !== branch)
          .map((next) => arm(next, place))
    const longest = arms.sort((a, b) => b.lengthMm - a.lengthMm)[0]
    return {
      lengthMm: branch.source.length + (longest?.lengthMm ?? 0),
      end: longest?.end ?? place,
      branches: [branch, ...(longest?.branches ?? [])],
      ...(fixed.has(place) ? {} : { free: place }),
    }
  }
  const found = new Map<string, Stretch>()
  const add = (stretch: Stretch, through: string | undefined) => {
    const key = through ?? [...stretch.ends].sort().join('|')
    const known = found.get(key)
    if (!known || known.lengthMm < stretch.lengthMm) found.set(key, stretch)
  }
  for (const place of new Set(lay.branches.flatMap(({ source }) => [source.from, source.to]))) {
    const arms = lay.at(place).map((branch) => arm(branch, place))
    if (fixed.has(place))
      for (const { lengthMm, end, branches, free } of arms)
        add({ lengthMm, ends: [place, end], branches }, free)
    else {
      const [one, two] = arms.sort((a, b) => b.lengthMm - a.lengthMm)
      if (one && two)
        add(
          {
            lengthMm: one.lengthMm + two.lengthMm,
            ends: [one.end, two.end],
            branches: [...new Set([...one.branches, ...two.branches])],
          },
          place,
        )
    }
  }
  for (const branch of lay.branches) {
    const list = holds.get(branch) ?? []
    list.forEach((hold, index) => {
      const next = list[index + 1]
      if (!next) return
      const [first = 0, last = 0] = regularTies(branch.source) ?? []
      const gap = next.atMm - hold.atMm
      // Between regular ties no stretch is longer than from one to the next.
      const tied = hold.atMm >= first && next.atMm <= last && gap > first
      const ends = [hold.name, tied ? 'the next tie' : next.name] as const
      add({ lengthMm: tied ? first : gap, ends, branches: [branch] }, undefined)
    })
  }
  return [...found.values()].sort((a, b) => b.lengthMm - a.lengthMm)
}
