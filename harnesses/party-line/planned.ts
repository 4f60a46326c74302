import {
  cable,
  connector,
  harness,
  installation,
  loom,
  mate,
  plug,
  relay,
  resistor,
  splice,
  unit,
  wire,
} from 'loomwright'
import * as kit from './equipment.ts'

// The job as it was first planned. It is wrong on purpose, in many places; `check` finds them. See mended.ts for the cure.

const head = {
  document: 'HT-0611',
  revision: 'A',
  date: '2026-05-04',
  state: 'draft',
  drawnBy: 'M. Teal',
} as const

// Trunk from the main station to the box at the foot of the stage, its outlets, and three tails.
const xlr3 = { contact: 'xlr-3-solder', zone: 'stage-left' } as const
const clamp = { kind: 'screw', zone: 'stage-left' } as const
const MS = plug('MS', kit.mainStation.at('LINE'), {
  contact: 'xlr-5-solder',
  zone: 'control',
  label: 'PARTY LINE',
})
/** Five screw clamps in the box at the foot of the stage; each takes several wires. */
const [TK1, TK2, TK3, TK4, TK5] = [
  splice('TK1', clamp),
  splice('TK2', clamp),
  splice('TK3', clamp),
  splice('TK4', clamp),
  splice('TK5', clamp),
]
const A = plug('A', kit.speakerStation.at('LINE'), { ...xlr3, label: 'OUTLET A' })
const B = plug('B', kit.speakerStation.at('LINE'), { ...xlr3, label: 'OUTLET B' })
const D1 = plug('D1', kit.lineInterface.at('LINE'), { ...xlr3, label: 'COM A' })
const D2 = plug('D2', kit.rail.at('IN'), { ...xlr3, label: 'COM A' })
const D3 = plug('D3', kit.rail.at('IN'), { ...xlr3, label: 'COM B' })
const RT1 = resistor('RT1', { title: 'Terminator', ohms: '200 Ω', terminates: true, zone: 'control' })
const RT2 = resistor('RT2', { title: 'Terminator', ohms: '200 Ω', terminates: true, zone: 'stage-left' })

const trunk = cable('W1', 'party-line-4x0.22', {
  length: '60 m',
  label: 'TRUNK',
  cores: {
    1: [MS.pin(2), TK2, { id: 'C02' }],
    2: [MS.pin(3), TK3, { id: 'C03' }],
    3: [MS.pin(4), TK4, { id: 'C04' }],
    4: [MS.pin(5), TK5, { id: 'C05' }],
  },
  shields: {
    screen: {
      id: 'C01',
      from: MS.pin(1),
      to: TK1,
      bothEnds: 'The screen is the common of the party line.',
    },
  },
})
const inTheBox = { size: '0.75 mm²', length: '100 mm', part: 'equipment-pvc' } as const
const tail = { size: '0.75 mm²', length: '300 mm', part: 'equipment-pvc' } as const

export const trunkPlanned = harness('stage-trunk-planned', {
  title: 'Party-line trunk and outlets, as planned',
  ...head,
  wires: [
    wire('C06', TK1, A.pin(1), { colour: 'BK', ...inTheBox }),
    wire('C07', TK2, A.pin(2), { colour: 'RD', ...inTheBox }),
    wire('C08', TK3, A.pin(3), { colour: 'WH', ...inTheBox }),
    wire('C09', TK1, B.pin(1), { colour: 'BK', ...inTheBox }),
    wire('C10', TK4, B.pin(2), { colour: 'OG', ...inTheBox }),
    wire('C11', TK5, B.pin(3), { colour: 'BU', ...inTheBox }),
    wire('C12', A.pin(1), D1.pin(1), { colour: 'BK', ...tail }),
    wire('C13', A.pin(2), D1.pin(3), { colour: 'RD', ...tail }),
    wire('C14', A.pin(3), D1.pin(2), { colour: 'WH', ...tail }),
    wire('C15', A.pin(1), D2.pin(1), { colour: 'BK', ...tail }),
    wire('C16', A.pin(2), D2.pin(2), { colour: 'RD', ...tail }),
    wire('C17', A.pin(3), D2.pin(3), { colour: 'WH', ...tail }),
    wire('C18', D2.pin('shell'), D2.pin(1), { size: '0.22 mm²', length: '20 mm', part: 'equipment-pvc' }),
    wire('C19', A.pin('shell'), A.pin(1), { size: '0.22 mm²', length: '20 mm', part: 'equipment-pvc' }),
    wire('C20', B.pin(1), D3.pin(1), { colour: 'BK', ...tail }),
    wire('C21', B.pin(2), D3.pin(2), { colour: 'OG', ...tail }),
    wire('C22', B.pin(3), D3.pin(3), { colour: 'BU', ...tail }),
    wire('C23', MS.pin(3), RT1[1], { size: '0.22 mm²', length: '20 mm' }),
    wire('C23r', RT1[2], MS.pin(1), { size: '0.22 mm²', length: '20 mm' }),
    wire('C24', D2.pin(3), RT2[1], { size: '0.22 mm²', length: '20 mm' }),
    wire('C24r', RT2[2], D2.pin(1), { size: '0.22 mm²', length: '20 mm' }),
  ],
  cables: trunk,
})

