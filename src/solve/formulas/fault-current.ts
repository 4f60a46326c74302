/** Current in amperes into a dead short: `V / (Rsource + Rloop)`. */
export function faultCurrent(volts: number, sourceOhms: number, loopOhms: number): number {
  return volts / (sourceOhms + loopOhms)
}

/**
 * Whether a short at the far end opens the fuse in good time, by the ratio of fault current to rating.
 * Five times or more opens a blade fuse within about 0.5 s; at twice it may take 5 s (ISO 8820-3, from memory), by which time
 * a thin wire smokes.
 */
export function faultVerdict(
  faultAmps: number,
  ratingAmps: number,
): 'opens at once' | 'opens late' | 'may not open' {
  const ratio = faultAmps / ratingAmps
  if (ratio >= 5) return 'opens at once'
  return ratio >= 2 ? 'opens late' : 'may not open'
}
