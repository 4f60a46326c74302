import { areaFromCircularMils } from '../../base/wire-size.ts'
import { COPPER_OHM_MM2_PER_M, copperAtTemperature } from './copper-at-temperature.ts'

/** Volts lost in a resistance: `I · R`. For a circuit, R is feed and return together. */
export function voltageDrop(amps: number, ohms: number): number {
  return amps * ohms
}

/**
 * Area in circular mils that keeps a drop: `CM = K · I · L / E`, K = 10.75 Ω·CM/ft, L in feet out **and** back, E in volts.
 * Source: ABYC E-11 wire size formula. K is copper at about 27 °C with some strand lay.
 */
export function requiredCircularMils(amps: number, loopFeet: number, dropVolts: number, k = 10.75): number {
  return (k * amps * loopFeet) / dropVolts
}

/** The area in mm² that {@link requiredCircularMils} asks for, from a loop length in mm. */
export function requiredAreaMm2(amps: number, loopLengthMm: number, dropVolts: number, k = 10.75): number {
  return areaFromCircularMils(requiredCircularMils(amps, loopLengthMm / 304.8, dropVolts, k))
}

/** Area in mm² of solid copper at `celsius` that keeps the drop: `A = ρ · I · L / E`, L in mm out and back. */
export function requiredCopperAreaMm2(
  amps: number,
  loopLengthMm: number,
  dropVolts: number,
  celsius = 20,
): number {
  return (copperAtTemperature(COPPER_OHM_MM2_PER_M, celsius) * amps * loopLengthMm) / 1000 / dropVolts
}
