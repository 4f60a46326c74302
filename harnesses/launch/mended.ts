import {
  answer,
  branch,
  cable,
  fuse,
  harness,
  installation,
  type JackOn,
  loom,
  mate,
  pair,
  plug,
  unit,
  wire,
} from 'loomwright'
import { bigPowerContact, heavyLug, instrumentCable, slimBoat } from '../shop-parts.ts'
import * as net from './instruments.ts'
import * as power from './power.ts'
import * as radios from './radio.ts'

// The same job, mended.

const ring = <const Id extends string>(
  id: Id,
  on: JackOn,
  contact: 'ring-red' | 'ring-blue' | 'ring-yellow',
  label: string,
) => plug(id, on, { family: 'ring-m8', contact, zone: 'engine-space', label })

const lug = <const Id extends string>(id: Id, on: JackOn, contact: 'lug-10' | 'lug-25', label: string) =>
  plug(id, on, { family: heavyLug, contact, zone: 'engine-space', label })

const BAT1 = lug('BAT1', power.boatBattery.at('POS'), 'lug-25', 'MAIN +')
const BAT2 = lug('BAT2', power.boatBattery.at('NEG'), 'lug-25', 'MAIN −')
const BP1 = lug('BP1', power.busBars.at('P1'), 'lug-25', 'BUS+ FEED')
const BP2 = lug('BP2', power.busBars.at('P1'), 'lug-10', 'FUSE BLOCK FEED')
const FBI = plug('FBI', power.fuseBlock.at('IN'), {
  family: 'ring-m6',
  contact: 'lug-10',
  zone: 'helm-1',
  label: 'FUSE BLOCK IN',
})
const FBO = plug('FBO', power.fuseBlock.at('OUT'), {
  contact: 'screw-clamp',
  pins: { 1: { contact: 'ferrule-6' }, 3: { contact: 'ferrule-6' } },
  zone: 'helm-1',
  entry: 'below',
  label: 'FUSE BLOCK OUT',
})

// No more than four rings on a stud.
const BN1 = lug('BN1', power.busBars.at('N1'), 'lug-25', 'BUS− MAIN')
const BN2 = ring('BN2', power.busBars.at('N1'), 'ring-yellow', 'BUS− RADIO')
const BN4 = ring('BN4', power.busBars.at('N1'), 'ring-yellow', 'BUS− PUMP')
const BN3 = ring('BN3', power.busBars.at('N3'), 'ring-blue', 'BUS− PLOTTER')
const BN5 = ring('BN5', power.busBars.at('N3'), 'ring-blue', 'BUS− HAILER')
const BN6 = ring('BN6', power.busBars.at('N3'), 'ring-red', 'BUS− NET')
const BN8 = ring('BN8', power.busBars.at('N3'), 'ring-red', 'BUS− BUZZER')

/** Within 178 mm of the battery and sheathed up to it (ABYC E-11). */
const F1 = fuse('F1', {
  title: 'Main',
  rating: '40 A',
  part: 'maxi-40',
  resistance: '1.1 mΩ',
  holder: '0.5 mΩ',
  zone: 'engine-space',
})

