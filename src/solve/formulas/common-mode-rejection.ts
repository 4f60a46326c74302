/**
 * Common-mode rejection in dB left by a source whose legs differ: `20 · log10(Zleg / ΔR)`.
 * Model: Whitlock, *Balanced lines in audio systems* (JAES 1995). IEC 60268-3 tests with ΔR = 10 Ω.
 * @param legInputOhms common-mode input impedance of one leg
 * @param imbalanceOhms difference between the source resistances of the two legs
 */
export function rejectionFromImbalanceDb(legInputOhms: number, imbalanceOhms: number): number {
  return 20 * Math.log10(legInputOhms / imbalanceOhms)
}

/**
 * Typical common-mode rejection in dB of a resistor differential stage: `20 · log10((1 + G) / (2 · t))`, t the tolerance as a
 * share (0.01 for 1 %). The worst draw of four resistors is 6 dB lower.
 */
export function rejectionFromToleranceDb(tolerance: number, gain = 1): number {
  return 20 * Math.log10((1 + gain) / (2 * tolerance))
}

/** Rejection in dB that leaves `outputDbu` of a common-mode level `inputDbu`. */
export function rejectionAchievedDb(inputDbu: number, outputDbu: number): number {
  return inputDbu - outputDbu
}
