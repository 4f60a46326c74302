import type { ConnectorInput, FacePins } from '../part-kinds.ts'
import { rowOfPins } from './face-layout.ts'
import { PIN_NAMES, pinsOfFamily } from './pin-names.ts'

/** Underside of the relay (pin half), 87 up; distances approximate. */
const RELAY_PINS: FacePins = {
  '87': { xMm: 0, yMm: 8.4, dMm: 2.4 },
  '87a': { xMm: 0, yMm: 0.4, dMm: 2.4 },
  '30': { xMm: 0, yMm: -8.4, dMm: 2.4 },
  '86': { xMm: -8.4, yMm: 0.4, dMm: 2.4 },
  '85': { xMm: 8.4, yMm: 0.4, dMm: 2.4 },
}

const relaySocket = (): ConnectorInput => ({
  kind: 'connector',
  ...pinsOfFamily('relay-socket'),
  title: 'Relay socket, five 6.3 mm tabs',
  style: 'housing',
  face: {
    of: 'pin',
    outline: { shape: 'rect', wMm: 28, hMm: 28, rMm: 1.5 },
    pins: RELAY_PINS,
  },
  contacts: ['receptacle-6.3-red', 'receptacle-6.3-blue', 'receptacle-6.3-yellow'],
  lock: 'friction',
  amps: '30 A',
  volts: '32 V',
  ways: 'power',
  source:
    'ISO 7588-1 terminals (30 common, 87 make, 87a break, 85 and 86 coil). Places from memory: check the numbers beside the tabs.',
})

const FUSE_HOLDERS = {
  'blade-fuse-holder': {
    title: 'Blade fuse holder',
    amps: '30 A',
    gapMm: 14.5,
    contacts: ['fuse-blade-crimp'],
  },
  'mini-fuse-holder': {
    title: 'Mini blade fuse holder',
    amps: '30 A',
    gapMm: 8,
    contacts: ['fuse-blade-crimp'],
  },
  'maxi-fuse-holder': {
    title: 'Maxi blade fuse holder',
    amps: '80 A',
    gapMm: 21,
    contacts: ['fuse-maxi-crimp'],
  },
} as const

function fuseHolder(id: keyof typeof FUSE_HOLDERS): ConnectorInput {
  const { title, amps, gapMm, contacts } = FUSE_HOLDERS[id]
  return {
    kind: 'connector',
    ...pinsOfFamily(id),
    title: `${title}, in line`,
    style: 'housing',
    face: {
      of: 'socket',
      outline: { shape: 'rect', wMm: gapMm + 7, hMm: 6, rMm: 1 },
      pins: rowOfPins(PIN_NAMES[id], gapMm, 0, { dMm: 3 }),
    },
    genderless: true,
    contacts: [...contacts],
    lock: 'friction',
    amps,
    volts: '32 V',
    ways: 'power',
    source: 'ISO 8820-3 for the fuse; holder rating from memory, the data sheet wins.',
  }
}

const powerOutlet = (): ConnectorInput => ({
  kind: 'connector',
  ...pinsOfFamily('power-outlet-12v'),
  title: 'Vehicle power outlet, 12 V',
  style: 'circular',
  face: {
    of: 'socket',
    outline: { shape: 'circle', dMm: 21 },
    pins: { tip: { xMm: 0, yMm: 0, dMm: 4 }, sleeve: { xMm: 0, yMm: -8.5, dMm: 2 } },
  },
  contacts: ['receptacle-6.3-blue', 'receptacle-6.3-red'],
  lock: 'friction',
  amps: '10 A',
  volts: '32 V',
  ways: 'power',
  source:
    'SAE J563, tip positive; the plug works loose, so common practice is 10 A at most whatever the fuse.',
})

/** Pin half on the radio: odd numbers in the upper row, even ones below. */
function headUnit(block: 'a' | 'b'): ConnectorInput {
  const id = `iso-10487-${block}` as const
  const row = (first: 0 | 1) => PIN_NAMES[id].filter((_, index) => index % 2 === first)
  return {
    kind: 'connector',
    ...pinsOfFamily(id),
    title: `Car radio block ${block.toUpperCase()}, 8 ways (${block === 'a' ? 'supply' : 'speakers'})`,
    style: 'housing',
    coding: block.toUpperCase(),
    face: {
      of: 'pin',
      outline: { shape: 'rect', wMm: 24, hMm: 11, rMm: 0.6 },
      pins: {
        ...rowOfPins(row(0), 5, 2.5, { dMm: 1.6 }),
        ...rowOfPins(row(1), 5, -2.5, { dMm: 1.6 }),
      },
      marks: [{ kind: 'key', xMm: 0, yMm: 6, wMm: 4, hMm: 1.4, text: 'key' }],
    },
    contacts: ['rect-medium'],
    lock: 'latch',
    shrouded: true,
    amps: '10 A',
    volts: '32 V',
    ways: block === 'a' ? 'power' : 'audio',
    source:
      'ISO 10487 for numbers and functions; some makers swap A4 and A7. Places from memory: check the moulded numbers.',
  }
}

/** Relay socket, fuse holders, power outlet and radio blocks of a vehicle. */
export const vehicleFamilies = (): ConnectorInput[] => [
  relaySocket(),
  fuseHolder('blade-fuse-holder'),
  fuseHolder('mini-fuse-holder'),
  fuseHolder('maxi-fuse-holder'),
  powerOutlet(),
  headUnit('a'),
  headUnit('b'),
]
