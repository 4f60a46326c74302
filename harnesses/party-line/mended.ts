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
  transformer,
  unit,
  wire,
} from 'loomwright'
import { lineCable } from '../shop-parts.ts'
import * as kit from './equipment.ts'

// The same job, mended.

const head = {
  document: 'HT-0611',
  revision: 'B',
  date: '2026-05-11',
  state: 'issued' as const,
  drawnBy: 'M. Teal',
  checkedBy: 'J. Hollin',
  revisions: [
    { revision: 'A', date: '2026-05-04', by: 'M. Teal', what: 'First plan.' },
    {
      revision: 'B',
      date: '2026-05-11',
      by: 'J. Hollin',
      what: 'Mended after the check, before the first crimp.',
    },
  ],
}

// Trunk from the main station to the box at the foot of the stage, its outlets, and three tails.
const xlr3 = { contact: 'xlr-3-solder', zone: 'stage-left' } as const
const clamp = { kind: 'screw', zone: 'stage-left' } as const
const MS = plug('MS', kit.mainStation.at('LINE'), {
  contact: 'xlr-5-solder',
  zone: 'control',
  bore: '14 mm',
  note: 'Hood with the collar for two cables.',
  label: 'PARTY LINE',
})
/** Six screw clamps in the box at the foot of the stage; each takes several wires. */
const [TK1, TK2, TK3, TK4, TK5, TK6] = [
  splice('TK1', clamp),
  splice('TK2', clamp),
  splice('TK3', clamp),
  splice('TK4', clamp),
  splice('TK5', clamp),
  splice('TK6', clamp),
]
const A = plug('A', kit.speakerStation.at('LINE'), { ...xlr3, label: 'OUTLET A' })
const B = plug('B', kit.speakerStation.at('LINE'), { ...xlr3, label: 'OUTLET B' })
const D1 = plug('D1', kit.lineInterface.at('LINE'), { ...xlr3, label: 'COM A VAN' })
const D2 = plug('D2', kit.rail.at('IN'), { ...xlr3, label: 'COM A RAIL' })
const D3 = plug('D3', kit.rail.at('IN'), { ...xlr3, label: 'COM B RAIL' })
const RT1 = resistor('RT1', { title: 'Terminator', ohms: '200 Ω', terminates: true, zone: 'control' })
const RT2 = resistor('RT2', { title: 'Terminator', ohms: '200 Ω', terminates: true, zone: 'control' })

/** A cable a channel: two commons that meet only at the main station. */
const whole = { bothEnds: 'The screen is the common of the party line.' } as const
const trunkA = cable('W1', lineCable, {
  length: '60 m',
  label: 'TRUNK A',
  cores: { 1: [MS.pin(2), TK2, { id: 'C02' }], 2: [MS.pin(3), TK3, { id: 'C03' }] },
  shields: { screen: { id: 'C01', from: MS.pin(1), to: TK1, ...whole } },
})
const trunkB = cable('W2', lineCable, {
  length: '60 m',
  label: 'TRUNK B',
  cores: { 1: [MS.pin(4), TK4, { id: 'C04' }], 2: [MS.pin(5), TK5, { id: 'C05' }] },
  shields: { screen: { id: 'C41', from: MS.pin(1), to: TK6, ...whole } },
})
const inTheBox = { size: '0.75 mm²', length: '100 mm', part: 'equipment-pvc' } as const
const tail = { size: '0.75 mm²', length: '300 mm', part: 'equipment-pvc' } as const

