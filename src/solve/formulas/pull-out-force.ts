import { awgAreaMm2 } from '../../base/wire-size.ts'

export type PullOutStandard = 'UL 486A' | 'MIL-T-7928'

const NEWTONS_PER_LBF = 4.4482216

/** Least force in lbf a crimp must bear, by gauge (0 = 1/0, -1 = 2/0): UL 486A and MIL-T-7928. */
const LBF: Readonly<Record<PullOutStandard, readonly (readonly [awg: number, lbf: number])[]>> = {
  'UL 486A': [
    [28, 2],
    [26, 3],
    [24, 5],
    [22, 8],
    [20, 13],
    [18, 20],
    [16, 30],
    [14, 50],
    [12, 70],
    [10, 80],
    [8, 90],
    [6, 100],
    [4, 140],
    [2, 180],
    [0, 250],
    [-1, 300],
  ],
  'MIL-T-7928': [
    [26, 7],
    [24, 10],
    [22, 15],
    [20, 19],
    [18, 38],
    [16, 50],
    [14, 70],
    [12, 110],
    [10, 150],
  ],
}

/**
 * Least pull-out force in N for a crimp on a wire of that area, pulled at 25 mm/min and held for a minute.
 * The row of the thickest listed gauge that is not thicker than the wire is used, so a metric size is never asked for more
 * than the standard asks of the gauge below it.
 * @returns undefined for a wire thinner than the table; the thickest row stands for anything thicker
 */
export function pullOutNewtons(areaMm2: number, standard: PullOutStandard = 'UL 486A'): number | undefined {
  const row = LBF[standard].findLast(([awg]) => awgAreaMm2(awg) <= areaMm2 * 1.001)
  return row && row[1] * NEWTONS_PER_LBF
}

/** Force in N that breaks a soft copper wire: 37,000 lbf/in² (255 N/mm²) over its area. */
export function softCopperBreakNewtons(areaMm2: number): number {
  return ((37_000 * NEWTONS_PER_LBF) / 25.4 ** 2) * areaMm2
}

/** Least crimp strength in N for a combination no table lists: 60 % of the wire's own (NASA-STD-8739.4). */
export function unlistedCrimpNewtons(areaMm2: number): number {
  return 0.6 * softCopperBreakNewtons(areaMm2)
}