const R1 = plug('R1', radios.boatRadio.at('J1'), {
  contact: 'rect-small',
  pins: { 1: { contact: bigPowerContact }, 2: { contact: bigPowerContact } },
  zone: 'helm-1',
  clamp: 'clip',
  entry: 'below',
  label: 'RADIO',
})
const ANT = plug('ANT', radios.boatRadio.at('ANT'), {
  contact: 'coax-solder',
  zone: 'helm-1',
  entry: 'below',
  label: 'RADIO ANT',
})
const WHIP = plug('WHIP', radios.boatAntenna.at('A1'), {
  contact: 'coax-solder',
  zone: 'roof',
  entry: 'below',
  cover: 'wrap',
  label: 'WHIP',
})
const H2 = plug('H2', radios.secondHandset8.at('J1'), {
  contact: 'm12-8-screw',
  zone: 'helm-2',
  label: 'HANDSET 2',
})
const GN = plug('GN', net.gnss.at('TB'), {
  contact: 'screw-clamp',
  zone: 'roof',
  clamp: 'gland',
  entry: 'below',
  label: 'GNSS',
})
const N1 = plug('N1', net.plotter.at('J1'), {
  contact: 'screw-clamp',
  zone: 'helm-1',
  entry: 'below',
  label: 'PLOTTER',
})
const BZ = plug('BZ', net.buzzer.at('J1'), {
  contact: 'screw-clamp',
  zone: 'helm-1',
  entry: 'below',
  label: 'BUZZER',
})
const HL = plug('HL', radios.hailer.at('J1'), {
  contact: 'screw-clamp',
  zone: 'helm-1',
  entry: 'below',
  label: 'HAILER',
})
const HN = plug('HN', radios.hailerHorn.at('TB'), {
  contact: 'screw-clamp',
  zone: 'roof',
  entry: 'below',
  label: 'HAILER HORN',
})
const BOND = plug('BOND', power.busBars.at('BOND'), {
  family: 'ring-m6',
  contact: 'ring-red',
  zone: 'engine-space',
  label: 'NET SCREEN',
})
const FS = plug('FS', power.floatSwitch.at('J1'), {
  contact: 'sealed-3-6',
  seal: 'seal-3.7-4.5',
  zone: 'bilge',
  label: 'FLOAT SWITCH',
})
const PU = plug('PU', power.bilgePump.at('J1'), {
  contact: 'sealed-3-6',
  seal: 'seal-3.7-4.5',
  plugEmpty: true,
  zone: 'bilge',
  label: 'BILGE PUMP',
})

// Instrument bus: T1 at the first helm, T2 at the second.
const T1P = plug('T1P', net.busTee.at('C'), { contact: 'm12-screw', zone: 'helm-1', label: 'NET POWER' })
const T1 = plug('T1', net.busTee.at('B'), { contact: 'm12-screw', zone: 'helm-1', label: 'NET TRUNK 1' })
const T2 = plug('T2', net.busTee.at('A'), { contact: 'm12-screw', zone: 'helm-2', label: 'NET TRUNK 2' })
const T2D = plug('T2D', net.busTee.at('C'), { contact: 'm12-screw', zone: 'helm-2', label: 'NET DROP' })
const DS = plug('DS', net.display.at('J1'), { contact: 'm12-screw', zone: 'helm-2', label: 'DISPLAY' })

const tinned = { part: 'boat-tinned' } as const
const slim = { part: slimBoat, zone: 'bilge' } as const

