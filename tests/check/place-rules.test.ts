import { describe, expect, it } from 'vitest'
import { wired } from '../../src/check/examples/wired.ts'
import type { Rule } from '../../src/check/rule.ts'
import { cableEntryClamped } from '../../src/check/rules/cable-entry-clamped.ts'
import { dripLoop } from '../../src/check/rules/drip-loop.ts'
import { fitForZone } from '../../src/check/rules/fit-for-zone.ts'
import { temperatureClass } from '../../src/check/rules/temperature-class.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { BranchInput, HarnessConnectorInput } from '../../src/describe/harness.ts'
import type { InstallationInput } from '../../src/describe/installation.ts'
import type { PartInput } from '../../src/describe/part.ts'
import { classFor } from '../../src/solve/formulas/temperature-class.ts'
import { checkDocument } from './check-document.ts'

type Zone = NonNullable<InstallationInput['zones']>[number]
type Family = Extract<PartInput, { kind: 'connector' }>
type Wire = Extract<PartInput, { kind: 'wire' }>

const by = (rule: Rule, data: DocumentInput) => {
  const { findings, notChecked } = checkDocument(data, { rules: [rule] })
  const own = findings.filter((finding) => finding.rule === rule.id)
  return {
    says: own.map(({ what }) => what),
    asks: notChecked.filter((each) => each.rule === rule.id).map(({ needs }) => needs),
  }
}

interface Job {
  readonly zone?: Omit<Zone, 'id'>
  readonly family?: Partial<Family>
  readonly plug?: Partial<HarnessConnectorInput>
  readonly wire?: Partial<Wire>
  readonly branches?: BranchInput[]
  /** A second socket of the family on the unit in the zone, with nothing in it. */
  readonly open?: { readonly cover?: 'cap' }
}

/** One wire from a plug in the zone `z` to one outside it. */
function job({ zone = {}, family = {}, plug = {}, wire, branches, open }: Job): DocumentInput {
  const data = wired({
    units: {
      a: { pins: { '1': { name: 'A' } }, family: 'f', zone: 'z' },
      b: { pins: { '1': { name: 'A' } }, family: 'g', zone: 'y' },
    },
    parts: [
      { kind: 'connector', id: 'f', title: 'F', style: 'housing', lock: 'latch', pins: ['1'], ...family },
      { kind: 'connector', id: 'g', title: 'G', style: 'terminal', pins: ['1'] },
      ...(wire ? [{ kind: 'wire' as const, id: 'w', title: 'Wire', ...wire }] : []),
    ],
    runs: [['a.1', 'b.1', { size: '1.5 mm²', ...(wire ? { part: 'w' } : {}) }]],
    harness: branches ? { branches } : {},
    place: {
      setting: 'vehicle',
      zones: [
        { id: 'z', hottest: '40 °C', ...zone },
        { id: 'y', hottest: '20 °C' },
      ],
    },
  })
  const [first] = data.harnesses?.[0]?.connectors ?? []
  if (first) Object.assign(first, plug)
  const [unit] = data.equipment ?? []
  if (unit && open)
    unit.connectors.push({
      id: 'X',
      family: 'f',
      half: 'socket',
      view: 'mating',
      pins: { '1': { kind: 'spare' } },
      ...open,
    })
  return data
}

