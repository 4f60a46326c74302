import { cable, fuse, harness, installation, type JackOn, loom, mate, plug, unit, wire } from 'loomwright'
import { instrumentCable, smallRing, stallFlex } from '../shop-parts.ts'
import * as net from './instruments.ts'
import * as power from './power.ts'
import * as radios from './radio.ts'

// The job as it was first planned. It is wrong on purpose, in many places; `check` finds them. See mended.ts for the cure.

const ring = <const Id extends string>(
  id: Id,
  on: JackOn,
  contact: 'ring-red' | 'ring-blue' | 'lug-10' | typeof smallRing,
  label: string,
) => plug(id, on, { family: 'ring-m8', contact, zone: 'engine-space', label })

const BAT1 = ring('BAT1', power.boatBattery.at('POS'), 'lug-10', 'MAIN +')
const BAT2 = ring('BAT2', power.boatBattery.at('NEG'), 'lug-10', 'MAIN −')
const BP1 = ring('BP1', power.busBars.at('P1'), 'lug-10', 'BUS+ FEED')
const BP2 = ring('BP2', power.busBars.at('P1'), 'lug-10', 'FUSE BLOCK FEED')
const FBI = plug('FBI', power.fuseBlock.at('IN'), {
  family: 'ring-m6',
  contact: 'lug-10',
  zone: 'helm-1',
  label: 'FUSE BLOCK IN',
})
const FBO = plug('FBO', power.fuseBlock.at('OUT'), {
  contact: 'screw-clamp',
  zone: 'helm-1',
  entry: 'above',
  label: 'FUSE BLOCK OUT',
})

// Everything comes back to one stud.
const negative = power.busBars.at('N1')
const BN1 = ring('BN1', negative, 'lug-10', 'BUS− MAIN')
const BN2 = ring('BN2', negative, 'ring-blue', 'BUS− RADIO')
const BN3 = ring('BN3', negative, 'ring-red', 'BUS− PLOTTER')
const BN4 = ring('BN4', negative, 'ring-red', 'BUS− PUMP')
const BN5 = ring('BN5', negative, 'ring-red', 'BUS− HAILER')
const BN6 = ring('BN6', negative, 'ring-red', 'BUS− NET')
const BN7 = ring('BN7', negative, smallRing, 'BUS− GNSS')
const BN8 = ring('BN8', negative, 'ring-red', 'BUS− BUZZER')

const F1 = fuse('F1', { title: 'Main', rating: '40 A', part: 'maxi-40', zone: 'engine-space' })
const F7 = fuse('F7', { title: 'Radio negative', rating: '10 A', part: 'blade-10', zone: 'engine-space' })

const R1 = plug('R1', radios.boatRadio.at('J1'), {
  contact: 'rect-small',
  pins: { 1: { contact: 'rect-power' }, 2: { contact: 'rect-power' } },
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
  label: 'WHIP',
})
const H2 = plug('H2', radios.secondHandset.at('J1'), {
  contact: 'm12-screw',
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
  label: 'BOND',
})
const FS = plug('FS', power.floatSwitch.at('J1'), {
  contact: 'sealed-0.75-2.5',
  seal: 'seal-2.4-3.0',
  zone: 'bilge',
  label: 'FLOAT SWITCH',
})
const PU = plug('PU', power.bilgePump.at('J1'), {
  contact: 'sealed-0.75-2.5',
  seal: 'seal-1.7-2.4',
  zone: 'bilge',
  label: 'BILGE PUMP',
})

// Instrument bus: T1 at the first helm, T2 at the second.
const T1P = plug('T1P', net.busTee.at('C'), { contact: 'm12-screw', zone: 'helm-1', label: 'NET POWER' })
const T1 = plug('T1', net.busTee.at('B'), { contact: 'm12-screw', zone: 'helm-1', label: 'NET TRUNK 1' })
const T2 = plug('T2', net.busTee.at('A'), { contact: 'm12-screw', zone: 'helm-2', label: 'NET TRUNK 2' })
const T2D = plug('T2D', net.busTee.at('C'), { contact: 'm12-screw', zone: 'helm-2', label: 'NET DROP' })
const DS = plug('DS', net.display.at('J1'), { contact: 'm12-screw', zone: 'helm-2', label: 'DISPLAY' })

const flex = { part: stallFlex } as const

