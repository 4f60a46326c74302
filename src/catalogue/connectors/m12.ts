import type { ConnectorInput } from '../part-kinds.ts'
import { circleOfPins, pinInTheMiddle } from './face-layout.ts'
import { pinsOfFamily, type StandardFamilyId, WAYS } from './pin-names.ts'

const square = { '1': 45, '2': 135, '3': 225, '4': 315 }
const seventh = 360 / 7
/** Seven on the circle, key between 1 and 2, and the eighth in the middle. */
const heptagon = Object.fromEntries(
  [1, 2, 3, 4, 5, 6, 7].map((pin) => [`${pin}`, 90 + (pin - 1.5) * seventh]),
)

const SIZES = {
  4: { pins: circleOfPins(square, 5, 1), amps: '4 A', volts: '250 V', wire: 'm12-screw' },
  5: {
    pins: { ...circleOfPins(square, 5, 1), ...pinInTheMiddle('5', 1) },
    amps: '4 A',
    volts: '60 V',
    wire: 'm12-screw',
  },
  8: {
    pins: { ...circleOfPins(heptagon, 5.5, 0.8), ...pinInTheMiddle('8', 0.8) },
    amps: '2 A',
    volts: '30 V',
    wire: 'm12-8-screw',
  },
} as const

function m12(ways: (typeof WAYS)['m12-a'][number]): ConnectorInput {
  const id = `m12-a-${ways}` as const satisfies StandardFamilyId
  const size = SIZES[ways]
  return {
    kind: 'connector',
    ...pinsOfFamily(id),
    title: `M12 circular, A-coded, ${ways} pins`,
    style: 'circular',
    coding: 'A',
    face: {
      of: 'pin',
      outline: { shape: 'circle', dMm: 12 },
      pins: size.pins,
      marks: [{ kind: 'key', xMm: 0, yMm: 4.4, wMm: 1.4, hMm: 1.2, text: 'key' }],
    },
    contacts: [size.wire, 'm12-crimp'],
    lock: 'thread',
    shrouded: true,
    clamp: true,
    ip: 'IP67',
    ipOpen: 'IP20',
    bore: '8 mm',
    amps: size.amps,
    volts: size.volts,
    ways: 'data',
    source:
      'IEC 61076-2-101, ratings as listed there. Pin half, key up: numbers run anticlockwise from right of the key; from memory, as is the gland (4 to 8 mm); check the moulded numbers.',
  }
}

/**
 * Core colours of a moulded M12 lead by pin, IEC 60947-5-2. A three-pin lead uses 1, 3 and 4.
 */
export const M12_COLOURS = { '1': 'BN', '2': 'WH', '3': 'BU', '4': 'BK', '5': 'GY' } as const

/** A-coded M12 connectors. */
export const m12Families = (): ConnectorInput[] => WAYS['m12-a'].map(m12)