describe('heat', () => {
  it.each<[Zone['hottest'], Wire['class'] | undefined, number, number]>([
    ['105 °C', '105 °C', 0, 0],
    ['106 °C', '105 °C', 1, 0],
    ['105 °C', undefined, 0, 1],
    // A living room asks nothing of a wire.
    ['40 °C', undefined, 0, 0],
    [undefined, '105 °C', 0, 1],
  ])('a zone of %s and a wire of %s', (hottest, rated, findings, questions) => {
    const zone = hottest === undefined ? { hottest: undefined as never } : { hottest }
    const data = job({ zone, wire: rated ? { class: rated } : {} })
    for (const each of data.installations?.[0]?.zones ?? [])
      if (each.hottest === undefined) delete each.hottest
    const result = by(temperatureClass, data)
    expect(result.says).toHaveLength(findings)
    expect(result.asks).toHaveLength(questions)
  })
  it('of a zone the wire only passes through counts', () => {
    const branches: BranchInput[] = [
      { from: 'P1', to: 'B1', length: '200 mm' },
      { from: 'B1', to: 'P2', length: '200 mm', zone: 'hot' },
    ]
    const data = job({ wire: { class: '80 °C' }, branches })
    data.installations?.[0]?.zones?.push({ id: 'hot', hottest: '95 °C' })
    expect(by(temperatureClass, data).says).toEqual([
      'A01 is rated for 80 °C and goes through hot, which gets 95 °C hot',
    ])
  })
  it.each([
    ['125 °C', 0],
    ['90 °C', 1],
  ] as const)('a sleeve for %s in a zone of 105 °C', (rated, expected) => {
    const marks = [{ kind: 'sleeve' as const, at: '10 mm' as const, class: rated }]
    const branches: BranchInput[] = [{ from: 'P1', to: 'P2', length: '400 mm', zone: 'z', marks }]
    const data = job({ zone: { hottest: '105 °C' }, wire: { class: '125 °C' }, branches })
    expect(by(temperatureClass, data).says).toHaveLength(expected)
  })
  // ISO 6722-1 table 1, from memory.
  it.each([
    [85, 'A'],
    [86, 'B'],
    [125, 'C'],
    [126, 'D'],
    [300, undefined],
  ])('%i °C wants class %s', (celsius, letter) => {
    expect(classFor(celsius)?.letter).toBe(letter)
  })
})

describe('water', () => {
  it.each<[string, Omit<Zone, 'id'>, Partial<Family>, Partial<HarnessConnectorInput>, number, number]>([
    ['a dry zone', {}, { ip: 'IP20' }, {}, 0, 0],
    ['IPX4 where it is wet', { wet: true }, { ip: 'IPX4' }, {}, 0, 0],
    ['IPX3 where it is wet', { wet: true }, { ip: 'IPX3' }, {}, 1, 0],
    ['IP65 where IP67 is asked', { ip: 'IP67' }, { ip: 'IP65' }, {}, 1, 0],
    ['IP67 where IP67 is asked', { ip: 'IP67' }, { ip: 'IP67' }, {}, 0, 0],
    ['IP47 where IP67 is asked', { ip: 'IP67' }, { ip: 'IP47' }, {}, 1, 0],
    ['a wrapped pair', { wet: true }, { ip: 'IP20' }, { cover: 'wrap' }, 0, 0],
    ['a cap is of no use to a mated pair', { wet: true }, { ip: 'IP20' }, { cover: 'cap' }, 1, 0],
    ['a sealed family', { wet: true }, { sealed: true }, {}, 0, 0],
    ['a family that does not say', { wet: true }, {}, {}, 0, 1],
    ['a screw terminal', { wet: true }, { style: 'terminal', ip: 'IP20' }, {}, 0, 0],
  ])('%s', (_, zone, family, plug, findings, questions) => {
    const result = by(fitForZone, job({ zone, family, plug }))
    expect(result.says).toHaveLength(findings)
    expect(result.asks).toHaveLength(questions)
  })
  it.each<[Family['ipOpen'], 'cap' | undefined, number, number]>([
    ['IP20', undefined, 1, 0],
    ['IP67', undefined, 0, 0],
    ['IP20', 'cap', 0, 0],
    [undefined, undefined, 0, 1],
  ])('an open socket of %s with %s', (ipOpen, cover, findings, questions) => {
    const family = { ip: 'IP67' as const, ...(ipOpen ? { ipOpen } : {}) }
    const result = by(fitForZone, job({ zone: { wet: true }, family, open: cover ? { cover } : {} }))
    expect(result.says).toHaveLength(findings)
    expect(result.asks).toHaveLength(questions)
  })
})

