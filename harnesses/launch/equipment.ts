import { equipment, jack } from 'loomwright'
import { marine12 } from '../shop-parts.ts'

// Invented equipment. Only connector families, bus lines and common practice are real.

const asMeasured = { view: 'mating', record: 'measured' } as const
const fromManual = { view: 'mating', record: 'maker' } as const

export const boatBattery = equipment('boat-battery', {
  title: 'Battery 12 V, house bank',
  role: 'battery',
  connectors: [
    jack(
      'POS',
      'stud-m8',
      'genderless',
      {
        1: {
          kind: 'supply-out',
          name: 'BAT+',
          port: 'battery',
          volts: '12..14.4 V',
          feed: 'permanent',
          battery: true,
          capacity: '90 Ah',
        },
      },
      { title: 'Positive stud', ...asMeasured },
    ),
    jack(
      'NEG',
      'stud-m8',
      'genderless',
      { 1: { kind: 'return', name: 'BAT−', port: 'battery' } },
      { title: 'Negative stud', ...asMeasured },
    ),
  ],
  cautions: ['battery'],
})

/** Positive and negative bars. The negative bar has three studs, and a fourth for bonding the metal of the boat. */
export const busBars = equipment('bus-bars', {
  title: 'Bus bars under the cover',
  role: 'distribution',
  connectors: [
    ...(['P1', 'P2'] as const).map((id) =>
      jack(id, 'stud-m8', 'genderless', { 1: { name: 'BUS+' } }, { title: 'Positive bar', ...asMeasured }),
    ),
    ...(['N1', 'N2', 'N3'] as const).map((id) =>
      jack(id, 'stud-m8', 'genderless', { 1: { name: 'BUS−' } }, { title: 'Negative bar', ...asMeasured }),
    ),
    jack(
      'BOND',
      'stud-m6',
      'genderless',
      { 1: { kind: 'chassis', name: 'BOND' } },
      { title: 'Bonding stud', ...asMeasured },
    ),
  ],
  joins: [
    { pins: ['P1.1', 'P2.1'], note: 'One bar.' },
    { pins: ['N1.1', 'N2.1', 'N3.1', 'BOND.1'], note: 'One bar.' },
  ],
})

/** What was in the boat before us: lights, wipers and heater on their own panel. */
export const housePanel = equipment('house-panel', {
  title: 'House panel as found: lights, wipers, heater',
  role: 'load',
  connectors: [
    jack(
      'POS',
      'ring-m8',
      'genderless',
      {
        1: {
          kind: 'supply-in',
          name: 'HOUSE+',
          port: 'house',
          volts: '9..15 V',
          amps: { off: '0 A', standby: '4 A', transmit: '15.3 A' },
        },
      },
      { title: 'Its own short tail', ...asMeasured },
    ),
    jack(
      'NEG',
      'ring-m8',
      'genderless',
      { 1: { kind: 'return', name: 'HOUSE−', port: 'house' } },
      { title: 'Its own short tail', ...asMeasured },
    ),
  ],
})

export const fuseBlock = equipment('fuse-block', {
  title: 'Fuse block, five ways',
  role: 'distribution',
  connectors: [
    jack('IN', 'stud-m6', 'genderless', { 1: { name: 'FB IN' } }, { title: 'Feed stud', ...asMeasured }),
    jack(
      'OUT',
      'screw-terminal-5',
      'genderless',
      { 1: { name: 'F2' }, 2: { name: 'F3' }, 3: { name: 'F4' }, 4: { name: 'F5' }, 5: { name: 'F6' } },
      { title: 'Fused outputs', ...asMeasured },
    ),
  ],
  inside: [
    {
      kind: 'fuse',
      id: 'F2',
      title: 'Radio',
      rating: '10 A',
      part: 'blade-10',
      between: { in: 'IN.1', out: 'OUT.1' },
    },
    {
      kind: 'fuse',
      id: 'F3',
      title: 'Plotter, buzzer',
      rating: '5 A',
      part: 'blade-5',
      between: { in: 'IN.1', out: 'OUT.2' },
    },
    {
      kind: 'fuse',
      id: 'F4',
      title: 'Bilge pump',
      rating: '7.5 A',
      part: 'blade-7.5',
      between: { in: 'IN.1', out: 'OUT.3' },
    },
    {
      kind: 'fuse',
      id: 'F5',
      title: 'Hailer',
      rating: '5 A',
      part: 'blade-5',
      between: { in: 'IN.1', out: 'OUT.4' },
    },
    {
      kind: 'fuse',
      id: 'F6',
      title: 'Instrument bus',
      rating: '3 A',
      part: 'blade-3',
      between: { in: 'IN.1', out: 'OUT.5' },
    },
  ],
})

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
        centre: { kind: 'rf', name: 'ANT', ohms: '50 Ω', watts: '25 W', from: '156 MHz', to: '162.1 MHz' },
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

export const plotter = equipment('plotter', {
  title: 'Chart plotter',
  role: 'instrument',
  connectors: [
    jack(
      'J1',
      'screw-terminal-2',
      'genderless',
      {
        1: {
          kind: 'supply-in',
          name: 'DC+',
          port: 'dc',
          volts: '10..16 V',
          amps: { off: '0 A', standby: '4 A' },
        },
        2: { kind: 'return', name: 'DC−', port: 'dc' },
      },
      { title: 'Supply', ...fromManual },
    ),
  ],
})

export const buzzer = equipment('buzzer', {
  title: 'Watch alarm buzzer',
  role: 'load',
  connectors: [
    jack(
      'J1',
      'screw-terminal-2',
      'genderless',
      {
        1: {
          kind: 'supply-in',
          name: 'BZ+',
          port: 'dc',
          volts: '6..28 V',
          amps: { off: '0 A', standby: '0.2 A' },
        },
        2: { kind: 'return', name: 'BZ−', port: 'dc' },
      },
      { title: 'Terminals', ...asMeasured },
    ),
  ],
})

