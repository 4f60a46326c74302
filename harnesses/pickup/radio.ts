import { equipment, jack } from 'loomwright'

// Invented equipment. Only connector families, DIN 72552 terminal numbers and common practice are real.

const fromManual = { view: 'mating', record: 'maker' } as const

/** Remote-mount transceiver. Its negative is kept off its case, so the case may be bolted to the body. */
export const mobile = equipment('mobile-40', {
  title: 'Mobile transceiver, 40 W class, remote head',
  role: 'transceiver',
  connectors: [
    jack(
      'J1',
      'rect-power-2',
      'pin',
      {
        1: {
          kind: 'supply-in',
          name: 'DC+',
          port: 'dc',
          connect: 'must',
          volts: '10.8..15.6 V',
          amps: { off: '5 mA', standby: '0.35 A', receive: '1.2 A', transmit: '12 A' },
          awake: 'J2.10',
        },
        2: { kind: 'return', name: 'DC−', port: 'dc', connect: 'must' },
      },
      { title: 'Supply', ...fromManual },
    ),
    jack(
      'J2',
      'dsub-25',
      'socket',
      {
        1: {
          kind: 'audio-out',
          name: 'SPK+',
          port: 'speaker',
          level: 'speaker',
          leg: 'hot',
          bridged: true,
          minLoad: '4 Ω',
          watts: '15 W',
        },
        14: {
          kind: 'audio-out',
          name: 'SPK−',
          port: 'speaker',
          level: 'speaker',
          leg: 'cold',
          bridged: true,
          minLoad: '4 Ω',
          watts: '15 W',
        },
        3: {
          kind: 'switch-in',
          name: 'PTT',
          active: 'low',
          pull: 'up',
          pullOhms: '10 kΩ',
          rail: '5 V',
          purpose: 'key',
          wants: 'dry-contact',
          limit: '-0.3..16 V',
        },
        5: {
          kind: 'audio-out',
          name: 'RX+',
          port: 'rx',
          level: 'line',
          leg: 'hot',
          ohms: '600 Ω',
          dbu: '0 dBu',
        },
        6: {
          kind: 'audio-out',
          name: 'RX−',
          port: 'rx',
          level: 'line',
          leg: 'cold',
          ohms: '600 Ω',
          dbu: '0 dBu',
        },
        7: { kind: 'signal-return', name: '0V' },
        8: {
          kind: 'switch-out',
          name: 'ALARM',
          form: 'open-collector',
          active: 'low',
          maxAmps: '100 mA',
          maxVolts: '30 V',
          saturation: '0.4 V',
          purpose: 'alarm',
        },
        10: { kind: 'sense', name: 'IGN', wants: 'ignition', limit: '-0.5..16 V' },
        11: { kind: 'supply-out', name: 'SW+', feed: 'switched', volts: '12..14.4 V' },
        17: {
          kind: 'audio-in',
          name: 'TX+',
          port: 'tx',
          level: 'line',
          leg: 'hot',
          ohms: '10 kΩ',
          dbu: '0 dBu',
        },
        18: {
          kind: 'audio-in',
          name: 'TX−',
          port: 'tx',
          level: 'line',
          leg: 'cold',
          ohms: '10 kΩ',
          dbu: '0 dBu',
        },
        19: {
          kind: 'switch-in',
          name: 'DPTT',
          active: 'low',
          pull: 'up',
          pullOhms: '10 kΩ',
          rail: '5 V',
          purpose: 'key',
          wants: 'any',
          limit: '-0.3..16 V',
        },
        20: { kind: 'signal-return', name: '0V' },
        shell: { kind: 'chassis', name: 'CASE' },
      },
      { title: 'Accessories', ...fromManual },
    ),
    jack(
      'J3',
      'modular-8p8c',
      'socket',
      {
        1: {
          kind: 'supply-out',
          name: 'HEAD+',
          port: 'head',
          volts: '12..14.4 V',
          feed: 'switched',
          maxAmps: '0.5 A',
        },
        2: {
          kind: 'data',
          name: 'DATA+',
          port: 'bus',
          standard: 'proprietary',
          line: 'D+',
          direction: 'both',
        },
        3: {
          kind: 'data',
          name: 'DATA−',
          port: 'bus',
          standard: 'proprietary',
          line: 'D−',
          direction: 'both',
        },
        4: { kind: 'audio-in', name: 'MIC', port: 'mic', level: 'line', leg: 'single', limit: '-0.3..5.5 V' },
        5: { kind: 'signal-return', name: 'MIC 0V', port: 'mic' },
        6: { kind: 'audio-out', name: 'EAR', port: 'ear', level: 'line', leg: 'single' },
        7: { kind: 'switch-in', name: 'ON', active: 'low', pull: 'up', rail: '5 V', limit: '-0.3..5.5 V' },
        8: { kind: 'return', name: 'HEAD−', port: 'head' },
      },
      { title: 'Control head', ...fromManual },
    ),
    jack(
      'ANT',
      'tnc',
      'socket',
      {
        centre: {
          kind: 'rf',
          name: 'ANT',
          ohms: '50 Ω',
          watts: '40 W',
          from: '146 MHz',
          to: '174 MHz',
          tolerance: '2.5 ppm',
          deviation: '2.5 kHz',
          sensitivity: '-116 dBm',
        },
        shield: { kind: 'shield', name: 'ANT screen' },
      },
      { title: 'Antenna', ...fromManual },
    ),
    jack(
      'CASE',
      'ring-m6',
      'genderless',
      { 1: { kind: 'chassis', name: 'CASE' } },
      { title: 'Mounting lug', ...fromManual },
    ),
  ],
  joins: [
    { pins: ['J1.2', 'J2.7', 'J2.20', 'J3.5', 'J3.8'], note: 'One board; measured with the unit off.' },
    { pins: ['CASE.1', 'J2.shell', 'ANT.shield'], note: 'Case; open to DC− on a meter.' },
  ],
  cautions: ['rf'],
})

