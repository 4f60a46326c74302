import type { ConnectorInput } from '../part-kinds.ts'
import { circleOfPins } from './face-layout.ts'
import { pinsOfFamily } from './pin-names.ts'

/** Pin half, key up: round the arc from the left 1-4-2-5-3, pin 2 opposite the key; angles anticlockwise from 3 o'clock. */
const ANGLES = { '1': 180, '4': 225, '2': 270, '5': 315, '3': 0 } as const

function din(ways: 3 | 5): ConnectorInput {
  const family = pinsOfFamily(`din-${ways}-180`)
  const angles = Object.fromEntries(Object.entries(ANGLES).filter(([pin]) => family.pins.includes(pin)))
  return {
    kind: 'connector',
    ...family,
    title: `Circular DIN, ${ways} pins over 180°`,
    style: 'circular',
    face: {
      of: 'pin',
      outline: { shape: 'circle', dMm: 13.2 },
      pins: circleOfPins(angles, 7, 1.45),
      marks: [{ kind: 'key', xMm: 0, yMm: 6, wMm: 1.8, hMm: 1, text: 'key' }],
    },
    contacts: ['din-solder'],
    lock: 'friction',
    shrouded: true,
    clamp: true,
    ip: 'IP20',
    ipOpen: 'IP20',
    bore: '6.5 mm',
    amps: '2 A',
    volts: '34 V',
    ways: 'audio',
    source:
      'DIN 41524, IEC 60130-9: 1.45 mm pins on a 7.0 mm circle, numbered 1-4-2-5-3; rating from memory.',
  }
}

/** Circular DIN connectors. */
export const dinFamilies = (): ConnectorInput[] => [din(3), din(5)]
