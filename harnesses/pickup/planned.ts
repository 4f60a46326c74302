import {
  answer,
  cable,
  connector,
  fuse,
  harness,
  installation,
  loom,
  mate,
  plug,
  relay,
  unit,
  wire,
} from 'loomwright'
import * as extras from './accessories.ts'
import * as radios from './radio.ts'
import * as vehicle from './vehicle.ts'

// The job as it was first planned. It is wrong on purpose, in many places; `check` finds them. See mended.ts for the cure.

// Supply: rings on the battery, tabs in the fuse box, fuses in the run.
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
const R3 = connector('R3', 'ring-m8', 'genderless', {
  fits: vehicle.pickupBattery.at('POST'),
  contact: 'ring-red',
  zone: 'engine-bay',
  label: 'RADIO RETURN',
})
const T1 = plug('T1', vehicle.fuseBox.at('KL30'), {
  contact: 'receptacle-6.3-red',
  zone: 'dash',
  label: 'IGN SENSE TAP',
})
const F1 = fuse('F1', { title: 'Radio', rating: '20 A', part: 'blade-20', zone: 'engine-bay' })
const F2 = fuse('F2', { title: 'Ignition sense', rating: '3 A', part: 'blade-3', zone: 'dash' })
const F3 = fuse('F3', { title: 'Horn', rating: '10 A', part: 'blade-10', zone: 'scuttle' })

// Radio.
const P1 = plug('P1', radios.mobile.at('J1'), { contact: 'rect-power', zone: 'seat-back', label: 'RADIO DC' })
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
const P4 = plug('P4', radios.headTwin.at('J4'), {
  contact: 'modular-idc',
  zone: 'dash',
  reach: '150 mm',
  label: 'HEAD J4',
})

// Horn relay.
const K1 = relay('K1', {
  title: 'Horn relay',
  coil: '80 Ω',
  coilVolts: '12 V',
  maxAmps: '30 A',
  zone: 'scuttle',
  suppressed: 'none',
  pulled: ['alarm'],
})
const H1 = plug('H1', vehicle.horn.at('PLUS'), {
  contact: 'receptacle-6.3-red',
  zone: 'grille',
  label: 'HORN PLUS',
})
const H2 = plug('H2', vehicle.horn.at('MINUS'), {
  contact: 'receptacle-6.3-red',
  zone: 'grille',
  label: 'HORN MINUS',
})
const G2 = connector('G2', 'ring-m6', 'genderless', {
  fits: vehicle.pickupBattery.at('G2'),
  contact: 'ring-red',
  zone: 'grille',
  label: 'HORN BODY',
})

