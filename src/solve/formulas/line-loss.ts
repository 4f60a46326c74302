/**
 * Level lost in a loudspeaker line in dB, as heard: `20 · log10((Z + R) / Z)`, R being out and back, the amplifier holding its
 * voltage. This is the convention of most published loss tables; compare {@link lineEfficiencyLossDb}.
 */
export function lineLossDb(loadOhms: number, loopOhms: number): number {
  return 20 * Math.log10((loadOhms + loopOhms) / loadOhms)
}

/**
 * The other convention: how much of the power the amplifier gives fails to arrive, `10 · log10((Z + R) / Z)` dB.
 * Half the figure of {@link lineLossDb}; never print one without its name.
 */
export function lineEfficiencyLossDb(loadOhms: number, loopOhms: number): number {
  return 10 * Math.log10((loadOhms + loopOhms) / loadOhms)
}

/** Largest loop resistance in Ω that keeps {@link lineLossDb} within `lossDb`. */
export function loopOhmsForLoss(loadOhms: number, lossDb: number): number {
  return loadOhms * (10 ** (lossDb / 20) - 1)
}
