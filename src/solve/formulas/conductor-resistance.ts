import type { WireGauge } from '../../base/wire-size.ts'
import { COPPER_OHM_MM2_PER_M, copperAtTemperature } from './copper-at-temperature.ts'

type Finish = 'plain' | 'tinned'
type Row = { readonly areaMm2: number; readonly plain: number; readonly tinned: number }

const row = (areaMm2: number, plain: number, tinned: number): Row => ({ areaMm2, plain, tinned })

/**
 * Largest resistance in Ω/km at 20 °C that IEC 60228 allows a class 5 (flexible) copper conductor of each nominal area.
 * The four finest are DIN VDE 0295 class 5, which takes the series on downwards.
 */
export const CLASS_5_OHMS_PER_KM: readonly Row[] = [
  row(0.14, 134, 138),
  row(0.22, 96, 99),
  row(0.25, 76, 79),
  row(0.34, 53, 56),
  row(0.5, 39.0, 40.1),
  row(0.75, 26.0, 26.7),
  row(1, 19.5, 20.0),
  row(1.5, 13.3, 13.7),
  row(2.5, 7.98, 8.21),
  row(4, 4.95, 5.09),
  row(6, 3.3, 3.39),
  row(10, 1.91, 1.95),
  row(16, 1.21, 1.24),
  row(25, 0.78, 0.795),
  row(35, 0.554, 0.565),
  row(50, 0.386, 0.393),
]

/** Strands lie in a helix, so they are longer than the wire: 2 % covers NEC chapter 9 table 8 within 0.6 %. */
const STRANDING_LAY = 1.02

/** Resistance in Ω/m of a solid annealed copper wire: `ρ / A` at 20 °C, moved to `celsius` (ASTM B258, IEC 60028). */
export function solidOhmsPerMetre(areaMm2: number, celsius = 20): number {
  return copperAtTemperature(COPPER_OHM_MM2_PER_M / areaMm2, celsius)
}

/** Resistance in Ω/m of a stranded copper wire of gauge area `areaMm2`: solid wire and 2 % for the lay of the strands. */
export function strandedOhmsPerMetre(areaMm2: number, celsius = 20): number {
  return STRANDING_LAY * solidOhmsPerMetre(areaMm2, celsius)
}

/**
 * Largest resistance in Ω/m of a flexible metric conductor: the class 5 maximum of IEC 60228, moved to `celsius`.
 * Between listed areas the ratio of that maximum to ρ/A (0.82 to 0.96, mostly 0.88) is interpolated over the logarithm
 * of area; beyond the list the ratio of the last row is kept. The result falls as area grows.
 */
export function class5OhmsPerMetre(areaMm2: number, celsius = 20, finish: Finish = 'plain'): number {
  return copperAtTemperature(COPPER_OHM_MM2_PER_M / areaMm2 / fill(areaMm2, finish), celsius)
}

/** How much copper the nominal area holds at least: ρ / (A · Rmax). */
function fill(areaMm2: number, finish: Finish): number {
  const ratio = (entry: Row): number => COPPER_OHM_MM2_PER_M / entry.areaMm2 / (entry[finish] / 1000)
  const upper = CLASS_5_OHMS_PER_KM.findIndex((entry) => entry.areaMm2 >= areaMm2)
  const above = CLASS_5_OHMS_PER_KM.at(upper)
  const below = CLASS_5_OHMS_PER_KM[upper - 1]
  if (!above) return Number.NaN
  if (!below || upper < 0) return ratio(above)
  const share = Math.log(areaMm2 / below.areaMm2) / Math.log(above.areaMm2 / below.areaMm2)
  return ratio(below) + share * (ratio(above) - ratio(below))
}

/**
 * Resistance in Ω/m to reckon a wire with. A gauge is ASTM B258 geometry with 2 % for stranding, which is what the
 * tables of gauges print; a metric size is the IEC 60228 class 5 maximum, the worst that may be sold under that size.
 * @param celsius conductor temperature, not air temperature
 */
export function conductorOhmsPerMetre(size: WireGauge, celsius = 20, finish: Finish = 'plain'): number {
  return size.awg === undefined
    ? class5OhmsPerMetre(size.areaMm2, celsius, finish)
    : strandedOhmsPerMetre(size.areaMm2, celsius)
}

/** Resistance in Ω of one conductor of `lengthMm`; for a feed and its return, add both. */
export function conductorOhms(
  size: WireGauge,
  lengthMm: number,
  celsius = 20,
  finish: Finish = 'plain',
): number {
  return (conductorOhmsPerMetre(size, celsius, finish) * lengthMm) / 1000
}

/** Copper mass in grams of one conductor. */
export function conductorGrams(areaMm2: number, lengthMm: number, gramsPerCm3 = 8.89): number {
  return (areaMm2 * lengthMm * gramsPerCm3) / 1000
}
