import { parallelOhms } from './impedance.ts'

export type BusTermination = { readonly ohms: number; readonly verdict: 'right' | 'too few' | 'too many' }

/**
 * Resistance between CAN_H and CAN_L with the bus unpowered: two 120 Ω terminators, one at each end, read 60 Ω.
 * Source: ISO 11898-2, CiA 303-1. Terminators of 118 to 130 Ω put a right bus between 59 and 65 Ω; 54 to 66 Ω also leaves
 * room for transceivers and the meter.
 */
export function canTermination(terminatorsOhms: readonly number[]): BusTermination {
  const ohms = parallelOhms(terminatorsOhms)
  if (ohms > 66) return { ohms, verdict: 'too few' }
  return { ohms, verdict: ohms < 54 ? 'too many' : 'right' }
}

/** Longest trunk in m by bit rate, for CAN: CiA 303-1 and practice. */
const TRUNK: readonly { readonly bitRate: number; readonly metres: number }[] = [
  { bitRate: 1_000_000, metres: 40 },
  { bitRate: 125_000, metres: 500 },
  { bitRate: 62_500, metres: 1000 },
  { bitRate: 20_000, metres: 2500 },
  { bitRate: 10_000, metres: 5000 },
]

/** Longest CAN trunk in mm at a bit rate; between listed rates the length of the next faster one is used. */
export function canTrunkLimitMm(bitRate: number): number | undefined {
  const row = TRUNK.findLast((entry) => entry.bitRate >= bitRate)
  return row && row.metres * 1000
}
