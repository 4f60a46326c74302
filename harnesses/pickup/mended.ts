import {
  answer,
  branch,
  cable,
  connector,
  fuse,
  harness,
  installation,
  loom,
  mate,
  pair,
  plug,
  relay,
  unit,
  wire,
} from 'loomwright'
import { bigPowerContact } from '../shop-parts.ts'
import * as extras from './accessories.ts'
import * as radios from './radio.ts'
import * as vehicle from './vehicle.ts'

// The same job, mended.

const R1 = connector('R1', 'ring-m8', 'genderless', {
  fits: vehicle.pickupBattery.at('POS'),
  contact: 'ring-yellow',
  zone: 'engine-bay',
  label: 'RADIO FEED',
})
const R2 = connector('R2', 'ring-m8', 'genderless', {
  fits: vehicle.pickupBattery.at('POS'),
  contact: 'ring-red',
  zone: 'engine-bay',
  label: 'HORN FEED',
})
/** The body side of the sensor, so that the sensor counts what the radio draws. */
const G1 = connector('G1', 'ring-m6', 'genderless', {
  fits: vehicle.pickupBattery.at('G1'),
  contact: 'ring-yellow',
  zone: 'engine-bay',
  label: 'RADIO RETURN',
})
const T1 = plug('T1', vehicle.fuseBox.at('KL15'), {
  contact: 'receptacle-6.3-red',
  zone: 'dash',
  label: 'IGNITION TAP',
})
const F1 = fuse('F1', { title: 'Radio', rating: '20 A', part: 'blade-20', zone: 'engine-bay' })
const F2 = fuse('F2', { title: 'Ignition sense and modem', rating: '3 A', part: 'blade-3', zone: 'dash' })
const F3 = fuse('F3', { title: 'Horn', rating: '10 A', part: 'blade-10', zone: 'scuttle' })

const P1 = plug('P1', radios.mobile.at('J1'), {
  contact: bigPowerContact,
  zone: 'seat-back',
  label: 'RADIO DC',
})
const P2 = plug('P2', radios.mobile.at('J2'), {
  contact: 'dsub-crimp-20',
  zone: 'seat-back',
  clamp: 'backshell',
  label: 'RADIO ACC 25',
})
const P3 = plug('P3', radios.mobile.at('J3'), {
  contact: 'modular-idc',
  zone: 'seat-back',
  label: 'RADIO HEAD',
})
const P4 = plug('P4', radios.headRound.at('J4'), {
  contact: 'modular-idc',
  zone: 'dash',
  reach: '150 mm',
  label: 'HEAD J4',
})

/** 160 Ω takes 90 mA at 14.4 V, inside the 100 mA the radio may sink; the diode is in the relay. */
const K1 = relay('K1', {
  title: 'Horn relay',
  coil: '160 Ω',
  coilVolts: '12 V',
  maxAmps: '30 A',
  zone: 'scuttle',
  suppressed: 'diode',
  pulled: ['alarm'],
})
const H1 = plug('H1', vehicle.horn.at('PLUS'), {
  contact: 'receptacle-6.3-red',
  zone: 'grille',
  locked: 'flag housing with a latch',
  label: 'HORN PLUS',
})
const H2 = plug('H2', vehicle.horn.at('MINUS'), {
  contact: 'receptacle-6.3-red',
  zone: 'grille',
  locked: 'flag housing with a latch',
  label: 'HORN MINUS',
})
const G2 = connector('G2', 'ring-m6', 'genderless', {
  fits: vehicle.pickupBattery.at('G2'),
  contact: 'ring-red',
  zone: 'grille',
  label: 'HORN BODY',
})
const S1 = plug('S1', extras.speaker8.at('TB'), {
  contact: 'screw-clamp',
  zone: 'dash',
  label: 'SPEAKER LEFT',
})
const S2 = plug('S2', extras.speaker8.at('TB'), {
  contact: 'screw-clamp',
  zone: 'dash',
  label: 'SPEAKER RIGHT',
})
const U1 = plug('U1', extras.footswitch.at('J1'), {
  contact: 'jack-6.35-solder',
  zone: 'floor',
  label: 'FOOT SWITCH',
})
const X1 = plug('X1', extras.modem.at('J1'), {
  contact: 'dsub-crimp-20',
  zone: 'seat-back',
  clamp: 'backshell',
  label: 'MODEM 9',
})
const X2 = plug('X2', extras.modem.at('J2'), { contact: 'rect-medium', zone: 'seat-back', label: 'MODEM DC' })
const G3 = connector('G3', 'ring-m6', 'genderless', {
  fits: vehicle.pickupBattery.at('G3'),
  contact: 'ring-red',
  zone: 'seat-back',
  label: 'MODEM BODY',
})
const P5 = plug('P5', radios.mobile.at('ANT'), {
  contact: 'coax-crimp',
  zone: 'seat-back',
  label: 'RADIO ANT',
})
const P6 = plug('P6', radios.antenna.at('A1'), {
  contact: 'coax-crimp',
  zone: 'rear-glass',
  label: 'ANTENNA',
})

