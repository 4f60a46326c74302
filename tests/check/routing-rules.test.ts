import { describe, expect, it } from 'vitest'
import { cell, load, type WiredInput, wired } from '../../src/check/examples/wired.ts'
import { packedMm, surelyFits } from '../../src/check/queries/bundle.ts'
import type { Rule } from '../../src/check/rule.ts'
import { bundleFits } from '../../src/check/rules/bundle-fits.ts'
import { flexLoop } from '../../src/check/rules/flex-loop.ts'
import { lengthReaches } from '../../src/check/rules/length-reaches.ts'
import { panelCrossing } from '../../src/check/rules/panel-crossing.ts'
import { supportSpacing } from '../../src/check/rules/support-spacing.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { BranchInput, WireInput } from '../../src/describe/harness.ts'
import type { InstallationInput } from '../../src/describe/installation.ts'
import type { PartInput } from '../../src/describe/part.ts'
import { checkDocument } from './check-document.ts'

const by = (rule: Rule, data: DocumentInput) => {
  const { findings, notChecked } = checkDocument(data, { rules: [rule] })
  const own = findings.filter((finding) => finding.rule === rule.id)
  return {
    levels: own.map(({ level }) => level),
    says: own.map(({ what }) => what),
    asks: notChecked.filter((each) => each.rule === rule.id).map(({ needs }) => needs),
  }
}

type Part = Extract<PartInput, { kind: 'wire' }>
type Zones = NonNullable<InstallationInput['zones']>

interface Route {
  readonly branches: readonly BranchInput[] | undefined
  readonly wires?: number
  readonly wire?: Partial<WireInput>
  readonly part?: Partial<Part>
  readonly place?: WiredInput['place']
  readonly zones?: readonly [string, string]
  readonly policy?: DocumentInput['policy']
}

/** So many wires from P1 to P2 along the branches given. */
function routed({ branches, wires = 1, wire, part, place, zones, policy }: Route): DocumentInput {
  const pins = Object.fromEntries(
    Array.from({ length: wires }, (_, n) => [`${n + 1}`, { name: `S${n + 1}` }]),
  )
  const data = wired({
    units: {
      a: { pins, ...(zones ? { zone: zones[0] } : {}) },
      b: { pins, ...(zones ? { zone: zones[1] } : {}) },
    },
    parts: part ? [{ kind: 'wire', id: 'w', title: 'Wire', ...part }] : [],
    runs: Array.from(
      { length: wires },
      (_, n) => [`a.${n + 1}`, `b.${n + 1}`, { ...(part ? { part: 'w' } : {}), ...wire }] as const,
    ),
    harness: branches ? { branches: [...branches] } : {},
    ...(place ? { place } : {}),
  })
  return policy ? { ...data, policy } : data
}

const straight = (length: BranchInput['length'], more: Partial<BranchInput> = {}): BranchInput[] => [
  { from: 'P1', to: 'P2', length, ...more },
]

describe('the length of a wire', () => {
  // Way 900 mm; two new crimps of 20 mm at each of two ends are 80 mm.
  it.each<[WireInput['length'], string[]]>([
    ['0.8994 m', ['stop']],
    ['0.9 m', ['warning']],
    ['0.979 m', ['warning']],
    ['0.98 m', []],
    ['1.5 m', []],
  ])('%s on a way of 900 mm', (length, levels) => {
    expect(by(lengthReaches, routed({ branches: straight('900 mm'), wire: { length } })).levels).toEqual(
      levels,
    )
  })
  it.each<[string, string[]]>([
    ['60 mm', ['warning']],
    ['100 mm', ['stop']],
  ])('counts %s that a door takes on top', (travel, levels) => {
    const flex = { across: 'hinge', loop: 'twist', travel: travel as '60 mm' } as const
    const data = routed({ branches: straight('900 mm', { flex }), wire: { length: '0.98 m' } })
    expect(by(lengthReaches, data).levels).toEqual(levels)
  })
  it('takes what a new crimp uses up from the policy', () => {
    const with30 = routed({
      branches: straight('900 mm'),
      wire: { length: '1.01 m' },
      policy: { remake: '30 mm' },
    })
    expect(by(lengthReaches, with30).says).toEqual([
      'A01 is 1.01 m on a way of 900 mm: 110 mm of slack (wanted 120 mm)',
    ])
  })
  it('asks how a loom of a vehicle lies, and leaves a bench lead alone', () => {
    const van = (setting: 'vehicle' | 'bench') => routed({ branches: undefined, place: { setting } })
    expect(by(lengthReaches, van('vehicle')).asks).toEqual(['needs the branches of lead: how it lies'])
    expect(by(lengthReaches, van('bench')).asks).toEqual([])
  })
})

