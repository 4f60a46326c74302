import { awgAreaMm2 } from '../base/wire-size.ts'

/** Least pull-out force in N of a crimp by AWG: a terminal maker's crimp handbook, commercial minimum. */
const PULL_N: readonly (readonly [awg: number, newtons: number])[] = [
  [10, 356],
  [12, 312],
  [14, 223],
  [16, 134],
  [18, 89],
  [20, 58],
  [22, 36],
]

/**
 * Least pull-out force in N for a conductor area; a size between two gauges takes the smaller one's figure, and a size outside
 * the table has none.
 */
export function pullForceN(areaMm2: number): number | undefined {
  const row = PULL_N.find(([awg]) => areaMm2 >= awgAreaMm2(awg) * 0.95)
  const largest = awgAreaMm2(10) * 1.2
  return areaMm2 > largest ? undefined : row?.[1]
}
