import type { ConnectorInput } from '../part-kinds.ts'
import { circleOfPins } from './face-layout.ts'
import { pinsOfFamily, type StandardFamilyId, WAYS } from './pin-names.ts'

/** Pitch circle, from memory; pins sit at the corners of a hexagon (3 and 5) or a square (4). */
const CIRCLE_MM = 9.2

/** What each size is, as seen on the mating face of the pin half with the latch up; angles anticlockwise from 3 o'clock. */
const SIZES = {
  3: { angles: { '1': 30, '2': 150, '3': 270 }, pinMm: 2.4, amps: '16 A', wire: 'xlr-3-solder' },
  4: { angles: { '1': 45, '2': 315, '3': 225, '4': 135 }, pinMm: 2, amps: '10 A', wire: 'xlr-4-solder' },
  5: {
    angles: { '1': 30, '2': 330, '3': 270, '4': 210, '5': 150 },
    pinMm: 1.6,
    amps: '7.5 A',
    wire: 'xlr-5-solder',
  },
} as const

function xlr(ways: (typeof WAYS.xlr)[number]): ConnectorInput {
  const id = `xlr-${ways}` as const satisfies StandardFamilyId
  const size = SIZES[ways]
  return {
    kind: 'connector',
    ...pinsOfFamily(id),
    title: `XLR, ${ways} pins`,
    style: 'circular',
    face: {
      of: 'pin',
      outline: { shape: 'circle', dMm: 19 },
      pins: circleOfPins(size.angles, CIRCLE_MM, size.pinMm),
      marks: [{ kind: 'latch', xMm: 0, yMm: 8.2, wMm: 4, hMm: 1.6, text: 'latch' }],
    },
    contacts: [size.wire],
    // Common practice: the socket of pin 1 sits further forward.
    firstMate: ['1'],
    lock: 'latch',
    shrouded: true,
    clamp: true,
    ip: 'IP20',
    ipOpen: 'IP20',
    bore: '8 mm',
    amps: size.amps,
    volts: '50 V',
    ways: 'audio',
    source: `IEC 61076-2-103. ${XLR_NUMBERING}`,
  }
}

const XLR_NUMBERING =
  'Pin half, latch up: 1 upper right, 2 upper left, 3 below on XLR-3; 4 and 5 pins run clockwise from upper right. Second-hand; circle, rating and cable range (3 to 8 mm) from memory: check the moulded numbers.'

/** XLR connectors with 3 to 5 pins. */
export const xlrFamilies = (): ConnectorInput[] => WAYS.xlr.map(xlr)
