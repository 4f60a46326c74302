import type { ConnectorInput, FacePins } from '../part-kinds.ts'
import { rowOfPins } from './face-layout.ts'
import { PIN_NAMES, pinsOfFamily, type StandardFamilyId, WAYS } from './pin-names.ts'

/** Pitch and row spacing of the size 20 arrangement, IEC 60807-2 / MIL-DTL-24308. */
const PITCH_MM = 2.77
const ROW_MM = 2.84
/** Pitch and row spacing of the high-density arrangement. */
const HD_PITCH_MM = 2.29
const HD_ROW_MM = 1.98

/** Width of the D, distance between jackscrews and the cable its usual hood takes (from memory), by number of ways. */
const SHELLS = {
  9: { letter: 'DE', widthMm: 16.92, screwsMm: 24.99, hood: '8 mm' },
  15: { letter: 'DA', widthMm: 25.25, screwsMm: 33.32, hood: '9.5 mm' },
  25: { letter: 'DB', widthMm: 38.96, screwsMm: 47.04, hood: '11.5 mm' },
  37: { letter: 'DC', widthMm: 55.42, screwsMm: 63.5, hood: '14 mm' },
} as const

const HEIGHT_MM = 8.36

/** Two rows, the wide one up with pin 1 at its left, looking at the mating face of the pin half. */
function twoRows(names: readonly string[]): FacePins {
  const upper = Math.ceil(names.length / 2)
  return {
    ...rowOfPins(names.slice(0, upper), PITCH_MM, ROW_MM / 2, { dMm: 1 }),
    ...rowOfPins(names.slice(upper), PITCH_MM, -ROW_MM / 2, { dMm: 1 }),
  }
}

function threeRows(names: readonly string[]): FacePins {
  const row = (from: number, yMm: number, xMm: number) =>
    rowOfPins(names.slice(from, from + 5), HD_PITCH_MM, yMm, { xMm, dMm: 0.76 })
  return {
    ...row(0, HD_ROW_MM, HD_PITCH_MM / 4),
    ...row(5, 0, -HD_PITCH_MM / 4),
    ...row(10, -HD_ROW_MM, HD_PITCH_MM / 4),
  }
}

function shellFace(pins: FacePins, size: (typeof SHELLS)[keyof typeof SHELLS]): ConnectorInput['face'] {
  return {
    of: 'pin',
    outline: { shape: 'd', wMm: size.widthMm, hMm: HEIGHT_MM },
    pins,
    marks: [-1, 1].map((side) => ({
      kind: 'screw',
      xMm: (side * size.screwsMm) / 2,
      yMm: 0,
      wMm: 5,
      hMm: 5,
    })),
  }
}

const common = {
  kind: 'connector',
  style: 'dsub',
  // The shells overlap before the contacts touch (MIL-DTL-24308, from memory).
  firstMate: ['shell'] as string[],
  lock: 'screw',
  ways: 'any',
  // The shell of the pin half stands out past its pins.
  shrouded: true,
  ip: 'IP20',
  ipOpen: 'IP20',
} as const

function dsub(ways: (typeof WAYS.dsub)[number]): ConnectorInput {
  const id = `dsub-${ways}` as const satisfies StandardFamilyId
  return {
    ...common,
    ...pinsOfFamily(id),
    title: `D-sub, ${ways} ways (${SHELLS[ways].letter}-${ways})`,
    face: shellFace(twoRows(PIN_NAMES[id]), SHELLS[ways]),
    contacts: ['dsub-crimp-20', 'dsub-solder'],
    bore: SHELLS[ways].hood,
    amps: '5 A',
    volts: '60 V',
    source: 'IEC 60807-2 and MIL-DTL-24308 for shape and numbering; rating from memory, the data sheet wins.',
  }
}

function dsubHighDensity(): ConnectorInput {
  return {
    ...common,
    ...pinsOfFamily('dsub-hd-15'),
    title: 'D-sub high density, 15 ways in three rows (DE-15)',
    face: shellFace(threeRows(PIN_NAMES['dsub-hd-15']), SHELLS[9]),
    contacts: ['dsub-hd-crimp-22', 'dsub-hd-solder'],
    bore: SHELLS[9].hood,
    amps: '3 A',
    volts: '60 V',
    source:
      'Pitch 2.29 mm and rows 1.98 mm per MIL-DTL-24308; shift of the middle row from memory, check the moulded numbers.',
  }
}

/** D-subminiature connectors. */
export const dsubFamilies = (): ConnectorInput[] => [...WAYS.dsub.map(dsub), dsubHighDensity()]
