import type { Colour, ColourCode } from './colour.ts'

/**
 * DIN 47100 core colours, core 1 first, ground colour then tracer. Withdrawn in 1998 and still what most data cable uses.
 * A four-core cable is the exception: white, brown, green, yellow in this list, but sold as white, yellow, brown, green.
 */
export const DIN_47100 = [
  'WH',
  'BN',
  'GN',
  'YE',
  'GY',
  'PK',
  'BU',
  'RD',
  'BK',
  'VT',
  'GYPK',
  'RDBU',
  'WHGN',
  'BNGN',
  'WHYE',
  'YEBN',
  'WHGY',
  'GYBN',
  'WHPK',
  'PKBN',
  'WHBU',
  'BNBU',
  'WHRD',
  'BNRD',
  'WHBK',
  'BNBK',
  'GYGN',
  'YEGY',
  'PKGN',
  'YEPK',
  'GNBU',
  'YEBU',
  'GNRD',
  'YERD',
  'GNBK',
  'YEBK',
  'GYBU',
  'PKBU',
  'GYRD',
  'PKRD',
  'GYBK',
  'PKBK',
  'BUBK',
  'RDBK',
] as const satisfies readonly Colour[]

/** TIA-568 scheme A for an eight-position modular plug, position 1 first. */
export const T568A = [
  'WHGN',
  'GN',
  'WHOG',
  'BU',
  'WHBU',
  'OG',
  'WHBN',
  'BN',
] as const satisfies readonly Colour[]
/** TIA-568 scheme B for an eight-position modular plug, position 1 first. */
export const T568B = [
  'WHOG',
  'OG',
  'WHGN',
  'BU',
  'WHBU',
  'GN',
  'WHBN',
  'BN',
] as const satisfies readonly Colour[]
/** The positions of each twisted pair of a TIA-568 plug, by pair number in that scheme. */
export const TIA_568_PAIRS = {
  T568A: { 1: [5, 4], 2: [3, 6], 3: [1, 2], 4: [7, 8] },
  T568B: { 1: [5, 4], 2: [1, 2], 3: [3, 6], 4: [7, 8] },
} as const

const DIN_47100_FOUR_CORE = ['WH', 'YE', 'BN', 'GN'] as const satisfies readonly Colour[]
const TIP = ['WH', 'RD', 'BK', 'YE', 'VT'] as const satisfies readonly ColourCode[]
const RING = ['BU', 'OG', 'GN', 'BN', 'GY'] as const satisfies readonly ColourCode[]

/** The colour of a core (from 1) of a DIN 47100 cable with that many cores; cores from 45 on start again at white. */
export function din47100Core(core: number, coresInCable: number): Colour | undefined {
  if (!Number.isInteger(core) || core < 1 || core > coresInCable) return undefined
  return coresInCable === 4 ? DIN_47100_FOUR_CORE[core - 1] : DIN_47100[(core - 1) % DIN_47100.length]
}

/**
 * Pair 1 to 25 of the 25-pair telephone colour code: `tip` is the group colour with the ring colour as tracer, `ring`
 * the reverse. Slate is GY. The pair's two group colours alone are what most people call it by.
 */
export function twentyFivePair(
  pair: number,
): { tipGroup: ColourCode; ringGroup: ColourCode; tip: Colour; ring: Colour } | undefined {
  if (!Number.isInteger(pair)) return undefined
  const tipGroup = TIP[Math.floor((pair - 1) / 5)]
  const ringGroup = RING[(((pair - 1) % 5) + 5) % 5]
  if (!tipGroup || !ringGroup) return undefined
  // One code from each of two lists that share no colour always makes a member of Colour; YE with GN is the earth colour
  // elsewhere, and the telephone pair keeps the standard's one spelling for it.
  const tip = (tipGroup === 'YE' && ringGroup === 'GN' ? 'GNYE' : tipGroup + ringGroup) as Colour
  return { tipGroup, ringGroup, tip, ring: (ringGroup + tipGroup) as Colour }
}
