import type { ConnectorInput } from '../part-kinds.ts'
import { pinsOfFamily } from './pin-names.ts'

/** USB 2.0 type A: 1 supply, 2 D−, 3 D+, 4 return. */
export const usbFamilies = (): ConnectorInput[] => [
  {
    kind: 'connector',
    ...pinsOfFamily('usb-a'),
    title: 'USB 2.0 type A',
    style: 'housing',
    contacts: ['usb-solder'],
    // USB 2.0 §6.5.3: supply and return are longer than the data contacts.
    firstMate: ['1', '4'],
    lock: 'friction',
    fullWays: false,
    shrouded: true,
    clamp: true,
    ip: 'IP20',
    ipOpen: 'IP20',
    amps: '1.5 A',
    volts: '30 V',
    ways: 'data',
    source: 'USB 2.0 chapter 6 for the numbers; no face is given because leads come moulded.',
  },
]