describe('sun, oil and salt', () => {
  it.each<[Omit<Zone, 'id'>, Wire['resists'], number, number]>([
    [{ sun: true }, ['sun', 'oil'], 0, 0],
    [{ sun: true }, ['oil'], 1, 0],
    [{ sun: true, oil: true }, [], 2, 0],
    [{ sun: true }, undefined, 0, 1],
    // Where the jacket says nothing of salt, the tinning of the strands is judged instead.
    [{ salt: true }, undefined, 0, 0],
    [{ salt: true }, ['oil'], 1, 0],
  ])('%o and a wire that resists %o', (zone, resists, findings, questions) => {
    const result = by(fitForZone, job({ zone, wire: resists ? { resists } : {} }))
    expect(result.says).toHaveLength(findings)
    expect(result.asks).toHaveLength(questions)
  })
})

describe('drip loops', () => {
  it.each<[string, Omit<Zone, 'id'>, Partial<Family>, Partial<HarnessConnectorInput>, number, number]>([
    ['from above where it is wet', { wet: true }, {}, { entry: 'above' }, 1, 0],
    ['from above where it is salty', { salt: true }, {}, { entry: 'above' }, 1, 0],
    ['from above where it is dry', {}, {}, { entry: 'above' }, 0, 0],
    ['from below', { wet: true }, {}, { entry: 'below' }, 0, 0],
    ['not told', { wet: true }, {}, {}, 0, 1],
    ['a watertight plug', { wet: true }, { ip: 'IP67' }, { entry: 'above' }, 0, 0],
    ['a sealed plug', { wet: true }, { sealed: true }, { entry: 'above' }, 0, 0],
    ['a ring', { wet: true }, { style: 'ring' }, { entry: 'above' }, 0, 0],
  ])('%s', (_, zone, family, plug, findings, questions) => {
    const result = by(dripLoop, job({ zone, family, plug }))
    expect(result.says).toHaveLength(findings)
    expect(result.asks).toHaveLength(questions)
  })

  // The drop has to fall off 25 mm below the entry.
  it.each([
    ['875 mm', 0],
    ['876 mm', 1],
    ['1200 mm', 1],
  ] as const)('the way at %s before an entry at 900 mm', (height, expected) => {
    const branches: BranchInput[] = [
      { from: 'P1', to: 'P2', length: '1 m', marks: [{ kind: 'clip', at: '150 mm', height }] },
    ]
    const plug = { entry: 'side' as const, height: '900 mm' as const }
    expect(by(dripLoop, job({ zone: { wet: true }, plug, branches })).says).toHaveLength(expected)
  })
})

describe('the clamp of a cable', () => {
  const clamped = (clamp: HarnessConnectorInput['clamp'], family: Partial<Family> = {}): DocumentInput => {
    const data = wired({
      units: {
        a: { pins: { '1': { name: 'A' } }, family: 'f' },
        b: { pins: { '1': { name: 'A' } }, family: 'g' },
      },
      parts: [
        { kind: 'connector', id: 'f', title: 'F', style: 'housing', pins: ['1'], ...family },
        { kind: 'connector', id: 'g', title: 'G', style: 'housing', pins: ['1'], clamp: true },
        { kind: 'cable', id: 'c', title: 'Cable', od: '4 mm', cores: [{ name: '1', size: '0.5 mm²' }] },
      ],
      cables: [{ id: 'W1', part: 'c', cores: [{ core: '1', from: 'a.1', to: 'b.1' }] }],
    })
    const [first] = data.harnesses?.[0]?.connectors ?? []
    if (first && clamp) first.clamp = clamp
    return data
  }
  it.each<[HarnessConnectorInput['clamp'], Partial<Family>, number, number]>([
    ['none', {}, 1, 0],
    ['backshell', {}, 0, 0],
    [undefined, { clamp: true }, 0, 0],
    [undefined, { clamp: false }, 1, 0],
    ['none', { clamp: true }, 1, 0],
    ['clip', { clamp: false }, 0, 0],
    [undefined, {}, 0, 1],
    [undefined, { style: 'ring', clamp: false }, 0, 0],
  ])('%s on %o', (clamp, family, findings, questions) => {
    const result = by(cableEntryClamped, clamped(clamp, family))
    expect(result.says).toHaveLength(findings)
    expect(result.asks).toHaveLength(questions)
  })
})
