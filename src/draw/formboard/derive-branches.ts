import type { Branch } from '../../describe/harness.ts'
import { boardPlace } from '../../resolve/branch-routes.ts'
import type { Conductor } from '../../resolve/loom.ts'

/** Tails leave the trunk together where they would leave within this distance. */
const TOGETHER_MM = 80
/** How much of a wire is shared trunk before it leaves. */
const TRUNK_SHARE = 0.6
/** Stands in for a length nobody gave. */
const UNKNOWN_MM = 300

interface Neighbour {
  readonly id: string
  readonly lengthMm: number
}

/** The shortest conductor between each two places. */
function neighbours(conductors: readonly Conductor[]): Map<string, Map<string, number>> {
  const graph = new Map<string, Map<string, number>>()
  const join = (a: string, b: string, mm: number) => {
    const near = graph.get(a) ?? new Map<string, number>()
    graph.set(a, near.set(b, Math.min(mm, near.get(b) ?? Number.POSITIVE_INFINITY)))
  }
  for (const { from, to, lengthMm, cable } of conductors) {
    if (!from || !to) continue
    const [a, b] = [boardPlace(from), boardPlace(to)]
    if (a === b) continue
    const mm = Math.max(1, lengthMm ?? cable?.source.length ?? UNKNOWN_MM)
    join(a, b, mm)
    join(b, a, mm)
  }
  return graph
}

/** Ends of conductors at each place; the place with most is where the board begins. */
function endsAt(conductors: readonly Conductor[]): Map<string, number> {
  const count = new Map<string, number>()
  for (const { from, to } of conductors)
    for (const end of [from, to]) if (end) count.set(boardPlace(end), (count.get(boardPlace(end)) ?? 0) + 1)
  return count
}

/**
 * Tails of one place, shortest first, leaving a common trunk one after another so that each comes out as long as its wire.
 * A single tail goes straight.
 */
function fan(from: string, tails: readonly Neighbour[], nameOf: () => string): Branch[] {
  const sorted = [...tails].sort((a, b) => a.lengthMm - b.lengthMm)
  const last = sorted.at(-1)
  if (sorted.length < 2 || !last)
    return sorted.map(({ id, lengthMm }) => ({ from, to: id, length: lengthMm }))
  const out: Branch[] = []
  let at = from
  let along = 0
  for (const { id, lengthMm } of sorted) {
    const leave = Math.round(lengthMm * TRUNK_SHARE)
    if ((at === from || leave - along > TOGETHER_MM) && leave > along) {
      const breakout = nameOf()
      out.push({ from: at, to: breakout, length: leave - along })
      at = breakout
      along = leave
    }
    out.push({ from: at, to: id, length: Math.max(1, lengthMm - along) })
  }
  return out
}

/**
 * A tree for a harness that states no branches: from the place where most conductors end, each other place by its shortest way.
 * Every wire between a place and the next one outwards comes out at its length; wires between tails may not.
 */
export function deriveBranches(conductors: readonly Conductor[]): Branch[] {
  const graph = neighbours(conductors)
  const ends = endsAt(conductors)
  const roots = [...graph.keys()].sort((a, b) => (ends.get(b) ?? 0) - (ends.get(a) ?? 0))
  const seen = new Set<string>()
  const branches: Branch[] = []
  let count = 0
  const nameOf = (): string => {
    count += 1
    while (graph.has(`b${count}`)) count += 1
    return `b${count}`
  }
  for (const root of roots) {
    if (seen.has(root)) continue
    seen.add(root)
    const queue = [root]
    for (const place of queue) {
      const tails = [...(graph.get(place) ?? [])].flatMap(([id, lengthMm]) =>
        seen.has(id) ? [] : [{ id, lengthMm }],
      )
      for (const { id } of tails) seen.add(id)
      queue.push(...tails.map(({ id }) => id))
      branches.push(...fan(place, tails, nameOf))
    }
  }
  return branches
}
