/** Loss in dB of a feeder: `length · loss + joints · loss each`. Mismatch comes on top. */
export function feederLossDb(lengthMm: number, dbPerMetre: number, joints = 0, dbPerJoint = 0): number {
  return (lengthMm / 1000) * dbPerMetre + joints * dbPerJoint
}

/** Watts that leave a feeder: `P · 10^(-dB/10)`. */
export function feederOutputWatts(inputWatts: number, lossDb: number): number {
  return inputWatts * 10 ** (-lossDb / 10)
}
