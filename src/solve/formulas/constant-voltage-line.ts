/** Share of an amplifier's watts to load a 70 V or 100 V line with (common practice). */
export const LINE_LOADING = 0.8

/** Impedance in Ω of a transformer tap: `V² / P`. On a 70.7 V line 5000/P, on a 100 V line 10000/P. */
export function tapOhms(lineVolts: number, tapWatts: number): number {
  return lineVolts ** 2 / tapWatts
}

/** Watts a tap takes on a line of another voltage: `P · (Vnew / Vrated)²`. */
export function tapWattsAt(tapWatts: number, ratedVolts: number, lineVolts: number): number {
  return tapWatts * (lineVolts / ratedVolts) ** 2
}

/** Sum of the taps on a line, in watts. */
export function lineWatts(taps: readonly number[]): number {
  return taps.reduce((sum, watts) => sum + watts, 0)
}
