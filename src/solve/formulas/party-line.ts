import { parallelOhms } from './impedance.ts'

/**
 * Level error in dB of one channel of a powered party line, whose stations drive it as current sources:
 * `20 · log10(Zactual / Znominal)`. Two terminators where one belongs give -6 dB; none leaves only the stations' bridging
 * impedance, so the channel is far too loud and may howl. Common practice: one 200 Ω terminator a channel.
 * @param terminatorsOhms every terminator found on the channel
 * @param bridgingOhms bridging impedance of each station on it
 * @param nominalOhms the one terminator the level is set for
 */
export function partyLineErrorDb(
  terminatorsOhms: readonly number[],
  bridgingOhms: readonly number[],
  nominalOhms = 200,
): number {
  const nominal = parallelOhms([nominalOhms, ...bridgingOhms])
  return 20 * Math.log10(parallelOhms([...terminatorsOhms, ...bridgingOhms]) / nominal)
}
