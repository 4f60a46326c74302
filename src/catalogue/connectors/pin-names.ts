import { numberedSets } from '../numbered.ts'

/** Sizes of each family that comes in several. */
export const WAYS = {
  dsub: [9, 15, 25, 37],
  'dsub-hd': [15],
  xlr: [3, 4, 5],
  'm12-a': [4, 5, 8],
  rect: [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20],
  'rect-power': [2, 4],
  'rect-sealed': [2, 3, 4, 6, 8, 12],
  'screw-terminal': [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12],
} as const

const one = ['1'] as const
const coax = ['centre', 'shield'] as const

/**
 * Every standard connector family with its pin names as moulded on the housing. The family data and the types that make
 * a misspelt pin a compile-time error both come from here.
 */
export const PIN_NAMES = {
  ...numberedSets('dsub', WAYS.dsub),
  ...numberedSets('dsub-hd', WAYS['dsub-hd']),
  ...numberedSets('xlr', WAYS.xlr),
  'jack-6.35-trs': ['T', 'R', 'S'],
  'jack-6.35-ts': ['T', 'S'],
  'jack-3.5-trs': ['T', 'R', 'S'],
  'jack-3.5-ts': ['T', 'S'],
  'jack-3.5-trrs': ['T', 'R1', 'R2', 'S'],
  'modular-8p8c': ['1', '2', '3', '4', '5', '6', '7', '8'],
  'modular-6p6c': ['1', '2', '3', '4', '5', '6'],
  ...numberedSets('m12-a', WAYS['m12-a']),
  'din-3-180': ['1', '2', '3'],
  'din-5-180': ['1', '2', '3', '4', '5'],
  bnc: coax,
  tnc: coax,
  n: coax,
  sma: coax,
  'rp-sma': coax,
  uhf: coax,
  'mini-uhf': coax,
  ...numberedSets('rect', WAYS.rect),
  ...numberedSets('rect-power', WAYS['rect-power']),
  ...numberedSets('rect-sealed', WAYS['rect-sealed']),
  'ring-m4': one,
  'ring-m5': one,
  'ring-m6': one,
  'ring-m8': one,
  'ring-m10': one,
  'stud-m4': one,
  'stud-m5': one,
  'stud-m6': one,
  'stud-m8': one,
  'stud-m10': one,
  'ground-stud': one,
  'battery-post': one,
  'battery-clamp': one,
  ...numberedSets('screw-terminal', WAYS['screw-terminal']),
  'wire-end': one,
  'binding-post': one,
  'tab-6.3': one,
  'tab-4.8': one,
  'tab-2.8': one,
  'relay-socket': ['30', '85', '86', '87', '87a'],
  'blade-fuse-holder': ['in', 'out'],
  'mini-fuse-holder': ['in', 'out'],
  'maxi-fuse-holder': ['in', 'out'],
  'power-outlet-12v': ['tip', 'sleeve'],
  'iso-10487-a': ['1', '2', '3', '4', '5', '6', '7', '8'],
  'iso-10487-b': ['1', '2', '3', '4', '5', '6', '7', '8'],
  'usb-a': ['1', '2', '3', '4'],
} as const

/** Families whose conductive shell mates and is addressed as pin `shell`. */
export const SHELLED = [
  'dsub-9',
  'dsub-15',
  'dsub-25',
  'dsub-37',
  'dsub-hd-15',
  'xlr-3',
  'xlr-4',
  'xlr-5',
  'm12-a-4',
  'm12-a-5',
  'm12-a-8',
  'din-3-180',
  'din-5-180',
  'usb-a',
] as const satisfies readonly (keyof typeof PIN_NAMES)[]

export type StandardFamilyId = keyof typeof PIN_NAMES

/** The pin names of each standard family, `shell` included where the family has one. */
export type StandardPinNames = {
  readonly [F in StandardFamilyId]:
    | (typeof PIN_NAMES)[F][number]
    | (F extends (typeof SHELLED)[number] ? 'shell' : never)
}

/** The pin names of one family: literals for a standard one, any text for a shop's own. */
export type PinsOf<F extends string> = F extends StandardFamilyId ? StandardPinNames[F] : string

const shelled: ReadonlySet<string> = new Set(SHELLED)

/** What every family states about its pins: id, pin names, and whether the shell counts as one. */
export function pinsOfFamily<const F extends StandardFamilyId>(
  id: F,
): { id: F; pins: string[]; shell?: true } {
  return shelled.has(id) ? { id, pins: [...PIN_NAMES[id]], shell: true } : { id, pins: [...PIN_NAMES[id]] }
}
