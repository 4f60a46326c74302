import { numbers } from '../numbered.ts'

const pair1 = ['1a', '1b'] as const
const pair2 = [...pair1, '2a', '2b'] as const
const pair3 = [...pair2, '3a', '3b'] as const
const twin = ['plus', 'minus'] as const
const bus = ['power', 'return', 'can-h', 'can-l'] as const
const lan = ['WHBU', 'BU', 'WHOG', 'OG', 'WHGN', 'GN', 'WHBN', 'BN'] as const
const centre = ['centre'] as const

/** Every standard cable with the names of its cores. Cable data and the types of core names both come from here. */
export const CORE_NAMES = {
  'screened-1x2x0.22': pair1,
  'screened-2x2x0.22': pair2,
  'screened-3x2x0.22': pair3,
  'screened-2x2x0.22-each': pair2,
  'screened-3x2x0.22-each': pair3,
  'mic-2x0.22': numbers(2),
  'headset-4x0.14': numbers(4),
  'speaker-2x0.75': twin,
  'speaker-2x1.5': twin,
  'speaker-2x2.5': twin,
  'boat-twin-2x1.5': twin,
  'boat-twin-2x2.5': twin,
  'boat-twin-2x4': twin,
  'boat-twin-2x6': twin,
  'flat-6x0.14': numbers(6),
  'flat-8x0.14': numbers(8),
  'cat5e-utp': lan,
  'cat5e-patch': lan,
  'can-bus-0.34': bus,
  'can-bus-0.75': bus,
  'rs485-0.34': ['a', 'b', 'c'],
  'm12-lead-4x0.34': numbers(4),
  'm12-lead-5x0.34': numbers(5),
  'm12-lead-8x0.25': numbers(8),
  'multicore-4x0.5': numbers(4),
  'multicore-7x0.5': numbers(7),
  'multicore-12x0.5': numbers(12),
  'multicore-25x0.5': numbers(25),
  'party-line-4x0.22': numbers(4),
  'party-line-4x0.5': numbers(4),
  'party-line-4x0.75': numbers(4),
  'party-line-5x0.22': numbers(5),
  'party-line-5x0.75': numbers(5),
  'rg-58': centre,
  'rg-213': centre,
  'rg-8x': centre,
  'usb-2.0-lead': ['vbus', 'dm', 'dp', 'gnd'],
} as const

const screen = ['screen'] as const

/** The shields of those cables that have any. */
export const SHIELD_NAMES = {
  'screened-1x2x0.22': screen,
  'screened-2x2x0.22': screen,
  'screened-3x2x0.22': screen,
  'screened-2x2x0.22-each': ['screen1', 'screen2'],
  'screened-3x2x0.22-each': ['screen1', 'screen2', 'screen3'],
  'mic-2x0.22': screen,
  'can-bus-0.34': screen,
  'can-bus-0.75': screen,
  'rs485-0.34': screen,
  'party-line-4x0.22': screen,
  'party-line-4x0.5': screen,
  'party-line-4x0.75': screen,
  'party-line-5x0.22': screen,
  'party-line-5x0.75': screen,
  'rg-58': ['shield'],
  'rg-213': ['shield'],
  'rg-8x': ['shield'],
  'usb-2.0-lead': screen,
} as const satisfies Partial<Record<keyof typeof CORE_NAMES, readonly string[]>>

export type StandardCableId = keyof typeof CORE_NAMES

/** The core names of each standard cable. */
export type StandardCoreNames = { readonly [C in StandardCableId]: (typeof CORE_NAMES)[C][number] }

/** The shield names of each standard cable; never where it has none. */
export type StandardShieldNames = {
  readonly [C in StandardCableId]: C extends keyof typeof SHIELD_NAMES
    ? (typeof SHIELD_NAMES)[C][number]
    : never
}

/** The core names of one cable: literals for a standard one, any text for a shop's own. */
export type CoresOf<C extends string> = C extends StandardCableId ? StandardCoreNames[C] : string