const main = [
  wire('B01', BAT1, F1.in, { size: '10 mm²', colour: 'RD', length: '0.9 m', sheathed: false, ...flex }),
  wire('B02', F1.out, BP1, { size: '10 mm²', colour: 'RD', length: '4.2 m', ...flex }),
  wire('B03', BN1, BAT2, { size: '10 mm²', colour: 'BK', length: '4.6 m', ...flex }),
  wire('B04', BP2, FBI, { size: '10 mm²', colour: 'RD', length: '0.3 m', ...flex }),
]
const branches = [
  wire('B05', FBO.pin(1), R1.pin(1), { size: '2.5 mm²', colour: 'RD', length: '7.0 m', ...flex }),
  wire('B06', R1.pin(2), F7.in, { size: '2.5 mm²', colour: 'BK', length: '6.8 m', ...flex }),
  wire('B07', F7.out, BN2, { size: '2.5 mm²', colour: 'BK', length: '0.2 m', ...flex }),
  wire('B08', FBO.pin(2), N1.pin(1), { size: '1.5 mm²', colour: 'RD', length: '3.0 m', ...flex }),
  wire('B09', N1.pin(2), BN3, { size: '1.5 mm²', colour: 'BK', length: '3.0 m', ...flex }),
  wire('B10', FBO.pin(3), FS.pin(1), {
    size: '1.5 mm²',
    colour: 'BN',
    length: '8.0 m',
    zone: 'bilge',
    ...flex,
  }),
  wire('B11', FS.pin(2), PU.pin(1), {
    size: '1.5 mm²',
    colour: 'BN',
    length: '0.5 m',
    zone: 'bilge',
    ...flex,
  }),
  wire('B12', PU.pin(2), BN4, { size: '1.5 mm²', colour: 'BK', length: '8.0 m', zone: 'bilge', ...flex }),
  wire('B13', FBO.pin(4), HL.pin(1), { size: '1.5 mm²', colour: 'RD', length: '2.5 m', ...flex }),
  wire('B14', HL.pin(2), BN5, { size: '1.5 mm²', colour: 'BK', length: '2.5 m', ...flex }),
  wire('B15', HL.pin(3), HN.pin(1), { size: '1.5 mm²', colour: 'WH', length: '5.0 m', ...flex }),
  wire('B16', HL.pin(4), HN.pin(2), { size: '1.5 mm²', colour: 'GY', length: '5.0 m', ...flex }),
  wire('B17', HN.pin(2), BOND, { size: '1.5 mm²', colour: 'GN', length: '0.3 m', ...flex }),
]
const trunk = cable('W1', 'can-bus-0.75', {
  length: '12 m',
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
  length: '9 m',
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
    ...flex,
  }),
  wire('B29', T1P.pin(3), BN6, { size: '0.75 mm²', colour: 'BK', length: '1.0 m', sheathed: true, ...flex }),
]
const position = cable('W3', instrumentCable, {
  length: '6 m',
  label: 'GNSS DATA',
  spareCores: 'capped',
  cores: {
    '1a': [GN.pin(1), R1.pin(7), { id: 'B30' }],
    '1b': [GN.pin(2), R1.pin(6), { id: 'B31' }],
    '2a': [GN.pin(3), BN7, { id: 'B32' }],
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
  wire('B38', FBO.pin(2), BZ.pin(1), { size: '0.5 mm²', colour: 'RD', length: '3.0 m', ...flex }),
  wire('B39', BZ.pin(2), BN8, { size: '0.5 mm²', colour: 'BK', length: '3.0 m', ...flex }),
]
const feeder = cable('W5', 'rg-8x', {
  length: '6.0 m',
  bend: '70 mm',
  label: 'ANT FEEDER',
  cores: { centre: [ANT.pin('centre'), WHIP.pin('centre'), { id: 'B40' }] },
  shields: { shield: { from: ANT.pin('shield'), to: WHIP.pin('shield') } },
})

export const launchPlanned = harness('launch-planned', {
  title: 'Harbour launch, two helms, as planned',
  document: 'HT-0502',
  revision: 'A',
  date: '2026-04-13',
  state: 'draft',
  drawnBy: 'P. Okafor',
  bundled: 2,
  wires: [main, branches, busSupply, buzzer],
  cables: [trunk, drop, position, handsetLead, feeder],
  notes: ['All cables enter the fuse panel from above.'],
})

const bars = unit('bars', power.busBars, { zone: 'engine-space' })
const house = unit('house', power.housePanel, { zone: 'engine-space' })
const tee1 = unit('tee1', net.busTee, { zone: 'helm-1' })
const tee2 = unit('tee2', net.busTee, { zone: 'helm-2' })
const end1 = unit('end1', net.terminatorSocket, { zone: 'helm-1' })
const heading = unit('heading', net.headingSensor, { zone: 'helm-1' })
const boat = loom('main', launchPlanned)

export const harbourLaunchPlanned = installation('harbour-launch-planned', {
  title: 'Harbour launch, as planned',
  document: 'HT-0503',
  revision: 'A',
  date: '2026-04-13',
  drawnBy: 'P. Okafor',
  asset: 'Launch 2',
  setting: 'boat',
  structure: 'non-conductive',
  supply: '12 V',
  ambient: '20 °C',
  highest: '162.1 MHz',
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
    heading,
    unit('display', net.display, { zone: 'helm-2' }),
    unit('handset2', radios.secondHandset, { zone: 'helm-2' }),
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
    mate(boat.at('T2'), tee2.at('A')),
    mate(boat.at('T2D'), tee2.at('C')),
  ],
  zones: [
    { id: 'engine-space', hottest: '50 °C', wet: true, salt: true, vibration: true },
    { id: 'bilge', hottest: '40 °C', wet: true, salt: true },
    { id: 'helm-1', hottest: '40 °C', salt: true },
    { id: 'helm-2', hottest: '40 °C', salt: true },
    { id: 'roof', hottest: '40 °C', wet: true, salt: true },
  ],
  states: [
    { id: 'off', title: 'Laid up' },
    { id: 'standby', title: 'Under way, listening' },
    { id: 'transmit', title: 'Everything on, transmitting' },
  ],
})
