import type { Branch, Harness } from '../describe/harness.ts'
import type { Conductor, Terminal } from './loom.ts'

/** Branches that reach every place by one way only, and those left over because they would close a loop. */
export interface BranchTree {
  readonly branches: readonly Branch[]
  readonly looped: readonly Branch[]
}

/** Keeps branches in the order written as long as they close no loop; one between a place and itself is a loop too. */
export function branchTree(branches: readonly Branch[]): BranchTree {
  const parent = new Map<string, string>()
  const rootOf = (place: string): string => {
    let root = place
    for (let up = parent.get(root); up !== undefined; up = parent.get(root)) root = up
    return root
  }
  const kept: Branch[] = []
  const looped: Branch[] = []
  for (const branch of branches) {
    const [a, b] = [rootOf(branch.from), rootOf(branch.to)]
    if (a === b) looped.push(branch)
    else {
      parent.set(b, a)
      kept.push(branch)
    }
  }
  return { branches: kept, looped }
}

/** The place of a terminal on the board: its connector, component or splice. */
export function boardPlace(terminal: Terminal): string {
  return terminal.half?.id ?? terminal.component?.id ?? terminal.name
}

/** Length of the way between two places through the branches, in mm; undefined where no branches join them. */
export function branchDistanceMm(branches: readonly Branch[], from: string, to: string): number | undefined {
  const nextTo = new Map<string, (readonly [string, number])[]>()
  const join = (a: string, b: string, mm: number) => nextTo.set(a, [...(nextTo.get(a) ?? []), [b, mm]])
  for (const { from: a, to: b, length } of branchTree(branches).branches) {
    join(a, b, length)
    join(b, a, length)
  }
  if (!nextTo.has(from) || !nextTo.has(to)) return undefined
  const reached = new Map([[from, 0]])
  for (const [place, mm] of reached)
    for (const [next, more] of nextTo.get(place) ?? []) if (!reached.has(next)) reached.set(next, mm + more)
  return reached.get(to)
}

/**
 * Length of a conductor's route through the branches of its harness, in mm: the least it may be cut to.
 * Undefined where the harness states no branches, an end is cut back, or the branches do not join its ends.
 */
export function routeLengthMm(harness: Harness, conductor: Conductor): number | undefined {
  const { from, to } = conductor
  if (!harness.branches || !from || !to) return undefined
  return branchDistanceMm(harness.branches, boardPlace(from), boardPlace(to))
}
