export type HeatShrink = {
  readonly ratio: 2 | 3 | 4
  /** Inside diameter as supplied, mm. */
  readonly suppliedMm: number
  /** Inside diameter when shrunk with nothing in it, mm. */
  readonly recoveredMm: number
}

const sizes = (ratio: HeatShrink['ratio'], ...supplied: number[]): HeatShrink[] =>
  supplied.map((suppliedMm) => ({ ratio, suppliedMm, recoveredMm: suppliedMm / ratio }))

/** Usual inside diameters of heat-shrink sleeving (SAE AMS-DTL-23053 series and metric practice, from memory). */
export const HEAT_SHRINK_SIZES: readonly HeatShrink[] = [
  ...sizes(2, 1.2, 1.6, 2.4, 3.2, 4.8, 6.4, 9.5, 12.7, 19, 25.4, 38, 51),
  ...sizes(3, 1.5, 3, 6, 9, 12, 18, 24, 39),
  ...sizes(4, 4, 8, 12, 16, 24, 32, 52),
]

/** Slack to slide it on, and shrink kept in hand so that it grips (SAE AMS-DTL-23053 practice: a fifth unshrunk). */
const SLIDE_ON = 1.05
const GRIP = 0.8

/**
 * The sleeve for a place: wide enough to pass over the largest thing on the way, still tight on the smallest thing it grips.
 * The lowest ratio that does it, then the narrowest: it shrinks least in length and costs least.
 * @returns undefined when no usual size does both; put it on before the connector, or use a moulded part
 */
export function heatShrinkFor(
  passedMm: number,
  grippedMm: number,
  stock: readonly HeatShrink[] = HEAT_SHRINK_SIZES,
): HeatShrink | undefined {
  return [...stock]
    .sort((a, b) => a.ratio - b.ratio || a.suppliedMm - b.suppliedMm)
    .find((sleeve) => sleeve.suppliedMm >= SLIDE_ON * passedMm && sleeve.recoveredMm <= GRIP * grippedMm)
}