const thin = { part: 'vehicle-thin-wall' } as const
const hot = { ...thin, zone: 'engine-bay' } as const

const supply = [
  wire('A01', R1, F1.in, { size: '6 mm²', colour: 'RD', length: '0.4 m', ...hot }),
  wire('A02', F1.out, P1.pin(1), { size: '6 mm²', colour: 'RD', length: '5.2 m', ...hot }),
  wire('A03', P1.pin(2), G1, { size: '6 mm²', colour: 'BK', length: '5.6 m', ...hot }),
  wire('A04', R2, F3.in, { size: '1.5 mm²', colour: 'RD', length: '0.4 m', ...hot }),
]
const hornWires = [
  wire('A05', F3.out, K1.pin(30), { size: '1.5 mm²', colour: 'RD', length: '1.2 m', ...thin }),
  wire('A06', F3.out, K1.pin(86), { size: '0.5 mm²', colour: 'RD', length: '1.2 m', ...thin }),
  wire('A07', K1.pin(85), P2.pin(8), { size: '0.5 mm²', colour: 'VT', length: '4.8 m', ...thin }),
  wire('A08', K1.pin(87), H1, { size: '1.5 mm²', colour: 'OG', length: '2.0 m', ...thin }),
  wire('A09', H2, G2, { size: '1.5 mm²', colour: 'BK', length: '0.5 m', ...thin }),
]
/** Green, not yellow: yellow marks the airbag wiring behind the dash. */
const sense = [
  wire('A10', T1, F2.in, { size: '0.5 mm²', colour: 'GN', length: '0.3 m', ...thin }),
  wire('A11', F2.out, P2.pin(10), { size: '0.5 mm²', colour: 'GN', length: '4.6 m', ...thin }),
]

/** The head cable: eight cores of a flat cord, A12 to A19, pin to the same pin. */
const ways = ['1', '2', '3', '4', '5', '6', '7', '8'] as const
const headCable = cable('W1', 'flat-8x0.14', {
  length: '6.0 m',
  label: 'HEAD CABLE',
  cores: Object.fromEntries(ways.map((n, i) => [n, [P3.p[n], P4.p[n], { id: `A${12 + i}` }] as const])),
})

/** Two of 8 Ω side by side are 4 Ω, the least the radio allows; neither leg goes anywhere else. */
const speakers = [
  pair(
    'TP1',
    wire('A20', P2.pin(1), S1.pin(1), { size: '0.5 mm²', colour: 'WH', length: '3.0 m', ...thin }),
    wire('A21', P2.pin(14), S1.pin(2), { size: '0.5 mm²', colour: 'GY', length: '3.0 m', ...thin }),
  ),
  pair(
    'TP2',
    wire('A22', S1.pin(1), S2.pin(1), { size: '0.5 mm²', colour: 'WH', length: '1.0 m', ...thin }),
    wire('A23', S1.pin(2), S2.pin(2), { size: '0.5 mm²', colour: 'GY', length: '1.0 m', ...thin }),
  ),
]
const pedal = pair(
  'TP3',
  wire('A25', P2.pin(3), U1.pin('T'), {
    size: '0.34 mm²',
    colour: 'BU',
    length: '3.5 m',
    part: 'equipment-pvc',
  }),
  wire('A26', P2.pin(7), U1.pin('S'), {
    size: '0.34 mm²',
    colour: 'BK',
    length: '3.5 m',
    part: 'equipment-pvc',
  }),
)
/** Each audio pair in its own twisted pair, the key line with its own common, the screen cut back at the modem. */
const modemCable = cable('W2', 'screened-3x2x0.22', {
  length: '2.0 m',
  label: 'MODEM CABLE',
  cores: {
    '1a': [P2.pin(5), X1.pin(2), { id: 'A27' }],
    '1b': [P2.pin(6), X1.pin(1), { id: 'A28' }],
    '2a': [P2.pin(17), X1.pin(3), { id: 'A29' }],
    '2b': [P2.pin(18), X1.pin(4), { id: 'A30' }],
    '3a': [P2.pin(19), X1.pin(7), { id: 'A31' }],
    '3b': [P2.pin(20), X1.pin(5), { id: 'A32' }],
  },
  shields: { screen: { id: 'A33', from: P2.pin('shell') } },
})
/** The modem gets its supply through its own plug, behind F2. */
const modemSupply = [
  wire('A36', F2.out, X2.pin(1), { size: '0.5 mm²', colour: 'RD', length: '4.6 m', ...thin }),
  wire('A37', X2.pin(2), G3, { size: '0.5 mm²', colour: 'BK', length: '0.4 m', ...thin }),
]
const feeder = cable('W3', 'rg-58', {
  length: '4.5 m',
  bend: '60 mm',
  label: 'ANT FEEDER',
  cores: { centre: [P5.pin('centre'), P6.pin('centre'), { id: 'A35' }] },
  shields: { shield: { from: P5.pin('shield'), to: P6.pin('shield') } },
})