/** Closed when there is water; drawn closed for the worst case. */
export const floatSwitch = equipment('float-switch', {
  title: 'Bilge float switch',
  role: 'control',
  connectors: [
    jack(
      'J1',
      'rect-sealed-2',
      'pin',
      { 1: { name: 'IN' }, 2: { name: 'OUT' } },
      { title: 'Lead', ...asMeasured },
    ),
  ],
  inside: [
    { kind: 'switch', id: 'FLOAT', closed: ['transmit'], maxAmps: '15 A', between: { 1: 'J1.1', 2: 'J1.2' } },
  ],
})

export const bilgePump = equipment('bilge-pump', {
  title: 'Bilge pump',
  role: 'load',
  connectors: [
    jack(
      'J1',
      'rect-sealed-3',
      'pin',
      {
        1: { kind: 'supply-in', name: 'PUMP+', port: 'pump', volts: '9..14.4 V', amps: '5 A', motor: true },
        2: { kind: 'return', name: 'PUMP−', port: 'pump' },
        3: { kind: 'spare' },
      },
      { title: 'Lead', ...asMeasured },
    ),
  ],
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

/** Position receiver with a supply of its own; its data common is isolated and must stay so (IEC 61162-1). */
export const gnss = equipment('gnss', {
  title: 'Position receiver',
  role: 'instrument',
  connectors: [
    jack(
      'TB',
      'screw-terminal-3',
      'genderless',
      {
        1: {
          kind: 'data',
          name: 'A',
          port: 'position',
          standard: 'iec-61162-1',
          line: 'A',
          direction: 'out',
          idle: 'low',
          isolated: true,
        },
        2: {
          kind: 'data',
          name: 'B',
          port: 'position',
          standard: 'iec-61162-1',
          line: 'B',
          direction: 'out',
          idle: 'high',
          isolated: true,
        },
        3: { kind: 'signal-return', name: 'C', port: 'position', isolated: true },
      },
      { title: 'Data', ...fromManual },
    ),
  ],
  isolates: [{ pins: ['TB.1', 'TB.2', 'TB.3'], by: 'optocoupler' }],
})

const busLine = {
  1: { kind: 'shield', name: 'SCREEN' },
  2: { name: 'NET+' },
  3: { name: 'NET−' },
  4: { kind: 'data', name: 'CAN H', port: 'bus', standard: 'can', line: 'CAN_H', direction: 'both' },
  5: { kind: 'data', name: 'CAN L', port: 'bus', standard: 'can', line: 'CAN_L', direction: 'both' },
} as const

/** Four-way tee of the instrument bus: every pin goes straight through. */
export const busTee = equipment('bus-tee', {
  title: 'Instrument bus tee, four ports',
  role: 'distribution',
  connectors: [
    jack('A', 'm12-a-5', 'pin', busLine, { title: 'Port A', ...fromManual }),
    ...(['B', 'C', 'D'] as const).map((id) =>
      jack(id, 'm12-a-5', 'socket', busLine, { title: `Port ${id}`, ...fromManual }),
    ),
  ],
  joins: [
    { pins: ['A.1', 'B.1', 'C.1', 'D.1'] },
    { pins: ['A.2', 'B.2', 'C.2', 'D.2'] },
    { pins: ['A.3', 'B.3', 'C.3', 'D.3'] },
    { pins: ['A.4', 'B.4', 'C.4', 'D.4'] },
    { pins: ['A.5', 'B.5', 'C.5', 'D.5'] },
  ],
})

const terminatorOf = <const Id extends string>(id: Id, half: 'pin' | 'socket') =>
  equipment(id, {
    title: `Bus terminator 120 Ω, ${half} half`,
    role: 'other',
    connectors: [jack('J1', 'm12-a-5', half, busLine, { title: 'End of the bus', ...asMeasured })],
    inside: [
      { kind: 'resistor', id: 'RT', ohms: '120 Ω', terminates: true, between: { 1: 'J1.4', 2: 'J1.5' } },
    ],
  })
export const terminatorPin = terminatorOf('terminator-pin', 'pin')
export const terminatorSocket = terminatorOf('terminator-socket', 'socket')

const busNode = (amps: '0.1 A' | '0.4 A') =>
  ({
    ...busLine,
    2: {
      kind: 'supply-in',
      name: 'NET+',
      port: 'net',
      volts: '9..16 V',
      amps: { off: '0 A', standby: amps },
    },
    3: { kind: 'return', name: 'NET−', port: 'net' },
  }) as const

export const display = equipment('bus-display', {
  title: 'Instrument display',
  role: 'instrument',
  connectors: [jack('J1', 'm12-a-5', 'pin', busNode('0.4 A'), { title: 'Bus', ...fromManual })],
})

export const headingSensor = equipment('heading-sensor', {
  title: 'Heading sensor',
  role: 'instrument',
  connectors: [
    jack('J1', 'm12-a-5', 'pin', busNode('0.1 A'), { title: 'Bus, straight into a tee', ...fromManual }),
  ],
})

export const boatAntenna = equipment('boat-antenna', {
  title: 'Whip antenna on the wheelhouse',
  role: 'antenna',
  connectors: [
    jack(
      'A1',
      'uhf',
      'socket',
      {
        centre: { kind: 'rf', name: 'ANT', ohms: '50 Ω', from: '156 MHz', to: '162.1 MHz' },
        shield: { kind: 'shield', name: 'ANT screen' },
      },
      { title: 'Feeder', ...fromManual },
    ),
  ],
  cautions: ['rf', 'heights'],
})