const main = [
  wire('B01', BAT1, F1.in, { size: '25 mm²', colour: 'RD', length: '150 mm', sheathed: true, ...tinned }),
  wire('B02', F1.out, BP1, { size: '25 mm²', colour: 'RD', length: '4.95 m', ...tinned }),
  wire('B03', BN1, BAT2, { size: '25 mm²', colour: 'BK', length: '4.6 m', ...tinned }),
  wire('B04', BP2, FBI, { size: '10 mm²', colour: 'RD', length: '0.38 m', ...tinned }),
]
const branches = [
  wire('B05', FBO.pin(1), R1.pin(1), { size: '6 mm²', colour: 'RD', length: '7.0 m', part: slimBoat }),
  wire('B06', R1.pin(2), BN2, { size: '6 mm²', colour: 'BK', length: '6.8 m', part: slimBoat }),
  wire('B08', FBO.pin(2), N1.pin(1), { size: '2.5 mm²', colour: 'RD', length: '3.0 m', ...tinned }),
  wire('B09', N1.pin(2), BN3, { size: '2.5 mm²', colour: 'BK', length: '3.0 m', ...tinned }),
  wire('B10', FBO.pin(3), FS.pin(1), { size: '6 mm²', colour: 'BN', length: '8.0 m', ...slim }),
  wire('B11', FS.pin(2), PU.pin(1), { size: '6 mm²', colour: 'BN', length: '0.5 m', ...slim }),
  wire('B12', PU.pin(2), BN4, { size: '6 mm²', colour: 'BK', length: '8.0 m', ...slim }),
  wire('B13', FBO.pin(4), HL.pin(1), { size: '2.5 mm²', colour: 'RD', length: '2.5 m', ...tinned }),
  wire('B14', HL.pin(2), BN5, { size: '2.5 mm²', colour: 'BK', length: '2.5 m', ...tinned }),
  ...pair(
    'TP1',
    wire('B15', HL.pin(3), HN.pin(1), { size: '1.5 mm²', colour: 'WH', length: '5.0 m', ...tinned }),
    wire('B16', HL.pin(4), HN.pin(2), { size: '1.5 mm²', colour: 'GY', length: '5.0 m', ...tinned }),
  ),
]
const trunk = cable('W1', 'can-bus-0.75', {
  length: '16 m',
  label: 'NET TRUNK',
  cores: {
    power: [T1.pin(2), T2.pin(2), { id: 'B19' }],
    return: [T1.pin(3), T2.pin(3), { id: 'B20' }],
    'can-h': [T1.pin(4), T2.pin(4), { id: 'B21' }],
    'can-l': [T1.pin(5), T2.pin(5), { id: 'B22' }],
  },
  shields: {
    screen: { id: 'B18', from: T1.pin(1), to: T2.pin(1), bothEnds: 'The bus carries its screen through.' },
  },
})
const drop = cable('W2', 'can-bus-0.34', {
  length: '5 m',
  label: 'NET DROP',
  cores: {
    power: [T2D.pin(2), DS.pin(2), { id: 'B24' }],
    return: [T2D.pin(3), DS.pin(3), { id: 'B25' }],
    'can-h': [T2D.pin(4), DS.pin(4), { id: 'B26' }],
    'can-l': [T2D.pin(5), DS.pin(5), { id: 'B27' }],
  },
  shields: {
    screen: { id: 'B23', from: T2D.pin(1), to: DS.pin(1), bothEnds: 'The bus carries its screen through.' },
  },
})
const busSupply = [
  wire('B28', FBO.pin(5), T1P.pin(2), {
    size: '0.75 mm²',
    colour: 'RD',
    length: '1.0 m',
    sheathed: true,
    ...tinned,
  }),
  wire('B29', T1P.pin(3), BN6, {
    size: '0.75 mm²',
    colour: 'BK',
    length: '1.0 m',
    sheathed: true,
    ...tinned,
  }),
  // The screen of the bus is bonded once, where the bus is fed.
  wire('B41', T1P.pin(1), BOND, {
    size: '0.75 mm²',
    colour: 'GN',
    length: '1.0 m',
    sheathed: true,
    ...tinned,
  }),
]
const position = cable('W3', instrumentCable, {
  length: '6 m',
  label: 'GNSS DATA',
  spareCores: 'capped',
  cores: {
    '1a': [GN.pin(1), R1.pin(6), { id: 'B30' }],
    '1b': [GN.pin(2), R1.pin(7), { id: 'B31' }],
    '2a': [GN.pin(3), R1.pin(5), { id: 'B32' }],
  },
})
/** Five of eight cores, B33 to B37: the radio's pins 8 to 12 to the handset's 1 to 5. */
const handsetLead = cable('W4', 'm12-lead-8x0.25', {
  length: '9 m',
  label: 'HANDSET 2',
  spareCores: 'capped',
  cores: {
    1: [R1.pin(8), H2.pin(1), { id: 'B33' }],
    2: [R1.pin(9), H2.pin(2), { id: 'B34' }],
    3: [R1.pin(10), H2.pin(3), { id: 'B35' }],
    4: [R1.pin(11), H2.pin(4), { id: 'B36' }],
    5: [R1.pin(12), H2.pin(5), { id: 'B37' }],
  },
})
const buzzer = [
  wire('B38', FBO.pin(2), BZ.pin(1), { size: '1.5 mm²', colour: 'RD', length: '3.0 m', ...tinned }),
  wire('B39', BZ.pin(2), BN8, { size: '1.5 mm²', colour: 'BK', length: '3.0 m', ...tinned }),
]
const feeder = cable('W5', 'rg-8x', {
  length: '6.0 m',
  bend: '70 mm',
  label: 'ANT FEEDER',
  cores: { centre: [ANT.pin('centre'), WHIP.pin('centre'), { id: 'B40' }] },
  shields: { shield: { from: ANT.pin('shield'), to: WHIP.pin('shield') } },
})

