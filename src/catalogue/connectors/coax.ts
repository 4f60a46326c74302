import type { ConnectorInput } from '../part-kinds.ts'
import { PIN_NAMES, pinsOfFamily } from './pin-names.ts'

const SIZES = {
  bnc: { title: 'BNC', dMm: 9.6, lock: 'bayonet', cable: '4.7..6.4 mm', wire: 'coax-crimp', volts: '500 V' },
  tnc: { title: 'TNC', dMm: 11.1, lock: 'thread', cable: '4.7..6.4 mm', wire: 'coax-crimp', volts: '500 V' },
  n: { title: 'N', dMm: 15.9, lock: 'thread', cable: '4.7..10.7 mm', wire: 'coax-crimp', volts: '1000 V' },
  sma: {
    title: 'SMA',
    dMm: 6.35,
    lock: 'thread',
    cable: '2.5..5.1 mm',
    wire: 'coax-small-crimp',
    volts: '335 V',
  },
  'rp-sma': {
    title: 'RP-SMA, centre contact reversed',
    dMm: 6.35,
    lock: 'thread',
    cable: '2.5..5.1 mm',
    wire: 'coax-small-crimp',
    volts: '335 V',
  },
  uhf: {
    title: 'UHF (PL-259 plug, SO-239 socket)',
    dMm: 15.9,
    lock: 'thread',
    cable: '4.7..10.7 mm',
    wire: 'coax-solder',
    volts: '500 V',
  },
  'mini-uhf': {
    title: 'Mini-UHF',
    dMm: 9.5,
    lock: 'thread',
    cable: '4.7..5.6 mm',
    wire: 'coax-crimp',
    volts: '335 V',
  },
} as const

/** Those with a gasket in the coupling nut. */
const WEATHERPROOF: ReadonlySet<string> = new Set(['n', 'tnc'])

function coax(id: keyof typeof SIZES): ConnectorInput {
  const { title, dMm, lock, cable, wire, volts } = SIZES[id]
  const [centre, shield] = PIN_NAMES[id]
  return {
    kind: 'connector',
    ...pinsOfFamily(id),
    title: `Coaxial ${title}`,
    style: 'coax',
    face: {
      of: 'pin',
      outline: { shape: 'circle', dMm },
      pins: {
        [centre]: { xMm: 0, yMm: 0, dMm: 1.2 },
        // The shield is the whole ring; the point is where a drawing lets its line meet it.
        [shield]: { xMm: 0, yMm: Math.round(-dMm * 40) / 100, dMm: 0.8 },
      },
    },
    contacts: [wire],
    lock,
    clamp: true,
    ip: WEATHERPROOF.has(id) ? 'IP67' : 'IP20',
    ipOpen: 'IP20',
    volts,
    ways: 'rf',
    ohms: '50 Ω',
    cable,
    source: `${id === 'uhf' || id === 'mini-uhf' ? 'Impedance is nominal only and not constant. ' : ''}IEC 61169 series; cable range, voltage and protection from memory, order the plug for the cable by type.`,
  }
}

/** Coaxial connectors, 50 Ω. */
export const coaxFamilies = (): ConnectorInput[] => (Object.keys(SIZES) as (keyof typeof SIZES)[]).map(coax)
