import type { ConnectorInput } from '../part-kinds.ts'
import { rowOfPins } from './face-layout.ts'
import { PIN_NAMES, pinsOfFamily } from './pin-names.ts'

const PITCH_MM = 1.02

const SIZES = {
  'modular-8p8c': { title: 'Modular 8P8C', widthMm: 11.7, amps: '1 A' },
  'modular-6p6c': { title: 'Modular 6P6C', widthMm: 9.7, amps: '1 A' },
} as const

function modular(id: keyof typeof SIZES): ConnectorInput {
  const { title, widthMm, amps } = SIZES[id]
  return {
    kind: 'connector',
    ...pinsOfFamily(id),
    title,
    style: 'modular',
    face: {
      of: 'socket',
      outline: { shape: 'rect', wMm: widthMm, hMm: 7, rMm: 0.4 },
      pins: rowOfPins(PIN_NAMES[id], PITCH_MM, 2, { dMm: 0.6 }),
      marks: [{ kind: 'latch', xMm: 0, yMm: -4.3, wMm: 6, hMm: 1.6, text: 'latch' }],
    },
    contacts: ['modular-idc'],
    lock: 'latch',
    clamp: true,
    ip: 'IP20',
    ipOpen: 'IP20',
    amps,
    volts: '125 V',
    ways: 'data',
    source:
      'IEC 60603-7. Socket seen into its opening, latch down: pin 1 at the left. Rating 1 A at 60 °C from memory.',
  }
}

/** Modular telephone-style connectors. */
export const modularFamilies = (): ConnectorInput[] => [modular('modular-8p8c'), modular('modular-6p6c')]