// Two headsets.
const HS1 = plug('HS1', kit.beltPack.at('HS'), {
  contact: 'xlr-4-solder',
  zone: 'stage-left',
  label: 'HEADSET 1',
})
const HS2 = plug('HS2', kit.beltPack.at('HS'), {
  contact: 'xlr-4-solder',
  zone: 'stage-left',
  label: 'HEADSET 2',
})
const E1 = plug('E1', kit.headsetElectret.at('PAD'), {
  contact: 'bare-end',
  zone: 'stage-left',
  clamp: 'gland',
  label: 'EAR 1',
})
const E2 = plug('E2', kit.headsetDynamic.at('PAD'), {
  contact: 'bare-end',
  zone: 'stage-left',
  clamp: 'gland',
  label: 'EAR 2',
})

export const headsetsPlanned = harness('headsets-planned', {
  title: 'Headset leads, as planned',
  ...head,
  document: 'HT-0612',
  cables: [
    cable('W1', 'headset-4x0.14', {
      length: '1.8 m',
      cores: {
        1: [HS1.pin(1), E1.pin(2), { id: 'C25' }],
        2: [HS1.pin(2), E1.pin(4), { id: 'C26' }],
        3: [HS1.pin(3), E1.pin(3), { id: 'C27' }],
        4: [HS1.pin(4), E1.pin(1), { id: 'C28' }],
      },
    }),
    cable('W2', 'headset-4x0.14', {
      length: '1.8 m',
      cores: {
        1: [HS2.pin(1), E2.pin(1), { id: 'C29' }],
        2: [HS2.pin(2), E2.pin(3), { id: 'C30' }],
        3: [HS2.pin(3), E2.pin(4), { id: 'C31' }],
        4: [HS2.pin(4), E2.pin(2), { id: 'C32' }],
      },
    }),
  ],
})

// Desk to programme input, and the cue light relay.
const DK = plug('DK', kit.desk.at('MTX'), { contact: 'xlr-3-solder', zone: 'control', label: 'MATRIX OUT' })
const PG = plug('PG', kit.mainStation.at('PGM'), {
  contact: 'jack-6.35-solder',
  zone: 'control',
  label: 'PROGRAMME',
})
const CU = plug('CU', kit.cueController.at('OUT'), {
  contact: 'screw-clamp',
  zone: 'control',
  label: 'CUE 1',
})
const K1 = relay('K1', {
  title: 'Cue relay',
  coil: '600 Ω',
  coilVolts: '24 V',
  maxAmps: '5 A',
  zone: 'control',
  suppressed: 'none',
})
const cue = { size: '0.5 mm²', length: '4 m', part: 'equipment-pvc' } as const

