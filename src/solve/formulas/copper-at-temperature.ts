/** Volume resistivity of annealed copper of 100 % IACS at 20 °C in Ω·mm²/m: 1/58, exact by IEC 60028. */
export const COPPER_OHM_MM2_PER_M = 1 / 58
/** Density of annealed copper in g/cm³ (IEC 60028). */
export const COPPER_GRAMS_PER_CM3 = 8.89
/** Below this the straight line for copper has no meaning (°C). */
const ZERO_RESISTANCE_C = -234.5

/**
 * Resistance of copper at a temperature from its resistance at 20 °C: `R20 · (234.5 + T) / 254.5`.
 * Source: IEC 60028, FAA AC 43.13-1B paragraph 11-66. Domain: about -50 to 200 °C; the result never goes below zero.
 * @param ohms20 resistance at 20 °C, in any unit of resistance
 * @param celsius conductor temperature
 */
export function copperAtTemperature(ohms20: number, celsius: number): number {
  return (ohms20 * Math.max(0, celsius - ZERO_RESISTANCE_C)) / 254.5
}

/**
 * Resistance of copper moved from one temperature to another by the note under NFPA 70 (NEC) chapter 9 table 8:
 * `R2 = R1 · (1 + 0.00323 · (T2 - 75))`, R1 being at 75 °C.
 */
export function copperFrom75(ohms75: number, celsius: number): number {
  return ohms75 * (1 + 0.00323 * (celsius - 75))
}

/** Factor that brings a resistance measured at `celsius` to 20 °C, as IEC 60228 tabulates it: `250 / (230 + t)`. */
export function iec60228TemperatureFactor(celsius: number): number {
  return 250 / (230 + celsius)
}

/**
 * Length that at conductor temperature `celsius` has the drop which `length` has at 20 °C: `254.5 · L / (234.5 + T2)`.
 * Source: FAA AC 43.13-1B paragraph 11-66. Same unit of length in and out.
 */
export function lengthAtTemperature(length: number, celsius: number): number {
  return (254.5 * length) / (234.5 + celsius)
}
