import type { ConnectorInput, FaceInput } from '../part-kinds.ts'
import { pinInTheMiddle } from './face-layout.ts'
import { pinsOfFamily } from './pin-names.ts'

/** Thread sizes in mm. */
export const STUD_SIZES = [4, 5, 6, 8, 10] as const
type StudSize = (typeof STUD_SIZES)[number]

/** Ground studs are drawn for M6, the commonest body stud. */
const GROUND_STUD_MM = 6

const round = (of: FaceInput['of'], outsideMm: number, pinMm: number): FaceInput => ({
  of,
  outline: { shape: 'circle', dMm: outsideMm },
  pins: pinInTheMiddle('1', pinMm),
})

const SMALL_RINGS = ['ring-red', 'ring-blue', 'ring-yellow']
const LUGS = ['lug-10', 'lug-16', 'lug-25', 'lug-35', 'lug-50']

function ring(size: StudSize): ConnectorInput {
  return {
    kind: 'connector',
    ...pinsOfFamily(`ring-m${size}`),
    title: `Ring terminal for M${size}`,
    style: 'ring',
    face: round('socket', size * 2, size + 0.3),
    genderless: true,
    matesWith: size === GROUND_STUD_MM ? [`stud-m${size}`, 'ground-stud'] : [`stud-m${size}`],
    contacts: size < 6 ? SMALL_RINGS : [...SMALL_RINGS, ...LUGS],
    lock: 'screw',
    ways: 'power',
    studMm: size,
    source:
      'DIN 46237 and DIN 46235 name rings by stud size; the hole equals the stud (FAA AC 43.13-1B ¶11-174).',
  }
}

function stud(size: StudSize): ConnectorInput {
  return {
    kind: 'connector',
    ...pinsOfFamily(`stud-m${size}`),
    title: `Stud M${size}`,
    style: 'stud',
    face: round('pin', size * 2.2, size),
    genderless: true,
    manyWires: true,
    matesWith: [`ring-m${size}`],
    lock: 'screw',
    ways: 'power',
    studMm: size,
    source: 'Common practice: at most four rings on a stud.',
  }
}

function groundStud(): ConnectorInput {
  return {
    kind: 'connector',
    ...pinsOfFamily('ground-stud'),
    title: `Ground stud M${GROUND_STUD_MM} on bare body metal`,
    style: 'stud',
    face: round('pin', 14, GROUND_STUD_MM),
    genderless: true,
    manyWires: true,
    matesWith: [`ring-m${GROUND_STUD_MM}`],
    lock: 'screw',
    ways: 'power',
    studMm: GROUND_STUD_MM,
    source:
      'Common practice: at most two rings on a ground screw, paint off, star or serrated face, then sealed.',
  }
}

const battery = (id: 'battery-post' | 'battery-clamp'): ConnectorInput => ({
  kind: 'connector',
  ...pinsOfFamily(id),
  title: id === 'battery-post' ? 'Battery post, tapered' : 'Battery post clamp',
  style: id === 'battery-post' ? 'stud' : 'ring',
  face: round(id === 'battery-post' ? 'pin' : 'socket', 24, 17),
  genderless: true,
  manyWires: true,
  matesWith: [id === 'battery-post' ? 'battery-clamp' : 'battery-post'],
  ...(id === 'battery-clamp' ? { contacts: ['clamp-screw', ...LUGS] } : {}),
  lock: 'screw',
  ways: 'power',
  source:
    'EN 50342-2 tapered posts: positive about 19.5 mm, negative about 17.9 mm at the foot; from memory.',
})

/** Rings, the studs they go on, and battery posts. */
export const studAndRingFamilies = (): ConnectorInput[] => [
  ...STUD_SIZES.map(ring),
  ...STUD_SIZES.map(stud),
  groundStud(),
  battery('battery-post'),
  battery('battery-clamp'),
]