export const deskLeadsPlanned = harness('desk-leads-planned', {
  title: 'Programme lead and cue relay, as planned',
  ...head,
  document: 'HT-0613',
  wires: [
    wire('C35', CU.pin(1), K1[86], { colour: 'RD', ...cue }),
    wire('C36', K1[85], CU.pin(2), { colour: 'VT', ...cue }),
  ],
  cables: cable('W1', 'screened-1x2x0.22', {
    length: '3 m',
    cores: { '1a': [DK.pin(2), PG.pin('T'), { id: 'C33' }], '1b': [DK.pin(1), PG.pin('S'), { id: 'C34' }] },
  }),
})

// A microphone line that lives beside the party line.
const ML = plug('ML', kit.microphone.at('XLR'), { ...xlr3, label: 'MIC 1 STAGE' })
const SB = connector('SB', 'xlr-3', 'pin', {
  fits: kit.desk.at('MIC'),
  contact: 'xlr-3-solder',
  zone: 'control',
  label: 'MIC 1 DESK',
})

export const micLinePlanned = harness('mic-line-planned', {
  title: 'Microphone line, as planned',
  ...head,
  document: 'HT-0614',
  cables: cable('W1', 'mic-2x0.22', {
    length: '25 m',
    label: 'MIC 1',
    cores: { 1: [ML.pin(2), SB.pin(2), { id: 'C38' }], 2: [ML.pin(3), SB.pin(3), { id: 'C39' }] },
    shields: {
      screen: { id: 'C37', from: ML.pin(1), to: SB.pin(1), bothEnds: 'A microphone has no other return.' },
    },
  }),
})

const outlets = ['O1', 'O2', 'O3', 'O4', 'O5', 'O6', 'O7', 'O8'] as const
const here = { zone: 'stage-left' } as const
const pack = (channel: 'a' | 'b', n: number) => unit(`pack-${channel}${n}`, kit.beltPack, here)

/** A rail with so many packs on it, from the first outlet on. */
function packRail(channel: 'a' | 'b', count: number) {
  const rail = unit(`rail-${channel}`, kit.rail, here)
  const packs = outlets.slice(0, count).map((outlet, i) => ({ outlet, pack: pack(channel, i + 1) }))
  return {
    input: rail.at('IN'),
    units: [rail, ...packs.map((one) => one.pack)],
    mates: packs.map((one) => mate(one.pack.at('LINE'), rail.at(one.outlet))),
  }
}

const railA = packRail('a', 8)
const railB = packRail('b', 6)
const speakerA = unit('speaker-a', kit.speakerStation, here)
const speakerB = unit('speaker-b', kit.speakerStation, here)
const stage = loom('trunk', trunkPlanned)
const headsets = loom('headsets', headsetsPlanned)

export const theatrePlanned = installation('theatre-planned', {
  title: 'Theatre party line, as planned',
  document: 'HT-0615',
  revision: 'A',
  date: '2026-05-04',
  drawnBy: 'M. Teal',
  asset: 'Main house',
  setting: 'building',
  supply: '28 V',
  ambient: '20 °C',
  units: [
    unit('main-station', kit.mainStation, { zone: 'control' }),
    speakerA,
    speakerB,
    unit('ob-van', kit.lineInterface, here),
    ...railA.units,
    ...railB.units,
    unit('headset-1', kit.headsetElectret, here),
    unit('headset-2', kit.headsetDynamic, here),
    unit('desk', kit.desk, { zone: 'control' }),
    unit('cue', kit.cueController, { zone: 'control' }),
    unit('mic', kit.microphone, here),
  ],
  looms: [stage, headsets, loom('leads', deskLeadsPlanned), loom('mic-line', micLinePlanned)],
  mates: [
    mate(stage.at('A'), speakerA.at('LINE')),
    mate(stage.at('B'), speakerB.at('LINE')),
    mate(stage.at('D2'), railA.input),
    mate(stage.at('D3'), railB.input),
    ...railA.mates,
    ...railB.mates,
    mate(headsets.at('HS1'), pack('a', 1).at('HS')),
    mate(headsets.at('HS2'), pack('b', 1).at('HS')),
  ],
  zones: [
    { id: 'control', hottest: '30 °C' },
    { id: 'stage-left', hottest: '35 °C' },
  ],
  states: [
    { id: 'off', title: 'House dark' },
    { id: 'show', title: 'Show running, everybody listening', load: 'standby' },
  ],
})
