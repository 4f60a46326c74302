import type { Loom, Terminal } from '../../resolve/loom.ts'
import { metalDistances } from './metal-distance.ts'

/** A bus as a line: its longest way end to end, and how far each pin hangs off it. */
export interface LineTopology {
  readonly ends: readonly [Terminal, Terminal]
  readonly backboneMm: number
  readonly stubs: readonly { readonly pin: Terminal; readonly mm: number }[]
  /** Conductors without a length: the figures are then too low. */
  readonly unmeasured: readonly string[]
}

/**
 * The longest path between any two of the points is the backbone; what a pin lies off it follows from its distances to the two
 * ends. Exact for a tree, which a bus is. Undefined for fewer than two points.
 */
export function lineTopology(
  loom: Loom,
  points: readonly Terminal[],
  pins: readonly Terminal[],
): LineTopology | undefined {
  const first = points[0]
  if (!first || points.length < 2) return undefined
  const farthest = (from: Terminal): Terminal => {
    const distances = metalDistances(loom, from)
    return points.reduce(
      (far, next) => ((distances.to(next) ?? -1) > (distances.to(far) ?? -1) ? next : far),
      first,
    )
  }
  const one = farthest(first)
  const two = farthest(one)
  const [fromOne, fromTwo] = [metalDistances(loom, one), metalDistances(loom, two)]
  const backboneMm = fromOne.to(two) ?? 0
  return {
    ends: [one, two],
    backboneMm,
    unmeasured: fromOne.unmeasured,
    stubs: pins.map((pin) => ({
      pin,
      mm: Math.max(0, ((fromOne.to(pin) ?? 0) + (fromTwo.to(pin) ?? 0) - backboneMm) / 2),
    })),
  }
}