type BranchArguments = Parameters<typeof branch>
type Marks = NonNullable<NonNullable<BranchArguments[3]>['marks']>

/** A stretch of this loom: tied every 250 mm and at each breakout, inside the 300 mm of ISO 10133 for battery cables. */
const stretch = (
  from: BranchArguments[0],
  to: BranchArguments[1],
  length: BranchArguments[2],
  marks: Marks = [],
) => branch(from, to, length, { supportEvery: '250 mm', ...(marks.length > 0 ? { marks } : {}) })

/** Whatever goes up from the bars has a gland of its own in the floor of the panel. */
const panelGland: Marks = [{ kind: 'gland', at: '60 mm', bore: '20 mm', sealed: true }]

/**
 * How it lies: L1 at the bars under the fuse panel, L2 and L3 along the first helm, L4 on the roof, L7 at the second helm.
 * Each wire is 80 mm longer than its way, for two new crimps at both ends.
 */
const lay = [
  stretch('L6', F1, '610 mm', [{ kind: 'sleeve', at: '50 mm', bore: '20 mm' }]),
  stretch(F1, BAT1, '70 mm', [{ kind: 'sleeve', at: '10 mm', to: '60 mm', bore: '20 mm' }]),
  stretch('L6', BAT2, '260 mm'),
  stretch('L1', 'L6', '4000 mm', [
    { kind: 'grommet', at: '600 mm', note: 'Bulkhead', bore: '25 mm', sealed: true },
  ]),
  ...[BP1, BN1].map((end) => stretch('L1', end, '260 mm')),
  ...[BN3, BN4, BN5, BN6, BN8, BOND].map((end) => stretch('L1', end, '360 mm')),
  stretch('L1', BN2, '160 mm'),
  stretch('L1', BP2, '150 mm'),
  stretch('L1', FBI, '150 mm', panelGland),
  stretch('L1', FBO, '360 mm', panelGland),
  stretch('L1', T1P, '560 mm', panelGland),
  stretch('L1', T1, '660 mm', panelGland),
  stretch('L1', 'L2', '1400 mm', panelGland),
  stretch('L2', N1, '1160 mm'),
  stretch('L2', BZ, '1160 mm'),
  stretch('L2', HL, '660 mm'),
  stretch('L2', HN, '4260 mm', [
    { kind: 'gland', at: '4000 mm', note: 'Roof gland', bore: '8 mm', sealed: true },
  ]),
  stretch('L2', 'L3', '4000 mm'),
  stretch('L3', R1, '1160 mm'),
  stretch('L3', ANT, '1160 mm'),
  stretch('L3', H2, '7760 mm'),
  stretch('L3', 'L4', '3000 mm', [
    { kind: 'gland', at: '2800 mm', note: 'Roof gland', bore: '16 mm', sealed: true },
  ]),
  stretch('L4', GN, '1760 mm'),
  stretch('L4', WHIP, '1760 mm'),
  stretch('L1', 'L5', '7350 mm', [
    { kind: 'gland', at: '7000 mm', note: 'Bilge gland', bore: '16 mm', sealed: true },
  ]),
  stretch('L5', FS, '210 mm'),
  stretch('L5', PU, '210 mm'),
  stretch('L1', 'L7', '15 m', panelGland),
  stretch('L7', T2, '260 mm'),
  stretch('L7', T2D, '260 mm'),
  stretch('L7', DS, '4660 mm'),
]

export const launchMended = harness('launch-mended', {
  title: 'Harbour launch, two helms',
  document: 'HT-0502',
  revision: 'B',
  date: '2026-04-20',
  state: 'issued',
  drawnBy: 'P. Okafor',
  checkedBy: 'J. Hollin',
  revisions: [
    { revision: 'A', date: '2026-04-13', by: 'P. Okafor', what: 'First plan.' },
    {
      revision: 'B',
      date: '2026-04-20',
      by: 'J. Hollin',
      what: 'Mended after the check, before the first crimp.',
    },
  ],
  bundled: 2,
  wires: [main, branches, busSupply, buzzer],
  cables: [trunk, drop, position, handsetLead, feeder],
  branches: lay,
  notes: ['All cables enter the fuse panel from below, with a drip loop.', 'Fit F1 last.'],
})

