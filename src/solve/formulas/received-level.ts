/** Level in dBm of a voltage in µV rms across an impedance: `10 · log10(V² / R / 1 mW)`. 1 µV in 50 Ω is -106.99 dBm. */
export function dbmFromMicrovolts(microvolts: number, ohms = 50): number {
  return 10 * Math.log10(((microvolts * 1e-6) ** 2 / ohms) * 1000)
}

/** Voltage in µV rms of a level in dBm across an impedance (potential difference; the EMF behind it is twice that). */
export function microvoltsFromDbm(dbm: number, ohms = 50): number {
  return Math.sqrt((10 ** (dbm / 10) / 1000) * ohms) * 1e6
}

/** Watts of a level in dBm. */
export function wattsFromDbm(dbm: number): number {
  return 10 ** (dbm / 10) / 1000
}

/** Level in dBm of a power in watts. */
export function dbmFromWatts(watts: number): number {
  return 10 * Math.log10(watts * 1000)
}

/** Level in dBµV of a level in dBm: 106.99 more in 50 Ω, 108.75 more in 75 Ω. */
export function dbMicrovoltsFromDbm(dbm: number, ohms = 50): number {
  return 20 * Math.log10(microvoltsFromDbm(dbm, ohms))
}
