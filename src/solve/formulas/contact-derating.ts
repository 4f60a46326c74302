import { awgAreaMm2 } from '../../base/wire-size.ts'

const GAUGES = [28, 26, 24, 22, 20, 18] as const

/**
 * Factor on a contact's single-circuit rating by the share of contacts loaded; columns 28 to 18 AWG. A connector maker's product
 * specification (108-40005, figure 4B), for a rise of 30 K. The cell of 24 AWG at 26 % follows the pattern of its row (0.331)
 * where the print has 0.342.
 */
const ROWS: readonly (readonly [loadedShare: number, ...factors: number[]])[] = [
  [0.01, 0.384, 0.45, 0.536, 0.647, 0.795, 1],
  [0.26, 0.237, 0.278, 0.331, 0.4, 0.491, 0.618],
  [0.5, 0.164, 0.193, 0.229, 0.277, 0.341, 0.428],
  [0.76, 0.132, 0.155, 0.184, 0.222, 0.273, 0.344],
  [1, 0.114, 0.134, 0.159, 0.192, 0.236, 0.297],
]

/**
 * What is left of a rectangular connector contact's rating when others beside it are loaded, and for thinner wire.
 * Steps to the next listed share above and the next gauge below, so it never promises more than the table. A data sheet of the
 * connector at hand goes before it.
 * @param loadedShare share of the contacts that carry current, 0 to 1
 * @returns undefined for a wire thinner than 28 AWG
 */
export function contactDerating(areaMm2: number, loadedShare: number): number | undefined {
  const column = GAUGES.findLastIndex((awg) => awgAreaMm2(awg) <= areaMm2 * 1.001)
  const row = ROWS.find(([share]) => loadedShare <= share)
  return column < 0 ? undefined : row?.[column + 1]
}

/**
 * Amperes several equal contacts in parallel carry together: each doubling adds 60 %, since they never share evenly
 * (common practice). 3 A gives 4.8 A with two and 7.68 A with four.
 */
export function parallelContactsAmps(singleAmps: number, contacts: number): number {
  return singleAmps * 1.6 ** Math.log2(contacts)
}