type BranchArguments = Parameters<typeof branch>
type Marks = NonNullable<NonNullable<BranchArguments[3]>['marks']>

/** A stretch of this loom: tied every 200 mm and at each breakout, which is inside the 250 mm of body-equipment manuals. */
const stretch = (
  from: BranchArguments[0],
  to: BranchArguments[1],
  length: BranchArguments[2],
  marks: Marks = [],
) => branch(from, to, length, { supportEvery: '200 mm', ...(marks.length > 0 ? { marks } : {}) })

/**
 * How it lies: B1 in the engine bay, B2 under the scuttle, B3 below the dash, B4 behind the seat. Each wire is 80 mm longer
 * than its way, for two new crimps at both ends. Sleeves under the bonnet are of the 125 °C kind.
 */
const lay = [
  stretch('B1', F1, '360 mm', [
    { kind: 'sleeve', at: '20 mm', to: '340 mm', bore: '13 mm', class: '125 °C' },
    { kind: 'clip', at: '180 mm' },
  ]),
  stretch(F1, R1, '320 mm', [
    { kind: 'sleeve', at: '20 mm', to: '300 mm', bore: '10 mm', class: '125 °C' },
    { kind: 'clip', at: '160 mm' },
  ]),
  stretch('B1', G1, '760 mm'),
  stretch('B2', 'B1', '600 mm', [
    { kind: 'grommet', at: '150 mm', note: 'Bulkhead', bore: '16 mm', sealed: true },
  ]),
  stretch('B2', F3, '560 mm'),
  stretch(F3, R2, '320 mm'),
  stretch('B2', K1, '560 mm'),
  stretch('B2', 'B5', '1150 mm', [
    { kind: 'grommet', at: '200 mm', note: 'Front panel', bore: '12 mm', sealed: true },
  ]),
  stretch('B5', H1, '210 mm'),
  stretch('B5', H2, '210 mm'),
  stretch('B5', G2, '210 mm'),
  stretch('B2', F2, '360 mm'),
  stretch(F2, T1, '220 mm'),
  stretch('B2', P4, '1760 mm'),
  stretch('B3', 'B2', '1500 mm'),
  stretch('B3', S1, '260 mm'),
  stretch('B3', S2, '660 mm'),
  stretch('B3', U1, '760 mm'),
  stretch('B4', 'B3', '2400 mm', [{ kind: 'tape', at: '100 mm', to: '400 mm' }]),
  stretch('B4', P1, '260 mm'),
  stretch('B4', P2, '260 mm'),
  stretch('B4', P3, '260 mm'),
  stretch('B4', P5, '260 mm'),
  stretch('B4', P6, '4160 mm'),
  stretch('B4', X1, '1660 mm'),
  stretch('B4', 'B6', '200 mm'),
  stretch('B6', X2, '60 mm'),
  stretch('B6', G3, '260 mm'),
]

export const pickupMended = harness('pickup-mended', {
  title: 'Council pickup, remote control head',
  document: 'HT-0417',
  revision: 'B',
  date: '2026-03-09',
  state: 'issued',
  drawnBy: 'J. Hollin',
  checkedBy: 'M. Teal',
  revisions: [
    { revision: 'A', date: '2026-03-02', by: 'J. Hollin', what: 'First plan.' },
    {
      revision: 'B',
      date: '2026-03-09',
      by: 'M. Teal',
      what: 'Mended after the check, before the first crimp.',
    },
  ],
  bundled: 2,
  wires: [supply, hornWires, sense, speakers, pedal, modemSupply],
  cables: [headCable, modemCable, feeder],
  branches: lay,
  notes: ['Fit F1, F2 and F3 last.', 'Tape every 200 mm; grommet where A02 and A03 leave the engine bay.'],
})

const C1 = plug('C1', radios.headRound.at('J5'), {
  contact: 'm12-8-screw',
  zone: 'dash',
  reach: '150 mm',
  label: 'HANDSET J5',
})
const C2 = plug('C2', extras.handset.at('TB'), {
  contact: 'bare-end',
  zone: 'dash',
  clamp: 'gland',
  label: 'HANDSET',
})