/** Who looked, and when. */
const looked = { by: 'J. Hollin', date: '2026-04-20' } as const

const bars = unit('bars', power.busBars, { zone: 'engine-space' })
const house = unit('house', power.housePanel, { zone: 'engine-space' })
const tee1 = unit('tee1', net.busTee, { zone: 'helm-1' })
const tee2 = unit('tee2', net.busTee, { zone: 'helm-2' })
const end1 = unit('end1', net.terminatorSocket, { zone: 'helm-1' })
const end2 = unit('end2', net.terminatorPin, { zone: 'helm-2' })
const heading = unit('heading', net.headingSensor, { zone: 'helm-1' })
const boat = loom('main', launchMended)

export const harbourLaunch = installation('harbour-launch', {
  title: 'Harbour launch',
  document: 'HT-0503',
  revision: 'B',
  date: '2026-04-20',
  state: 'issued',
  drawnBy: 'P. Okafor',
  checkedBy: 'J. Hollin',
  asset: 'Launch 2',
  setting: 'boat',
  structure: 'non-conductive',
  supply: '12 V',
  ambient: '20 °C',
  highest: '162.1 MHz',
  procedures: ['fit-launch.md'],
  units: [
    unit('battery', power.boatBattery, { zone: 'engine-space' }),
    bars,
    house,
    unit('fuses', power.fuseBlock, { zone: 'helm-1' }),
    unit('radio', radios.boatRadio, { zone: 'helm-1' }),
    unit('plotter', net.plotter, { zone: 'helm-1' }),
    unit('buzzer', net.buzzer, { zone: 'helm-1' }),
    unit('hailer', radios.hailer, { zone: 'helm-1' }),
    unit('horn', radios.hailerHorn, { zone: 'roof' }),
    unit('float', power.floatSwitch, { zone: 'bilge' }),
    unit('pump', power.bilgePump, { zone: 'bilge' }),
    tee1,
    tee2,
    end1,
    end2,
    heading,
    unit('display', net.display, { zone: 'helm-2' }),
    unit('handset2', radios.secondHandset8, { zone: 'helm-2' }),
    unit('gnss', net.gnss, { zone: 'roof' }),
    unit('antenna', radios.boatAntenna, { zone: 'roof' }),
  ],
  looms: [boat],
  mates: [
    mate(house.at('POS'), bars.at('P2')),
    mate(house.at('NEG'), bars.at('N2')),
    mate(boat.at('T1'), tee1.at('B')),
    mate(boat.at('T1P'), tee1.at('C')),
    mate(heading.at('J1'), tee1.at('D')),
    mate(end1.at('J1'), tee1.at('A')),
    mate(end2.at('J1'), tee2.at('B')),
    mate(boat.at('T2'), tee2.at('A')),
    mate(boat.at('T2D'), tee2.at('C')),
  ],
  zones: [
    {
      id: 'engine-space',
      hottest: '50 °C',
      wet: true,
      salt: true,
      vibration: true,
      near: ['fuel', 'exhaust', 'moving-parts'],
    },
    { id: 'bilge', hottest: '40 °C', wet: true, salt: true },
    { id: 'helm-1', hottest: '40 °C', salt: true },
    { id: 'helm-2', hottest: '40 °C', salt: true },
    { id: 'roof', hottest: '40 °C', wet: true, salt: true },
  ],
  answers: [
    answer('clear-of-fuel-and-heat', 'yes', {
      ...looked,
      note: 'High along the bulkhead, opposite the fuel line; belt guard fitted',
    }),
    answer('antenna-clear-of-people', 'yes', {
      ...looked,
      distance: '2.1 m',
      note: 'Above the head of anyone standing in the well',
    }),
  ],
  states: [
    { id: 'off', title: 'Laid up' },
    { id: 'standby', title: 'Under way, listening' },
    { id: 'transmit', title: 'Everything on, transmitting' },
  ],
})
