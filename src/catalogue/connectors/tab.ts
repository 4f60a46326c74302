import type { ConnectorInput } from '../part-kinds.ts'
import { pinInTheMiddle } from './face-layout.ts'
import { pinsOfFamily } from './pin-names.ts'

const SIZES = {
  '6.3': { amps: '20 A', contacts: ['receptacle-6.3-red', 'receptacle-6.3-blue', 'receptacle-6.3-yellow'] },
  '4.8': { amps: '16 A', contacts: ['receptacle-4.8-red', 'receptacle-4.8-blue'] },
  '2.8': { amps: '8 A', contacts: ['receptacle-2.8-red'] },
} as const

/** The pin half is the tab, the socket half is the receptacle crimped on the wire. */
function tab(size: keyof typeof SIZES): ConnectorInput {
  const widthMm = Number(size)
  return {
    kind: 'connector',
    ...pinsOfFamily(`tab-${size}`),
    title: `Push-on tab ${size} × 0.8 mm`,
    style: 'tab',
    face: {
      of: 'pin',
      outline: { shape: 'rect', wMm: widthMm + 2, hMm: 4, rMm: 0.4 },
      pins: pinInTheMiddle('1', 0.8),
    },
    fullWays: true,
    contacts: [...SIZES[size].contacts],
    lock: 'friction',
    amps: SIZES[size].amps,
    volts: '250 V',
    ways: 'any',
    source: 'IEC 61210 for flat quick-connect tabs; ratings from memory.',
  }
}

/** Push-on tabs. */
export const tabFamilies = (): ConnectorInput[] => [tab('6.3'), tab('4.8'), tab('2.8')]
