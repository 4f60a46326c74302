import { equipment, jack } from 'loomwright'
import { marine12 } from '../shop-parts.ts'

// Invented equipment. Only connector families, bus lines and common practice are real.

const asMeasured = { view: 'mating', record: 'measured' } as const
const fromManual = { view: 'mating', record: 'maker' } as const

export const boatRadio = equipment('boat-radio', {
  title: 'Boat transceiver with second handset port',
  role: 'transceiver',
  connectors: [
    jack(
      'J1',
      marine12,
      'pin',
      {
        1: {
          kind: 'supply-in',
          name: 'DC+',
          port: 'dc',
          connect: 'must',
          volts: '10.8..15.6 V',
          amps: { off: '0 A', standby: '0.4 A', transmit: '6 A' },
        },
        2: { kind: 'return', name: 'DC−', port: 'dc', connect: 'must' },
        3: { kind: 'reserved' },
        4: { kind: 'spare' },
        5: { kind: 'signal-return', name: 'C', port: 'position', isolated: true },
        6: {
          kind: 'data',
          name: 'A IN',
          port: 'position',
          standard: 'iec-61162-1',
          line: 'A',
          direction: 'in',
          idle: 'low',
          isolated: true,
        },
        7: {
          kind: 'data',
          name: 'B IN',
          port: 'position',
          standard: 'iec-61162-1',
          line: 'B',
          direction: 'in',
          idle: 'high',
          isolated: true,
        },
        8: { kind: 'signal-return', name: 'MIC 0V', port: 'handset' },
        9: {
          kind: 'audio-in',
          name: 'MIC',
          port: 'handset',
          level: 'mic',
          leg: 'single',
          limit: '-0.3..5.5 V',
        },
        10: {
          kind: 'switch-in',
          name: 'PTT',
          active: 'low',
          pull: 'up',
          pullOhms: '10 kΩ',
          rail: '5 V',
          purpose: 'key',
          limit: '-0.3..5.5 V',
        },
        11: { kind: 'audio-out', name: 'EAR', port: 'handset ear', level: 'headphone', leg: 'single' },
        12: { kind: 'signal-return', name: 'EAR 0V', port: 'handset ear' },
      },
      { title: 'Supply, position data, second handset', ...fromManual },
    ),
    jack(
      'ANT',
      'uhf',
      'socket',
      {
        centre: {
          kind: 'rf',
          name: 'ANT',
          ohms: '50 Ω',
          watts: '25 W',
          from: '156 MHz',
          to: '162.1 MHz',
          tolerance: '2.5 ppm',
          deviation: '5 kHz',
          sensitivity: '-116 dBm',
        },
        shield: { kind: 'shield', name: 'ANT screen' },
      },
      { title: 'Antenna', ...fromManual },
    ),
  ],
  joins: [{ pins: ['J1.2', 'J1.8', 'J1.12', 'ANT.shield'], note: 'One board.' }],
  isolates: [{ pins: ['J1.5', 'J1.6', 'J1.7'], by: 'optocoupler' }],
  cautions: ['rf'],
})

const secondHandsetPins = {
  1: { kind: 'signal-return', name: 'MIC 0V', port: 'handset' },
  2: {
    kind: 'audio-out',
    name: 'MIC',
    port: 'handset',
    level: 'mic',
    leg: 'single',
    element: 'electret',
    limit: '-0.3..10 V',
  },
  3: { kind: 'switch-out', name: 'PTT', form: 'contact', active: 'low', purpose: 'key', maxAmps: '0.1 A' },
  4: {
    kind: 'audio-in',
    name: 'EAR',
    port: 'handset ear',
    level: 'headphone',
    leg: 'single',
    limit: '-3..3 V',
  },
  5: { kind: 'signal-return', name: 'EAR 0V', port: 'handset ear' },
} as const

/** The handset as sold: its plug is the same five-pin M12 as the instrument bus. */
export const secondHandset = equipment('second-handset', {
  title: 'Second handset, five-pin plug',
  role: 'microphone',
  connectors: [jack('J1', 'm12-a-5', 'pin', secondHandsetPins, { title: 'Lead', ...fromManual })],
  cautions: ['hearing'],
})

/** The same handset, ordered with the eight-pin plug. */
export const secondHandset8 = equipment('second-handset-8', {
  title: 'Second handset, eight-pin plug',
  role: 'microphone',
  connectors: [jack('J1', 'm12-a-8', 'pin', secondHandsetPins, { title: 'Lead', ...fromManual })],
  cautions: ['hearing'],
})

export const boatAntenna = equipment('boat-antenna', {
  title: 'Whip antenna on the wheelhouse',
  role: 'antenna',
  keepAway: '1.2 m',
  connectors: [
    jack(
      'A1',
      'uhf',
      'socket',
      {
        centre: {
          kind: 'rf',
          name: 'ANT',
          ohms: '50 Ω',
          from: '156 MHz',
          to: '162.1 MHz',
          vswr: '1.8:1',
          gain: '3 dB',
        },
        shield: { kind: 'shield', name: 'ANT screen' },
      },
      { title: 'Feeder', ...fromManual },
    ),
  ],
  cautions: ['rf', 'heights'],
})

export const hailer = equipment('hailer', {
  title: 'Loud hailer',
  role: 'transceiver',
  connectors: [
    jack(
      'J1',
      'screw-terminal-4',
      'genderless',
      {
        1: {
          kind: 'supply-in',
          name: 'DC+',
          port: 'dc',
          volts: '10.8..15.6 V',
          amps: { off: '0 A', standby: '0.3 A', transmit: '4 A' },
        },
        2: { kind: 'return', name: 'DC−', port: 'dc' },
        3: {
          kind: 'audio-out',
          name: 'HORN+',
          port: 'horn',
          level: 'speaker',
          leg: 'hot',
          bridged: true,
          minLoad: '4 Ω',
          watts: '25 W',
        },
        4: {
          kind: 'audio-out',
          name: 'HORN−',
          port: 'horn',
          level: 'speaker',
          leg: 'cold',
          bridged: true,
          minLoad: '4 Ω',
          watts: '25 W',
        },
      },
      { title: 'Supply and horn', ...fromManual },
    ),
  ],
  cautions: ['hearing'],
})

export const hailerHorn = equipment('hailer-horn', {
  title: 'Horn loudspeaker 8 Ω, 40 W',
  role: 'speaker',
  connectors: [
    jack(
      'TB',
      'screw-terminal-2',
      'genderless',
      {
        1: {
          kind: 'audio-in',
          name: '+',
          port: 'coil',
          level: 'speaker',
          leg: 'hot',
          ohms: '8 Ω',
          watts: '40 W',
        },
        2: {
          kind: 'audio-in',
          name: '−',
          port: 'coil',
          level: 'speaker',
          leg: 'cold',
          ohms: '8 Ω',
          watts: '40 W',
        },
      },
      { title: 'Terminals', ...asMeasured },
    ),
  ],
  cautions: ['hearing'],
})