export const trunkMended = harness('stage-trunk-mended', {
  title: 'Party-line trunk and outlets',
  ...head,
  wires: [
    wire('C06', TK1, A.pin(1), { colour: 'BK', ...inTheBox }),
    wire('C07', TK2, A.pin(2), { colour: 'RD', ...inTheBox }),
    wire('C08', TK3, A.pin(3), { colour: 'WH', ...inTheBox }),
    wire('C09', TK6, B.pin(1), { colour: 'BK', ...inTheBox }),
    wire('C10', TK4, B.pin(2), { colour: 'OG', ...inTheBox }),
    wire('C11', TK5, B.pin(3), { colour: 'BU', ...inTheBox }),
    wire('C12', A.pin(1), D1.pin(1), { colour: 'BK', ...tail }),
    wire('C13', A.pin(2), D1.pin(2), { colour: 'RD', ...tail }),
    wire('C14', A.pin(3), D1.pin(3), { colour: 'WH', ...tail }),
    wire('C15', A.pin(1), D2.pin(1), { colour: 'BK', ...tail }),
    wire('C16', A.pin(2), D2.pin(2), { colour: 'RD', ...tail }),
    wire('C17', A.pin(3), D2.pin(3), { colour: 'WH', ...tail }),
    wire('C20', B.pin(1), D3.pin(1), { colour: 'BK', ...tail }),
    wire('C21', B.pin(2), D3.pin(2), { colour: 'OG', ...tail }),
    wire('C22', B.pin(3), D3.pin(3), { colour: 'BU', ...tail }),
    wire('C23', MS.pin(3), RT1[1], { size: '0.22 mm²', length: '20 mm' }),
    wire('C23r', RT1[2], MS.pin(1), { size: '0.22 mm²', length: '20 mm' }),
    wire('C40', MS.pin(5), RT2[1], { size: '0.22 mm²', length: '20 mm' }),
    wire('C40r', RT2[2], MS.pin(1), { size: '0.22 mm²', length: '20 mm' }),
  ],
  cables: [trunkA, trunkB],
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
const E1 = plug('E1', kit.headsetDynamic.at('PAD'), {
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

/** Pads of the headset by pin of the pack: M−, M+, E−, E+. */
const padOf = [
  ['1', '2'],
  ['2', '4'],
  ['3', '3'],
  ['4', '1'],
] as const

/** A headset lead; its cores are numbered from `first` on. */
const headsetLead = (id: string, pack: typeof HS1 | typeof HS2, ear: typeof E1 | typeof E2, first: number) =>
  cable(id, 'headset-4x0.14', {
    length: '1.8 m',
    cores: Object.fromEntries(
      padOf.map(([pin, pad], i) => [pin, [pack.p[pin], ear.p[pad], { id: `C${first + i}` }] as const]),
    ),
  })

export const headsetsMended = harness('headsets-mended', {
  title: 'Headset leads',
  ...head,
  document: 'HT-0612',
  cables: [headsetLead('W1', HS1, E1, 25), headsetLead('W2', HS2, E2, 29)],
})

// Desk to programme input through a transformer, and the cue light relay.
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
  suppressed: 'diode',
})
const TR1 = transformer('TR1', { title: 'Line transformer 1 : 1', ratio: 1, zone: 'control' })
const cue = { size: '0.5 mm²', length: '4 m', part: 'equipment-pvc' } as const

export const deskLeadsMended = harness('desk-leads-mended', {
  title: 'Programme lead and cue relay',
  ...head,
  document: 'HT-0613',
  wires: [
    wire('C35', CU.pin(1), K1[86], { colour: 'RD', ...cue }),
    wire('C36', K1[85], CU.pin(2), { colour: 'VT', ...cue }),
  ],
  // The screen is bonded at the desk only; the transformer keeps the two earths apart.
  cables: [
    cable('W1', 'screened-1x2x0.22', {
      length: '2.8 m',
      cores: { '1a': [DK.pin(2), TR1.p1, { id: 'C33' }], '1b': [DK.pin(3), TR1.p2, { id: 'C34' }] },
      shields: { screen: { id: 'C42', from: DK.pin(1) } },
    }),
    cable('W2', 'screened-1x2x0.22', {
      length: '200 mm',
      cores: { '1a': [TR1.s1, PG.pin('T'), { id: 'C43' }], '1b': [TR1.s2, PG.pin('S'), { id: 'C44' }] },
    }),
  ],
})

// The microphone line goes to the pit, away from the party line.
const ML = plug('ML', kit.microphone.at('XLR'), { contact: 'xlr-3-solder', zone: 'pit', label: 'MIC 1 PIT' })
const SB = connector('SB', 'xlr-3', 'pin', {
  fits: kit.desk.at('MIC'),
  contact: 'xlr-3-solder',
  zone: 'control',
  label: 'MIC 1 DESK',
})

export const micLineMended = harness('mic-line-mended', {
  title: 'Microphone line',
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
const ear1 = unit('headset-1', kit.headsetDynamic, here)
const ear2 = unit('headset-2', kit.headsetDynamic, here)
const stage = loom('trunk', trunkMended)
const headsets = loom('headsets', headsetsMended)

export const theatre = installation('theatre', {
  title: 'Theatre party line',
  document: 'HT-0615',
  revision: 'B',
  date: '2026-05-11',
  state: 'issued',
  drawnBy: 'M. Teal',
  checkedBy: 'J. Hollin',
  asset: 'Main house',
  setting: 'building',
  supply: '28 V',
  ambient: '20 °C',
  procedures: ['fit-party-line.md'],
  units: [
    unit('main-station', kit.mainStation, { zone: 'control' }),
    speakerA,
    speakerB,
    unit('ob-van', kit.lineInterface, here),
    ...railA.units,
    ...railB.units,
    ear1,
    ear2,
    unit('desk', kit.desk, { zone: 'control' }),
    unit('cue', kit.cueController, { zone: 'control' }),
    unit('mic', kit.microphone, { zone: 'pit' }),
  ],
  looms: [stage, headsets, loom('leads', deskLeadsMended), loom('mic-line', micLineMended)],
  mates: [
    mate(stage.at('A'), speakerA.at('LINE')),
    mate(stage.at('B'), speakerB.at('LINE')),
    mate(stage.at('D2'), railA.input),
    mate(stage.at('D3'), railB.input),
    ...railA.mates,
    ...railB.mates,
    mate(headsets.at('HS1'), pack('a', 1).at('HS')),
    mate(headsets.at('HS2'), pack('b', 1).at('HS')),
    mate(headsets.at('E1'), ear1.at('PAD')),
    mate(headsets.at('E2'), ear2.at('PAD')),
  ],
  zones: [
    { id: 'control', hottest: '30 °C' },
    { id: 'stage-left', hottest: '35 °C' },
    { id: 'pit', hottest: '30 °C' },
  ],
  states: [
    { id: 'off', title: 'House dark' },
    { id: 'show', title: 'Show running, everybody listening', load: 'standby' },
  ],
})