describe('what holds a loom', () => {
  const clip = (at: string) => ({ kind: 'clip' as const, at: at as '1 mm' })
  const van = { setting: 'vehicle' } as const
  const boat = { setting: 'boat' } as const
  it.each<[string, BranchInput[], 'vehicle' | 'boat' | 'building', number]>([
    ['250 mm from the plug', straight('500 mm', { marks: [clip('250 mm')] }), 'vehicle', 0],
    ['251 mm from the plug', straight('500 mm', { marks: [clip('251 mm')] }), 'vehicle', 1],
    ['ties every 250 mm', straight('5 m', { supportEvery: '250 mm' }), 'vehicle', 0],
    ['ties every 251 mm', straight('5 m', { supportEvery: '251 mm' }), 'vehicle', 1],
    [
      'ties every ten-millionth of a millimetre',
      straight('5 m', { supportEvery: '0.0000001 mm' }),
      'vehicle',
      0,
    ],
    [
      'ties every 260 mm with a clip between each two',
      straight('600 mm', { supportEvery: '260 mm', marks: [clip('130 mm'), clip('390 mm')] }),
      'vehicle',
      0,
    ],
    ['450 mm between clips afloat', straight('900 mm', { marks: [clip('450 mm')] }), 'boat', 0],
    ['451 mm between clips afloat', straight('901 mm', { marks: [clip('450 mm')] }), 'boat', 1],
    ['a metre in a building', straight('2 m', { marks: [clip('1 m')] }), 'building', 0],
    ['ties every 250 mm', straight('3 m', { supportEvery: '250 mm' }), 'vehicle', 0],
    ['ties every 260 mm', straight('3 m', { supportEvery: '260 mm' }), 'vehicle', 11],
    ['ties at their limit and a short end', straight('1.01 m', { supportEvery: '250 mm' }), 'vehicle', 0],
  ])('%s', (_, branches, setting, stretches) => {
    const result = by(supportSpacing, routed({ branches, place: { setting } }))
    // Stretches of one loom have one cause: the longest is shown and the rest are counted with it.
    expect(result.says.length).toBe(Math.min(1, stretches))
  })
  const fork = (marks: NonNullable<BranchInput['marks']>): BranchInput[] => [
    { from: 'P1', to: 'B1', length: '200 mm', marks: [{ kind: 'tie', at: '100 mm' }, ...marks] },
    { from: 'B1', to: 'P2', length: '200 mm' },
  ]
  it('a breakout does not hold by itself: 100 mm before it and 200 mm behind hang together', () => {
    expect(by(supportSpacing, routed({ branches: fork([]), place: van })).says).toEqual([
      '300 mm of lead hang free between P2 and the tie at 100 mm of lead.P1-B1 (limit 250 mm)',
    ])
  })
  it('a tie at the breakout holds it', () => {
    expect(by(supportSpacing, routed({ branches: fork([clip('180 mm')]), place: van })).says).toEqual([])
  })
  // ISO 10133 §7.3: 300 mm for what carries the battery with no fuse before it.
  it.each([
    ['300 mm', true, 0],
    ['301 mm', true, 1],
    ['301 mm', false, 0],
  ] as const)('afloat, %s of a battery cable (%s)', (at, battery, expected) => {
    const data = wired({
      units: { cell: cell({ battery, maxAmps: '5 A' }), lamp: load('1 A') },
      runs: [
        ['cell.1', 'lamp.1', { size: '2.5 mm²' }],
        ['lamp.2', 'cell.2', { size: '2.5 mm²' }],
      ],
      harness: { branches: straight('600 mm', { marks: [clip(at)] }) },
      place: boat,
    })
    expect(by(supportSpacing, data).says).toHaveLength(expected)
  })
  it('takes the limit of the shop, and asks where no tie is described', () => {
    const marks = [clip('150 mm')]
    const strict = routed({
      branches: straight('300 mm', { marks }),
      place: boat,
      policy: { supports: '140 mm' },
    })
    expect(by(supportSpacing, strict).says).toHaveLength(1)
    expect(by(supportSpacing, routed({ branches: straight('300 mm'), place: van })).asks).toEqual([
      'needs the ties and clips of lead (marks or supportEvery)',
    ])
  })
})

