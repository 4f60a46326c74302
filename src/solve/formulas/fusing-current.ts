import { circularMils, solidDiameterMm } from '../../base/wire-size.ts'

/** Current in A that melts a bare copper wire in free air: Preece, `10244 · d^1.5`, d in inches (from memory). */
export function preeceFusingAmps(areaMm2: number): number {
  return 10244 * (solidDiameterMm(areaMm2) / 25.4) ** 1.5
}

/**
 * Current in A that melts a copper wire within `seconds`: Onderdonk,
 * `CM · sqrt(log10((Tmelt - Tair)/(234 + Tair) + 1) / (33 · t))` (from memory). Domain: seconds, at most about ten.
 */
export function onderdonkFusingAmps(areaMm2: number, seconds: number, airC = 20, meltC = 1083): number {
  return circularMils(areaMm2) * Math.sqrt(Math.log10((meltC - airC) / (234 + airC) + 1) / (33 * seconds))
}
