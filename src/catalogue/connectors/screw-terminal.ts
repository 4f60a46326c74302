import { FERRULE_IDS } from '../contacts/ferrules.ts'
import type { ConnectorInput } from '../part-kinds.ts'
import { pinInTheMiddle, rowOfPins } from './face-layout.ts'
import { PIN_NAMES, pinsOfFamily, WAYS } from './pin-names.ts'

const PITCH_MM = 5.08

function screwTerminal(ways: (typeof WAYS)['screw-terminal'][number]): ConnectorInput {
  const id = `screw-terminal-${ways}` as const
  const pins = rowOfPins(PIN_NAMES[id], PITCH_MM, -1.5, { dMm: 2.4 })
  return {
    kind: 'connector',
    ...pinsOfFamily(id),
    title: ways === 1 ? 'Screw terminal, single' : `Screw terminal block, ${ways} ways`,
    style: 'terminal',
    face: {
      of: 'pin',
      outline: { shape: 'rect', wMm: Math.round((ways + 0.2) * PITCH_MM * 100) / 100, hMm: 10, rMm: 0.4 },
      pins,
      marks: Object.values(pins).map(({ xMm }) => ({ kind: 'screw', xMm, yMm: 2.4, wMm: 3, hMm: 3 })),
    },
    genderless: true,
    manyWires: true,
    matesWith: ways === 1 ? [id, 'wire-end'] : [id],
    contacts: ['screw-clamp', ...FERRULE_IDS],
    lock: 'screw',
    amps: '16 A',
    volts: '250 V',
    ways: 'any',
    source:
      'Generic block with 5.08 mm pitch, IEC 60947-7-1 for the kind; rating from memory, the data sheet wins.',
  }
}

const wireEnd = (): ConnectorInput => ({
  kind: 'connector',
  ...pinsOfFamily('wire-end'),
  title: 'Prepared wire end, ferruled or bare',
  style: 'wire-end',
  face: { of: 'pin', outline: { shape: 'circle', dMm: 4 }, pins: pinInTheMiddle('1', 2) },
  genderless: true,
  matesWith: ['screw-terminal-1', 'binding-post'],
  contacts: ['bare-end', ...FERRULE_IDS],
  lock: 'none',
  ways: 'any',
  source: 'DIN 46228-4 for ferrules; never tin an end that goes under a screw (common practice).',
})

const bindingPost = (): ConnectorInput => ({
  kind: 'connector',
  ...pinsOfFamily('binding-post'),
  title: 'Binding post, 4 mm',
  style: 'terminal',
  face: { of: 'socket', outline: { shape: 'circle', dMm: 14 }, pins: pinInTheMiddle('1', 4) },
  genderless: true,
  manyWires: true,
  matesWith: ['wire-end'],
  contacts: ['screw-clamp', 'bare-end'],
  lock: 'screw',
  amps: '15 A',
  volts: '60 V',
  ways: 'any',
  source: 'Common practice; rating from memory.',
})

/** Where a wire lands without a plug. */
export const screwTerminalFamilies = (): ConnectorInput[] => [
  ...WAYS['screw-terminal'].map(screwTerminal),
  wireEnd(),
  bindingPost(),
]
