/** Impedance in Ω each half of a bridge-tied output works into: half the loudspeaker, since the other half pulls as hard. */
export function bridgedHalfLoad(loadOhms: number): number {
  return loadOhms / 2
}

/** Smallest loudspeaker in Ω across a bridge-tied pair whose halves each need `halfMinimumOhms` to ground. */
export function bridgedMinimumLoad(halfMinimumOhms: number): number {
  return 2 * halfMinimumOhms
}