describe('bundles and bores', () => {
  // Three wires of 3 mm lie in a round of 2.1547 × 3 = 6.46 mm.
  it.each([
    ['6.4 mm', 1],
    ['6.5 mm', 0],
  ] as const)('three wires of 3 mm and a grommet of %s', (bore, expected) => {
    const marks = [{ kind: 'grommet' as const, at: '100 mm' as const, bore }]
    const data = routed({ branches: straight('1 m', { marks }), wires: 3, part: { od: '3 mm' } })
    expect(by(bundleFits, data).says).toHaveLength(expected)
  })
  // NFPA 70 chapter 9 table 1: one 53 %, two 31 %, more 40 %. d²n ÷ D².
  it.each([
    [1, '4.1 mm', 1], // 9 ÷ 16.81 = 54 %
    [1, '4.2 mm', 0], // 51 %
    [2, '7.6 mm', 1], // 18 ÷ 57.76 = 31.2 %
    [2, '7.7 mm', 0], // 30.4 %
    [3, '8.2 mm', 1], // 27 ÷ 67.24 = 40.2 %
    [3, '8.3 mm', 0], // 39.2 %
  ] as const)('%i wires of 3 mm in a sleeve of %s', (wires, bore, expected) => {
    const marks = [{ kind: 'sleeve' as const, at: '100 mm' as const, bore }]
    const data = routed({ branches: straight('1 m', { marks }), wires, part: { od: '3 mm' } })
    expect(by(bundleFits, data).says).toHaveLength(expected)
  })
  it('asks for diameters it does not know, unless the known ones are too thick already', () => {
    const marks = [{ kind: 'grommet' as const, at: '100 mm' as const, bore: '5 mm' as const }]
    expect(by(bundleFits, routed({ branches: straight('1 m', { marks }), wires: 2 })).asks).toHaveLength(1)
  })
  it('the quick answer never says fits where the packing says not', () => {
    for (const mixed of [
      [3, 3],
      [3, 3, 3],
      [5, 1],
      [4, 4, 1],
      [6, 2, 2],
      [2, 2, 2, 2, 2],
      [9, 1, 1, 1],
    ]) {
      const need = packedMm(mixed)
      expect(surelyFits(mixed, need * 0.999)).toBe(false)
    }
  })
})

describe('panel crossings', () => {
  const wetDry: Zones = [{ id: 'wet', wet: true }, { id: 'dry' }]
  type Mark = NonNullable<BranchInput['marks']>[number]
  const crossing = (mark: Partial<Mark> | undefined, zones: readonly [string, string] = ['wet', 'dry']) =>
    routed({
      branches: straight('1 m', mark ? { marks: [{ kind: 'grommet', at: '300 mm', ...mark }] } : {}),
      zones,
      place: { zones: wetDry },
    })
  it.each<[string, Partial<Mark> | undefined, readonly [string, string], string[], number]>([
    ['a bare hole', { kind: 'hole' }, ['wet', 'dry'], ['stop'], 0],
    ['a bare hole between dry places', { kind: 'hole' }, ['dry', 'dry'], ['stop'], 0],
    ['a sealed grommet', { sealed: true }, ['wet', 'dry'], [], 0],
    ['an open grommet', { sealed: false }, ['wet', 'dry'], ['warning'], 0],
    ['an open grommet between dry places', { sealed: false }, ['dry', 'dry'], [], 0],
    ['a gland that does not say', { kind: 'gland' }, ['wet', 'dry'], [], 1],
    ['a gland between dry places', { kind: 'gland' }, ['dry', 'dry'], [], 0],
    ['no crossing between wet and dry', undefined, ['wet', 'dry'], [], 1],
    ['no crossing between dry places', undefined, ['dry', 'dry'], [], 0],
  ])('%s', (_, mark, zones, levels, questions) => {
    const result = by(panelCrossing, crossing(mark, zones))
    expect(result.levels).toEqual(levels)
    expect(result.asks).toHaveLength(questions)
  })
})

describe('where a loom moves', () => {
  const moving = (flex: BranchInput['flex'], part: Partial<Part>, size: WireInput['size'] = '0.75 mm²') =>
    routed({ branches: straight('1 m', flex ? { flex } : {}), part, wire: size ? { size } : {} })
  const hinge = { across: 'hinge', loop: 'twist' } as const
  // IEC 60228 class 5: 0.75 mm² in strands of 0.21 mm is 21.7 of them; with 10 % for making, 0.231 mm is 17.9.
  it.each([
    [1, 1],
    [7, 1],
    [17, 1],
    [18, 0],
    [24, 0],
  ])('0.75 mm² of %i strands', (strands, expected) => {
    expect(by(flexLoop, moving(hinge, { strands })).says).toHaveLength(expected)
  })
  it.each<
    [NonNullable<BranchInput['flex']>['across'], 'twist' | 'bend' | 'none' | undefined, number, number]
  >([
    ['hinge', 'twist', 0, 0],
    ['hinge', 'bend', 1, 0],
    ['hinge', 'none', 1, 0],
    ['slide', 'bend', 0, 0],
    ['slide', 'none', 1, 0],
    ['hinge', undefined, 0, 1],
  ])('a %s with the loop %s', (across, loop, findings, questions) => {
    const result = by(flexLoop, moving({ across, ...(loop ? { loop } : {}) }, { strands: 24 }))
    expect(result.says).toHaveLength(findings)
    expect(result.asks).toHaveLength(questions)
  })
  it('asks for strands only where something moves', () => {
    expect(by(flexLoop, moving(hinge, {})).asks).toEqual([
      'needs the strands of A01, which move across the hinge in lead.P1-P2',
    ])
    expect(by(flexLoop, moving(undefined, { strands: 1 })).says).toEqual([])
  })
})
