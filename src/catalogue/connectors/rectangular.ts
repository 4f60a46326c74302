import type { ConnectorInput, FaceInput } from '../part-kinds.ts'
import { rowOfPins } from './face-layout.ts'
import { PIN_NAMES, pinsOfFamily, WAYS } from './pin-names.ts'

/** From this many ways the housing has two rows. */
const TWO_ROWS_FROM = 6

/** Pin half with the latch up: upper row first, left to right, then the lower row, left to right. */
function rectangularFace(names: readonly string[], pitchMm: number, pinMm: number): FaceInput {
  const inRow = names.length < TWO_ROWS_FROM ? names.length : Math.ceil(names.length / 2)
  const two = inRow < names.length
  const yMm = two ? pitchMm / 2 : 0
  const wMm = (inRow + 0.6) * pitchMm
  const hMm = (two ? 2.6 : 1.6) * pitchMm
  const fromLeft = -((inRow - 1) / 2) * pitchMm
  const lower = names.slice(inRow)
  return {
    of: 'pin',
    outline: { shape: 'rect', wMm: round(wMm), hMm: round(hMm), rMm: 0.8 },
    pins: {
      ...rowOfPins(names.slice(0, inRow), pitchMm, yMm, { dMm: pinMm }),
      // A short second row starts under pin 1, so that the empty place is at its end.
      ...rowOfPins(lower, pitchMm, -yMm, {
        xMm: fromLeft + ((lower.length - 1) / 2) * pitchMm,
        dMm: pinMm,
      }),
    },
    marks: [
      {
        kind: 'latch',
        xMm: 0,
        yMm: round(hMm / 2 + 0.9),
        wMm: round(pitchMm * 1.2),
        hMm: 1.8,
        text: 'latch',
      },
    ],
  }
}

const round = (mm: number): number => Math.round(mm * 100) / 100

const GENERIC =
  'Generic arrangement of this catalogue, not a standard: pitch, numbering and protection vary by maker, check the moulded numbers.'

function plain(ways: (typeof WAYS.rect)[number]): ConnectorInput {
  const id = `rect-${ways}` as const
  return {
    kind: 'connector',
    ...pinsOfFamily(id),
    title: `Rectangular housing, ${ways} ways`,
    style: 'housing',
    face: rectangularFace(PIN_NAMES[id], 4.2, 1.2),
    contacts: ['rect-small', 'rect-medium'],
    lock: 'latch',
    shrouded: true,
    ip: 'IP20',
    ipOpen: 'IP20',
    amps: '8 A',
    volts: '60 V',
    ways: 'any',
    source: GENERIC,
  }
}

function power(ways: (typeof WAYS)['rect-power'][number]): ConnectorInput {
  const id = `rect-power-${ways}` as const
  return {
    kind: 'connector',
    ...pinsOfFamily(id),
    title: `Rectangular power housing, ${ways} ways`,
    style: 'housing',
    face: rectangularFace(PIN_NAMES[id], 8, 2.8),
    contacts: ['rect-power'],
    lock: 'latch',
    shrouded: true,
    ip: 'IP20',
    ipOpen: 'IP20',
    amps: '25 A',
    volts: '60 V',
    ways: 'power',
    source: GENERIC,
  }
}

function sealed(ways: (typeof WAYS)['rect-sealed'][number]): ConnectorInput {
  const id = `rect-sealed-${ways}` as const
  return {
    kind: 'connector',
    ...pinsOfFamily(id),
    title: `Rectangular sealed housing, ${ways} ways`,
    style: 'housing',
    face: rectangularFace(PIN_NAMES[id], 5.5, 1.6),
    contacts: ['sealed-0.75-2.5', 'sealed-0.35-1', 'sealed-3-6'],
    seals: ['seal-1.2-1.7', 'seal-1.7-2.4', 'seal-2.4-3.0', 'seal-3.0-3.7', 'seal-3.7-4.5', 'cavity-plug'],
    sealed: true,
    lock: 'latch',
    shrouded: true,
    ip: 'IP67',
    ipOpen: 'IP20',
    amps: '13 A',
    volts: '60 V',
    ways: 'any',
    source: GENERIC,
  }
}

/** Rectangular housings: plain, for power, and sealed. */
export const rectangularFamilies = (): ConnectorInput[] => [
  ...WAYS.rect.map(plain),
  ...WAYS['rect-power'].map(power),
  ...WAYS['rect-sealed'].map(sealed),
]
