import { BLADE_COLOURS, MAXI_COLOURS } from '../../catalogue/fuses.ts'

const ratings = (colours: Readonly<Record<string, string>>): number[] =>
  Object.keys(colours)
    .map(Number)
    .sort((a, b) => a - b)

/** Ratings in which blade fuses are sold, in amperes, rising. */
export const BLADE_FUSE_RATINGS: readonly number[] = ratings(BLADE_COLOURS)
/** Ratings in which large blade fuses are sold, in amperes, rising. */
export const LARGE_BLADE_FUSE_RATINGS: readonly number[] = ratings(MAXI_COLOURS)
/** All ratings to choose from, in amperes, rising. */
export const FUSE_RATINGS: readonly number[] = [
  ...new Set([...BLADE_FUSE_RATINGS, ...LARGE_BLADE_FUSE_RATINGS]),
].sort((a, b) => a - b)

/** The colour of a blade fuse, or undefined when no such rating is sold in that size. */
export function bladeFuseColour(
  ratingAmps: number,
  size: 'blade' | 'large blade' = 'blade',
): string | undefined {
  const colours: Readonly<Record<string, string>> = size === 'blade' ? BLADE_COLOURS : MAXI_COLOURS
  return colours[String(ratingAmps)]
}
