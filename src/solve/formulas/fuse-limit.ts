import { FUSE_RATINGS } from './fuse-ratings.ts'

/** Below this voltage 33 CFR 183.455 lets a fuse exceed the wire's rating by half. */
const LOW_VOLTAGE = 50
const EXCESS = 1.5

/**
 * Largest fuse rating in amperes that protects a wire of that ampacity.
 * 33 CFR 183.455(c): under 50 V at most 150 % of the ampacity. From 50 V on the ampacity itself, or the next standard size up
 * when that is within 150 %.
 */
export function fuseLimit(ampacityAmps: number, systemVolts: number): number {
  if (systemVolts < LOW_VOLTAGE) return EXCESS * ampacityAmps
  const next = FUSE_RATINGS.find((rating) => rating >= ampacityAmps)
  return next !== undefined && next <= EXCESS * ampacityAmps ? next : ampacityAmps
}

/**
 * The good choice rather than the legal limit: a rating not above the ampacity, else the next standard size up within
 * 150 % (ABYC E-11.10, for circuits without a motor).
 */
export function fuseFitsWire(
  ratingAmps: number,
  ampacityAmps: number,
): 'within' | 'next size up' | 'too large' {
  if (ratingAmps <= ampacityAmps) return 'within'
  const next = FUSE_RATINGS.find((rating) => rating >= ampacityAmps)
  return ratingAmps <= EXCESS * ampacityAmps && (next === undefined || ratingAmps <= next)
    ? 'next size up'
    : 'too large'
}