/** Six feet is the usual handset cord (common practice). */
export const handsetCordMended = harness('handset-cord-mended', {
  title: 'Handset cord, round plug',
  document: 'HT-0418',
  revision: 'B',
  date: '2026-03-09',
  state: 'issued',
  drawnBy: 'J. Hollin',
  checkedBy: 'M. Teal',
  cables: cable('W1', 'm12-lead-8x0.25', {
    length: '6 ft',
    cores: Object.fromEntries(ways.map((n) => [n, [C1.p[n], C2.p[n], { id: `H0${n}` }] as const])),
  }),
})

/** Who looked, and when. */
const looked = { by: 'M. Teal', date: '2026-03-09' } as const

const battery = unit('battery', vehicle.pickupBattery, { zone: 'engine-bay' })
const radio = unit('radio', radios.mobile, { zone: 'seat-back', title: 'Transceiver behind the seat' })
const left = unit('speaker-left', extras.speaker8, { zone: 'dash' })
const right = unit('speaker-right', extras.speaker8, { zone: 'dash' })
const data = unit('modem', extras.modem, { zone: 'seat-back' })
const main = loom('main', pickupMended)

export const councilPickup = installation('council-pickup', {
  title: 'Council pickup 17',
  document: 'HT-0419',
  revision: 'B',
  date: '2026-03-09',
  state: 'issued',
  drawnBy: 'J. Hollin',
  checkedBy: 'M. Teal',
  asset: 'Pickup 17',
  setting: 'vehicle',
  structure: 'metal',
  supply: '13.8 V',
  ambient: '20 °C',
  parked: '21 days',
  highest: '174 MHz',
  procedures: ['fit-pickup.md'],
  units: [
    battery,
    unit('taps', vehicle.fuseBox, { zone: 'dash' }),
    radio,
    unit('head', radios.headRound, { zone: 'dash', title: 'Control head on the dash' }),
    unit('handset', extras.handset, { zone: 'dash' }),
    left,
    right,
    data,
    unit('horn', vehicle.horn, { zone: 'grille' }),
    unit('pedal', extras.footswitch, { zone: 'floor' }),
    unit('antenna', radios.antenna, { zone: 'rear-glass' }),
  ],
  looms: [main, loom('cord', handsetCordMended)],
  mates: [
    mate(main.at('S1'), left.at('TB')),
    mate(main.at('S2'), right.at('TB')),
    mate(radio.at('CASE'), battery.at('G4')),
    mate(data.at('CASE'), battery.at('G5')),
  ],
  zones: [
    {
      id: 'engine-bay',
      hottest: '60 °C',
      wet: true,
      vibration: true,
      near: ['fuel', 'exhaust', 'moving-parts'],
    },
    { id: 'grille', hottest: '60 °C', wet: true, vibration: true, near: ['moving-parts'] },
    { id: 'scuttle', hottest: '40 °C', near: [] },
    { id: 'dash', hottest: '40 °C', near: ['airbag'] },
    { id: 'floor', hottest: '40 °C', near: [] },
    { id: 'seat-back', hottest: '40 °C', near: [] },
    { id: 'rear-glass', hottest: '40 °C', near: ['airbag'] },
  ],
  answers: [
    answer('clear-of-airbags', 'yes', {
      ...looked,
      at: 'dash',
      note: 'Head on the tunnel, below the column; nothing on the dash top',
    }),
    answer('clear-of-airbags', 'yes', {
      ...looked,
      at: 'rear-glass',
      note: 'Feeder along the floor; the curtain ends at the pillar before it',
    }),
    answer('clear-of-fuel-and-heat', 'yes', {
      ...looked,
      note: '150 mm from the exhaust shield, clipped to the body only, clear of the fan',
    }),
    answer('antenna-clear-of-people', 'yes', {
      ...looked,
      distance: '1.1 m',
      note: 'To the nearer head rest, with the seat right back',
    }),
    answer('feed-from-permitted-point', 'yes', {
      ...looked,
      note: 'KL15 is the spare ignition tap of the fuse box, for converters by the body-builder guide',
    }),
    answer('live-plug-ground-first', 'yes', { ...looked, note: 'Both ends labelled: power off first' }),
  ],
  states: [
    { id: 'off', title: 'Parked, ignition off' },
    { id: 'standby', title: 'Ignition on, radio listening' },
    { id: 'receive', title: 'Receiving' },
    { id: 'transmit', title: 'Transmitting', brief: true },
    { id: 'alarm', title: 'Horn sounding', load: 'receive', brief: true },
  ],
})
