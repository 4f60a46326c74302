import type { FuseInput } from './part-kinds.ts'

/** Body colour by rating in amperes, ISO 8820-3 (regular and mini). 35 A from its later sizes. */
export const BLADE_COLOURS = {
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
} as const

/** Body colour by rating in amperes, maxi size. The same colour means another rating than on a regular blade. */
export const MAXI_COLOURS = {
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
} as const

const GLASS_RATINGS = ['0.5', '1', '2', '3.15', '5', '6.3', '10'] as const
const STRIP_RATINGS = ['30', '40', '50', '60', '80', '100', '125', '150', '200'] as const
const BREAKER_RATINGS = [
  '5',
  '10',
  '15',
  '20',
  '25',
  '30',
  '40',
  '50',
  '60',
  '80',
  '100',
  '120',
  '150',
] as const

export type StandardFuseId =
  | `${'blade' | 'mini'}-${keyof typeof BLADE_COLOURS}`
  | `maxi-${keyof typeof MAXI_COLOURS}`
  | `glass-${(typeof GLASS_RATINGS)[number]}`
  | `strip-${(typeof STRIP_RATINGS)[number]}`
  | `breaker-${(typeof BREAKER_RATINGS)[number]}`

const BLADE_SOURCE = 'ISO 8820-3, SAE J1284'

function coloured(
  style: 'blade' | 'mini' | 'maxi',
  title: string,
  colours: Readonly<Record<string, string>>,
): FuseInput[] {
  return (
    Object.entries(colours)
      // Numeric-looking keys are ordered before "7.5" by the language; a list people read goes by rating.
      .sort(([a], [b]) => Number(a) - Number(b))
      .map(([rating, colour]) => ({
        ...fuse(style, title, rating, '32 V', BLADE_SOURCE),
        colour,
      }))
  )
}

function fuse(
  style: FuseInput['style'],
  title: string,
  rating: string,
  volts: NonNullable<FuseInput['volts']>,
  source: string,
): FuseInput {
  return {
    kind: 'fuse',
    id: `${style}-${rating}`,
    title: `${title}, ${rating} A`,
    style,
    rating: `${Number(rating)} A`,
    volts,
    source,
  }
}

/** Every standard fuse and breaker. Cold resistance is left to the shop's allowance or the data sheet. */
export const standardFuses = (): FuseInput[] => [
  ...coloured('blade', 'Blade fuse', BLADE_COLOURS),
  ...coloured('mini', 'Mini blade fuse', BLADE_COLOURS),
  ...coloured('maxi', 'Maxi blade fuse', MAXI_COLOURS),
  ...GLASS_RATINGS.map((rating) => fuse('glass', 'Glass fuse 5 × 20 mm', rating, '250 V', 'IEC 60127-2')),
  ...STRIP_RATINGS.map((rating) => fuse('strip', 'Bolt-down strip fuse', rating, '58 V', 'ISO 8820-5')),
  ...BREAKER_RATINGS.map((rating) =>
    fuse('breaker', 'Circuit breaker, manual reset', rating, '48 V', 'SAE J553 type III; from memory.'),
  ),
]
