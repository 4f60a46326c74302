import { cutAlong, expandTrunk } from './expand-trunk.ts'
import type { PlacedTrunk } from './layout.ts'
import { PITCH } from './metrics.ts'
import type { Point } from './scene.ts'

/** One line of a trunk: whole, and what lies before and after its envelope where it passes level through it. */
export interface TrunkLane {
  readonly points: readonly Point[]
  readonly cut: { readonly before: readonly Point[]; readonly after: readonly Point[] } | undefined
}

export interface TrunkLanes {
  /** Runs from left to right through its envelope. */
  readonly forward: boolean
  readonly lanes: readonly TrunkLane[]
  /** Height of a line inside the envelope. */
  yOf(row: number): number
}

/** The lines of a placed trunk, in the order of its rows. */
export function trunkLanes(trunk: PlacedTrunk): TrunkLanes {
  const n = trunk.rows.rows.length
  const { x, w, y, h } = trunk.label
  const middle = y + h / 2
  const forward = cutAlong(trunk.points, middle, x, x + w)?.forward ?? true
  const yOf = (row: number) => middle + (forward ? 1 : -1) * (row - (n - 1) / 2) * PITCH
  const lanes = expandTrunk(trunk.points, n).map((points, row): TrunkLane => {
    return { points, cut: cutAlong(points, yOf(row), x, x + w) }
  })
  return { forward, lanes, yOf }
}
