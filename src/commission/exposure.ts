import { formatChannel, formatLength, formatWatts, significant } from '../base/format-quantity.ts'
import { feederOutputWatts } from '../solve/formulas/feeder-power.ts'
import { exposureDistanceMm, exposureLimit } from '../solve/formulas/rf-exposure.ts'
import type { RfChain } from './rf-chain.ts'

/** Half of the time on air: the usual press-to-talk duty (OET Bulletin 65). */
const DUTY = 0.5
/** Half-wave dipole over isotropic, where an antenna states no gain. */
const DIPOLE_DB = 2.15

/**
 * How far the general public has to keep from an antenna: far field, averaged over 30 minutes (47 CFR 1.1310, OET Bulletin 65).
 * Undefined where power, channel or antenna is not known.
 */
export function exposureText({ radio, antenna, hertz, lossDb }: RfChain): string | undefined {
  const watts = radio.does.watts
  const limit = hertz === undefined ? undefined : exposureLimit(hertz, 'general')
  if (watts === undefined || hertz === undefined || limit === undefined || !antenna) return undefined
  const out = feederOutputWatts(watts, lossDb ?? 0)
  const gainDb = antenna.does.gain ?? DIPOLE_DB
  const distance = exposureDistanceMm(out * DUTY, 10 ** (gainDb / 10), limit)
  const stated = antenna.does.gain === undefined ? ' (a dipole’s, none is stated)' : ''
  const rounded = Math.ceil(distance / 100) * 100
  return `Nobody nearer than ${formatLength(rounded)} to the antenna of ${radio.half?.unit?.id ?? 'the radio'} while it transmits: ${formatWatts(out)} at ${formatChannel(hertz)}, half of the time on air, ${significant(gainDb)} dBi${stated}, ${significant(limit)} mW/cm² for the general public, far field (47 CFR 1.1310, OET Bulletin 65). The larger distance that the equipment maker or your own rules state comes first.`
}
