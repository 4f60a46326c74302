import type { Conductor, Loom } from '../../resolve/loom.ts'
import { ampacityOf } from './ampacity-of.ts'

/** A screen, a coaxial braid or a thin signal wire has no rating for supply current; this much is taken as harmless. */
export const SCREEN_AMPS = 1

const isSignal = (conductor: Conductor): boolean =>
  conductor.kind === 'shield' ||
  [conductor.from, conductor.to].some(
    (end) => end?.does.kind === 'signal-return' || end?.does.kind === 'shield' || end?.does.kind === 'rf',
  )

/** What a conductor bears of supply current that was never meant for it; undefined where its size is not known. */
export function bears(loom: Loom, conductor: Conductor): number | undefined {
  if (conductor.kind === 'shield') return SCREEN_AMPS
  const known = ampacityOf(loom, conductor)?.amps
  return isSignal(conductor) ? Math.min(known ?? SCREEN_AMPS, SCREEN_AMPS) : known
}
