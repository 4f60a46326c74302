/** Upper length tolerance by finished length; the lower one is always zero, because a short wire is scrap. */
const STEPS: readonly (readonly [belowMm: number, plusMm: number])[] = [
  [300, 25],
  [1500, 50],
  [3000, 100],
  [7500, 150],
]
const LONG_SHARE = 0.05

/**
 * How much longer than its figure a piece may be cut, in mm: +25 below 0.3 m, +50 below 1.5 m, +100 below 3 m,
 * +150 below 7.5 m, +5 % from there (length table of IPC/WHMA-A-620 as quoted by cable makers).
 */
export function cutToleranceMm(lengthMm: number): number {
  const step = STEPS.find(([below]) => lengthMm < below)
  return step ? step[1] : Math.round(lengthMm * LONG_SHARE)
}
