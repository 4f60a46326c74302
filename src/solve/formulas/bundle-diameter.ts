/**
 * Diameter of the smallest circle around n equal circles of diameter 1, n from 1 to 30: Graham 1968, Pirl 1969, Melissen 1994,
 * Fodor 1999 to 2003; best known packings of Goldberg 1971 and Reis 1975 for the rest.
 */
const EQUAL_CIRCLES: readonly number[] = [
  1, 2, 2.154701, 2.414214, 2.701302, 3, 3, 3.304765, 3.613126, 3.813026, 3.923804, 4.029602, 4.236068,
  4.328429, 4.521357, 4.615426, 4.792034, 4.863703, 4.863703, 5.122321, 5.252317, 5.439719, 5.545204,
  5.651661, 5.752824, 5.828177, 5.906398, 6.014938, 6.138598, 6.197741,
]

/** The harness rule of thumb: `1.2 · sqrt(Σd²)`. It is 15 % low for two wires and up to 7.5 % high from 11 to 30. */
export function bundleRuleMm(diametersMm: readonly number[]): number {
  return 1.2 * Math.sqrt(diametersMm.reduce((sum, diameter) => sum + diameter ** 2, 0))
}

/**
 * Diameter in mm of a bundle. Up to 30 equal wires: exact circle packing. Otherwise the rule of thumb, but never less than the
 * k thickest wires need if all were as thin as the thinnest of them, nor than the two thickest side by side: both are certain.
 */
export function bundleDiameterMm(diametersMm: readonly number[]): number {
  const sorted = diametersMm.filter((diameter) => diameter > 0).sort((a, b) => b - a)
  const [first, second = 0] = sorted
  const thinnest = sorted.at(-1)
  if (first === undefined || thinnest === undefined) return 0
  const exact = EQUAL_CIRCLES[sorted.length - 1]
  if (exact !== undefined && first - thinnest <= 1e-6 * first) return exact * first
  const floor = sorted.reduce(
    (best, diameter, index) => Math.max(best, (EQUAL_CIRCLES[index] ?? 0) * diameter),
    0,
  )
  return Math.max(bundleRuleMm(sorted), floor, first + second)
}
