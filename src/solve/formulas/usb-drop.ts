/** Resistance in Ω/m at which USB 2.0 reckons its power pair, by gauge (figures from memory). */
const POWER_OHMS_PER_M: Readonly<Record<number, number>> = {
  28: 0.232,
  26: 0.145,
  24: 0.0909,
  22: 0.0574,
  20: 0.0358,
}
/** Resistance in Ω left to each power conductor, so that 500 mA drops 125 mV with two contacts of 30 mΩ. */
const CONDUCTOR_OHMS = 0.19
const CONTACT_OHMS = 0.03
/** 26 ns of delay at 5.2 ns/m. */
const LONGEST_M = 5

/** Longest USB 2.0 cable in mm for a power pair of that gauge: `0.19 Ω / (Ω/m)`, and never above 5 m of delay. */
export function usbCableLimitMm(awg: number): number | undefined {
  const ohmsPerMetre = POWER_OHMS_PER_M[awg]
  return ohmsPerMetre && 1000 * Math.min(LONGEST_M, CONDUCTOR_OHMS / ohmsPerMetre)
}

/** Volts lost in one conductor of a USB cable and its two contacts. */
export function usbConductorDrop(
  amps: number,
  conductorOhms = CONDUCTOR_OHMS,
  contactOhms = CONTACT_OHMS,
): number {
  return amps * (conductorOhms + 2 * contactOhms)
}
