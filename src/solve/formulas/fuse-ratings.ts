/** Standard ratings in amperes and body colours of blade fuses, small and standard size: ISO 8820-3, SAE J1284. */
export const BLADE_FUSE_COLOURS: Readonly<Record<string, string>> = {
  '1': 'black',
  '2': 'grey',
  '3': 'violet',
  '4': 'pink',
  '5': 'tan',
  '7.5': 'brown',
  '10': 'red',
  '15': 'blue',
  '20': 'yellow',
  '25': 'clear',
  '30': 'green',
  '35': 'blue-green',
  '40': 'orange',
}

/** The large blade fuses have colours of their own: a 25 A one is grey, a 35 A one brown. */
export const LARGE_BLADE_FUSE_COLOURS: Readonly<Record<string, string>> = {
  '20': 'yellow',
  '25': 'grey',
  '30': 'green',
  '35': 'brown',
  '40': 'orange',
  '50': 'red',
  '60': 'blue',
  '70': 'tan',
  '80': 'clear',
  '100': 'violet',
  '120': 'purple',
}

const ratings = (colours: Readonly<Record<string, string>>): number[] =>
  Object.keys(colours)
    .map(Number)
    .sort((a, b) => a - b)

/** Ratings in which blade fuses are sold, in amperes, rising. */
export const BLADE_FUSE_RATINGS: readonly number[] = ratings(BLADE_FUSE_COLOURS)
/** Ratings in which large blade fuses are sold, in amperes, rising. */
export const LARGE_BLADE_FUSE_RATINGS: readonly number[] = ratings(LARGE_BLADE_FUSE_COLOURS)
/** All ratings to choose from, in amperes, rising. */
export const FUSE_RATINGS: readonly number[] = [
  ...new Set([...BLADE_FUSE_RATINGS, ...LARGE_BLADE_FUSE_RATINGS]),
].sort((a, b) => a - b)

/** The colour of a blade fuse, or undefined when no such rating is sold in that size. */
export function bladeFuseColour(
  ratingAmps: number,
  size: 'blade' | 'large blade' = 'blade',
): string | undefined {
  return (size === 'blade' ? BLADE_FUSE_COLOURS : LARGE_BLADE_FUSE_COLOURS)[String(ratingAmps)]
}
