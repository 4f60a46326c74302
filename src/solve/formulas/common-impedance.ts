/** Noise in V that a current along a shared conductor adds to a signal: `I · R` (Whitlock, common-impedance coupling). */
export function commonImpedanceVolts(amps: number, sharedOhms: number): number {
  return amps * sharedOhms
}

/** How many dB quieter a signal is with the lower of two shared resistances: `20 · log10(R1 / R2)`. */
export function sharedResistanceGainDb(ohmsBefore: number, ohmsAfter: number): number {
  return 20 * Math.log10(ohmsBefore / ohmsAfter)
}

/** Level of the noise below the signal in dB; positive when the signal is the larger. */
export function signalToNoiseDb(signalVolts: number, noiseVolts: number): number {
  return 20 * Math.log10(signalVolts / noiseVolts)
}

/** Noise and distortion as a share of the whole signal at a SINAD in dB: `10^(-SINAD/20)` (TIA-603). */
export function residueFromSinad(sinadDb: number): number {
  return 10 ** (-sinadDb / 20)
}