// Speakers, foot switch, modem, antenna.
const S1 = plug('S1', extras.speaker4.at('TB'), {
  contact: 'screw-clamp',
  zone: 'dash',
  label: 'SPEAKER LEFT',
})
const S2 = plug('S2', extras.speaker4.at('TB'), {
  contact: 'screw-clamp',
  zone: 'dash',
  label: 'SPEAKER RIGHT',
})
const G3 = connector('G3', 'ring-m6', 'genderless', {
  fits: vehicle.pickupBattery.at('G3'),
  contact: 'ring-red',
  zone: 'dash',
  label: 'SPEAKER BODY',
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
  wire('A03', P1.pin(2), R3, { size: '1.5 mm²', colour: 'BK', length: '5.6 m', ...hot }),
  wire('A04', R2, F3.in, { size: '1.5 mm²', colour: 'RD', length: '0.4 m', ...hot }),
]
const hornWires = [
  wire('A05', F3.out, K1.pin(30), { size: '1.5 mm²', colour: 'RD', length: '1.2 m', ...thin }),
  wire('A06', F3.out, K1.pin(86), { size: '0.5 mm²', colour: 'RD', length: '1.2 m', ...thin }),
  wire('A07', K1.pin(85), P2.pin(8), { size: '0.5 mm²', colour: 'VT', length: '4.8 m', ...thin }),
  wire('A08', K1.pin(87), H1, { size: '1.5 mm²', colour: 'OG', length: '2.0 m', ...thin }),
  wire('A09', H2, G2, { size: '1.5 mm²', colour: 'BK', length: '0.5 m', ...thin }),
]
const sense = [
  wire('A10', T1, F2.in, { size: '0.5 mm²', colour: 'YE', length: '0.3 m', ...thin }),
  wire('A11', F2.out, P2.pin(10), { size: '0.5 mm²', colour: 'YE', length: '4.6 m', ...thin }),
]

/** The head cable: eight cores of a flat cord, A12 to A19, crimped one after the other. */
const ways = ['1', '2', '3', '4', '5', '6', '7', '8'] as const
const fromTheOtherSide = [...ways].reverse()
const headCable = cable('W1', 'flat-8x0.14', {
  length: '6.0 m',
  label: 'HEAD CABLE',
  cores: Object.fromEntries(
    ways.map((n, i) => [n, [P3.p[n], P4.p[fromTheOtherSide[i] ?? n], { id: `A${12 + i}` }] as const]),
  ),
})

const speakers = [
  wire('A20', P2.pin(1), S1.pin(1), { size: '0.75 mm²', colour: 'WH', length: '3.0 m', ...thin }),
  wire('A21', P2.pin(14), S1.pin(2), { size: '0.75 mm²', colour: 'GY', length: '3.0 m', ...thin }),
  wire('A22', S1.pin(1), S2.pin(1), { size: '0.75 mm²', colour: 'WH', length: '1.0 m', ...thin }),
  wire('A23', S1.pin(2), S2.pin(2), { size: '0.75 mm²', colour: 'GY', length: '1.0 m', ...thin }),
  wire('A24', S2.pin(2), G3, { size: '0.75 mm²', colour: 'BK', length: '0.2 m', ...thin }),
]
const pedal = [
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
]
const modemCable = cable('W2', 'screened-3x2x0.22', {
  length: '2.0 m',
  label: 'MODEM CABLE',
  cores: {
    '1a': [P2.pin(5), X1.pin(2), { id: 'A27' }],
    '2b': [P2.pin(6), X1.pin(5), { id: 'A28' }],
    '2a': [P2.pin(17), X1.pin(3), { id: 'A29' }],
    '1b': [P2.pin(18), X1.pin(5), { id: 'A30' }],
    '3a': [P2.pin(19), X1.pin(7), { id: 'A31' }],
    '3b': [P2.pin(11), X1.pin(9), { id: 'A32' }],
  },
  shields: { screen: { id: 'A33-A34', from: P2.pin('shell'), to: X1.pin('shell') } },
})
const feeder = cable('W3', 'rg-58', {
  length: '4.5 m',
  bend: '20 mm',
  label: 'ANT FEEDER',
  cores: { centre: [P5.pin('centre'), P6.pin('centre'), { id: 'A35' }] },
  shields: { shield: { from: P5.pin('shield'), to: P6.pin('shield') } },
})

export const pickupPlanned = harness('pickup-planned', {
  title: 'Council pickup, remote control head, as planned',
  document: 'HT-0417',
  revision: 'A',
  date: '2026-03-02',
  state: 'draft',
  drawnBy: 'J. Hollin',
  bundled: 2,
  wires: [supply, hornWires, sense, speakers, pedal],
  cables: [headCable, modemCable, feeder],
})

const C1 = plug('C1', radios.headTwin.at('J5'), {
  contact: 'modular-idc',
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
export const handsetCordPlanned = harness('handset-cord-planned', {
  title: 'Handset cord, 8P8C',
  document: 'HT-0418',
  revision: 'A',
  date: '2026-03-02',
  state: 'draft',
  drawnBy: 'J. Hollin',
  cables: cable('W1', 'flat-8x0.14', {
    length: '6 ft',
    cores: Object.fromEntries(ways.map((n) => [n, [C1.p[n], C2.p[n], { id: `H0${n}` }] as const])),
  }),
})

const battery = unit('battery', vehicle.pickupBattery, { zone: 'engine-bay' })
const taps = unit('taps', vehicle.fuseBox, { zone: 'dash' })
const radio = unit('radio', radios.mobile, { zone: 'seat-back', title: 'Transceiver behind the seat' })
const head = unit('head', radios.headTwin, { zone: 'dash', title: 'Control head on the dash' })
const left = unit('speaker-left', extras.speaker4, { zone: 'dash' })
const right = unit('speaker-right', extras.speaker4, { zone: 'dash' })
const data = unit('modem', extras.modem, { zone: 'seat-back' })
const main = loom('main', pickupPlanned)
const cord = loom('cord', handsetCordPlanned)

export const councilPickupPlanned = installation('council-pickup-planned', {
  title: 'Council pickup 17, as planned',
  document: 'HT-0419',
  revision: 'A',
  date: '2026-03-02',
  drawnBy: 'J. Hollin',
  asset: 'Pickup 17',
  setting: 'vehicle',
  structure: 'metal',
  supply: '13.8 V',
  ambient: '20 °C',
  parked: '21 days',
  highest: '174 MHz',
  units: [
    battery,
    taps,
    radio,
    head,
    unit('handset', extras.handset, { zone: 'dash' }),
    left,
    right,
    data,
    unit('horn', vehicle.horn, { zone: 'grille' }),
    unit('pedal', extras.footswitch, { zone: 'floor' }),
    unit('antenna', radios.antenna, { zone: 'rear-glass' }),
  ],
  looms: [main, cord],
  mates: [
    mate(main.at('S1'), left.at('TB')),
    mate(main.at('S2'), right.at('TB')),
    mate(radio.at('CASE'), battery.at('G4')),
    mate(data.at('CASE'), battery.at('G5')),
  ],
  zones: [
    { id: 'engine-bay', hottest: '60 °C', wet: true, vibration: true },
    { id: 'grille', hottest: '60 °C', wet: true, vibration: true },
    { id: 'scuttle', hottest: '40 °C' },
    { id: 'dash', hottest: '40 °C' },
    { id: 'floor', hottest: '40 °C' },
    { id: 'seat-back', hottest: '40 °C' },
    { id: 'rear-glass', hottest: '40 °C' },
  ],
  // Looked at once, before the route was changed; everything else is still open.
  answers: [
    answer('clear-of-fuel-and-heat', 'yes', {
      at: 'grille',
      by: 'J. Hollin',
      date: '2026-03-02',
      note: 'Clear of the fan',
    }),
    answer('antenna-clear-of-people', 'yes', { by: 'J. Hollin', date: '2026-03-02' }),
  ],
  states: [
    { id: 'off', title: 'Parked, ignition off' },
    { id: 'standby', title: 'Ignition on, radio listening' },
    { id: 'receive', title: 'Receiving' },
    { id: 'transmit', title: 'Transmitting', brief: true },
    { id: 'alarm', title: 'Horn sounding', load: 'receive', brief: true },
  ],
})