const headSide = jack(
  'J4',
  'modular-8p8c',
  'socket',
  {
    1: {
      kind: 'supply-in',
      name: 'HEAD+',
      port: 'head',
      volts: '10..15.6 V',
      limit: '-0.5..16 V',
      amps: { off: '0 A', standby: '0.1 A' },
      note: 'Counted in what the transceiver draws.',
    },
    2: { kind: 'data', name: 'DATA+', port: 'bus', standard: 'proprietary', line: 'D+', direction: 'both' },
    3: { kind: 'data', name: 'DATA−', port: 'bus', standard: 'proprietary', line: 'D−', direction: 'both' },
    4: { kind: 'audio-out', name: 'MIC', port: 'mic', level: 'line', leg: 'single' },
    5: { kind: 'signal-return', name: 'MIC 0V', port: 'mic' },
    6: { kind: 'audio-in', name: 'EAR', port: 'ear', level: 'line', leg: 'single', limit: '-0.3..5.5 V' },
    7: {
      kind: 'switch-out',
      name: 'ON',
      form: 'open-collector',
      active: 'low',
      maxAmps: '10 mA',
      maxVolts: '16 V',
    },
    8: { kind: 'return', name: 'HEAD−', port: 'head' },
  },
  { title: 'To the transceiver', ...fromManual },
)

/** What the handset socket does, whatever its shape. */
const handsetPins = {
  1: {
    kind: 'switch-in',
    name: 'PTT',
    active: 'low',
    pull: 'up',
    rail: '5 V',
    purpose: 'key',
    limit: '-0.3..5.5 V',
  },
  2: { kind: 'signal-return', name: 'PTT 0V' },
  3: { kind: 'audio-in', name: 'MIC+', port: 'handset mic', level: 'mic', leg: 'hot', limit: '-0.3..5.5 V' },
  4: { kind: 'audio-in', name: 'MIC−', port: 'handset mic', level: 'mic', leg: 'cold', limit: '-0.3..5.5 V' },
  5: {
    kind: 'audio-out',
    name: 'EAR+',
    port: 'handset ear',
    level: 'headphone',
    leg: 'hot',
    limit: '-0.3..5.5 V',
  },
  6: {
    kind: 'audio-out',
    name: 'EAR−',
    port: 'handset ear',
    level: 'headphone',
    leg: 'cold',
    limit: '-0.3..5.5 V',
  },
  7: { kind: 'signal-return', name: 'HOOK 0V' },
  8: { kind: 'switch-in', name: 'HOOK', active: 'low', pull: 'up', rail: '5 V', limit: '-0.3..5.5 V' },
} as const

/** First head we bought: both sockets are 8P8C and sit 20 mm apart. */
export const headTwin = equipment('head-8p8c', {
  title: 'Control head, handset socket 8P8C',
  role: 'control',
  connectors: [
    headSide,
    jack('J5', 'modular-8p8c', 'socket', handsetPins, { title: 'Handset', ...fromManual }),
  ],
})

/** Same head with a screwed round handset socket. */
export const headRound = equipment('head-round', {
  title: 'Control head, handset socket round',
  role: 'control',
  connectors: [headSide, jack('J5', 'm12-a-8', 'socket', handsetPins, { title: 'Handset', ...fromManual })],
})

/** Glass mount: its foot does not touch the body, so the braid carries no supply current. */
export const antenna = equipment('antenna-glass', {
  title: 'Antenna, glass mount',
  role: 'antenna',
  keepAway: '0.9 m',
  connectors: [
    jack(
      'A1',
      'tnc',
      'socket',
      {
        centre: {
          kind: 'rf',
          name: 'ANT',
          ohms: '50 Ω',
          from: '146 MHz',
          to: '174 MHz',
          vswr: '1.5:1',
          gain: '2.1 dB',
        },
        shield: { kind: 'shield', name: 'ANT screen' },
      },
      { title: 'Feeder', ...fromManual },
    ),
  ],
  cautions: ['rf', 'heights'],
})
