import { equipment, jack } from 'loomwright'

// Invented equipment. Only connector families, bus lines and common practice are real.

const asMeasured = { view: 'mating', record: 'measured' } as const
const fromManual = { view: 'mating', record: 'maker' } as const

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
