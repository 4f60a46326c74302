import { equipment, jack } from 'loomwright'

// Invented equipment. Only connector families, bus lines and common practice are real.

const asMeasured = { view: 'mating', record: 'measured' } as const

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
