import { FUSE_RATINGS } from './fuse-ratings.ts'

/** A fuse carries this share of its rating for good at 25 °C; above it ages and opens some day for no reason. */
export const CONTINUOUS_SHARE = 0.75

/** Smallest fuse rating in amperes for a load that stays on: `I / 0.75` (fuse makers' common practice, 25 °C). */
export function fuseMinimum(loadAmps: number): number {
  return loadAmps / CONTINUOUS_SHARE
}

/** Smallest standard rating for that load, or undefined when none is large enough. */
export function fuseForLoad(loadAmps: number, ratings: readonly number[] = FUSE_RATINGS): number | undefined {
  return ratings.find((rating) => rating >= fuseMinimum(loadAmps) * (1 - 1e-9))
}
