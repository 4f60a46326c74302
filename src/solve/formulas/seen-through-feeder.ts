import { type Reflection, reflectionFromCoefficient, reflectionFromVswr } from './reflection.ts'

/**
 * Reflection at the near end of a line that loses `lossDb` one way, with a reflection of `vswr` at its far end: what comes back is
 * weakened twice, `RL = RL_far + 2 · loss`. A lossy feeder makes a bad antenna look good.
 */
export function seenThroughFeeder(vswr: number, lossDb: number): Reflection {
  return reflectionFromCoefficient(reflectionFromVswr(vswr).coefficient * 10 ** (-lossDb / 10))
}
