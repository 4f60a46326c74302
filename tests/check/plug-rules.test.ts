import { describe, expect, it } from 'vitest'
import type { Colour } from '../../src/base/colour.ts'
import { rowHousing } from '../../src/check/examples/parts.ts'
import { cell, load, wired } from '../../src/check/examples/wired.ts'
import type { Rule } from '../../src/check/rule.ts'
import { coloursAgree } from '../../src/check/rules/colours-agree.ts'
import { endsFinished } from '../../src/check/rules/ends-finished.ts'
import { inputDriven } from '../../src/check/rules/input-driven.ts'
import { spareContactsLeft } from '../../src/check/rules/spare-contacts-left.ts'
import { spareCoresFinished } from '../../src/check/rules/spare-cores-finished.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { PinFunctionInput } from '../../src/describe/function.ts'
import type { HarnessInput } from '../../src/describe/harness.ts'
import type { InstallationInput } from '../../src/describe/installation.ts'
import type { PolicyInput } from '../../src/describe/policy.ts'
import { checkDocument } from './check-document.ts'

type Zone = NonNullable<InstallationInput['zones']>[number]

const by = (rule: Rule, data: DocumentInput) => checkDocument(data, { rules: [rule] })
const says = (rule: Rule, data: DocumentInput) =>
  by(rule, data)
    .findings.filter((finding) => finding.rule === rule.id)
    .map(({ what }) => what)
const plain = { '1': { name: 'A' }, '2': { name: 'B' }, '3': { name: 'C' } } as const

describe('the ends of wires', () => {
  const withPart = (component: NonNullable<HarnessInput['components']>[number], ...ends: readonly string[]) =>
    wired({
      units: { box: { pins: plain } },
      components: [component],
      runs: ends.map((end, index) => [`box.${index + 1}`, `${component.id}.${end}`] as const),
    })

  it.each([
    ['fuse with both ends', { id: 'F1', kind: 'fuse' }, ['in', 'out'], 0],
    ['fuse with one end', { id: 'F1', kind: 'fuse' }, ['in'], 1],
    ['relay with coil and no contact', { id: 'K1', kind: 'relay' }, ['85', '86'], 0],
    ['relay with half a coil', { id: 'K1', kind: 'relay' }, ['85', '30', '87'], 1],
    ['transformer with one winding', { id: 'T1', kind: 'transformer' }, ['p1', 'p2'], 0],
    ['transformer with a winding and a half', { id: 'T1', kind: 'transformer' }, ['p1', 'p2', 's1'], 1],
  ] as const)('%s', (_, component, ends, expected) => {
    expect(says(endsFinished, withPart(component, ...ends))).toHaveLength(expected)
  })

  const tail = (contact?: string): DocumentInput => ({
    loomwright: 1,
    parts: [
      rowHousing(2),
      { kind: 'connector', id: 'tail', title: 'Wire end', style: 'wire-end', pins: ['1'] },
    ],
    equipment: [],
    harnesses: [
      {
        id: 'lead',
        title: 'Lead',
        connectors: [
          { id: 'P1', family: 'row-2' },
          { id: 'X1', family: 'tail', ...(contact ? { contact } : {}) },
        ],
        wires: [{ id: 'A01', from: 'P1.1', to: 'X1.1' }],
      },
    ],
  })
  it.each([
    [undefined, 1],
    ['ferrule-0.5', 0],
  ])('a lone end with the contact %s', (contact, expected) => {
    expect(says(endsFinished, tail(contact))).toHaveLength(expected)
  })
})

describe('what drives an input', () => {
  const between = (
    input: PinFunctionInput,
    other: PinFunctionInput,
    more: Parameters<typeof wired>[0]['harness'] = {},
    runs: Parameters<typeof wired>[0]['runs'] = [['a.1', 'b.1']],
  ) => wired({ units: { a: { pins: { '1': input } }, b: { pins: { '1': other } } }, runs, harness: more })
  const key = { kind: 'switch-in', active: 'low', pull: 'none' } as const
  const line = { kind: 'audio-in', level: 'line', leg: 'single' } as const

  it.each<[string, PinFunctionInput, PinFunctionInput, number]>([
    ['a switch and an input', key, line, 1],
    ['a switch and a pull', { ...key, pull: 'up' as const }, line, 0],
    ['a switch tied to 0 V', key, { kind: 'signal-return' }, 0],
    ['a switch and a contact', key, { kind: 'contact', port: 's' }, 0],
    ['a switch and a pin nobody described', key, { name: 'X' }, 0],
    ['a line and an input', line, line, 1],
    ['a line tied to 0 V', line, { kind: 'signal-return' }, 1],
    ['a line and an output', line, { kind: 'audio-out', level: 'line', leg: 'single' }, 0],
    ['a cold leg on an input', { ...line, leg: 'cold' as const }, { kind: 'shield' }, 0],
  ])('%s', (_, input, other, expected) => {
    expect(says(inputDriven, between(input, other)).length > 0).toBe(expected > 0)
  })

  it('looks through a transformer', () => {
    const through = (output: PinFunctionInput) =>
      wired({
        units: {
          a: { pins: { '1': { ...line, leg: 'hot' as const }, '2': { ...line, leg: 'cold' as const } } },
          b: { pins: { '1': output, '2': { kind: 'signal-return' } } },
        },
        components: [{ id: 'T1', kind: 'transformer' }],
        runs: [
          ['a.1', 'T1.s1'],
          ['a.2', 'T1.s2'],
          ['b.1', 'T1.p1'],
          ['b.2', 'T1.p2'],
        ],
      })
    expect(says(inputDriven, through({ kind: 'audio-out', level: 'line' }))).toEqual([])
    expect(says(inputDriven, through(line)).length).toBeGreaterThan(0)
  })
})

describe('colours in a plug', () => {
  const inks = (first: object, second: object, units = { a: { pins: plain }, b: { pins: plain } }) =>
    wired({
      units,
      runs: [
        ['a.1', 'b.1', first],
        ['a.2', 'b.2', second],
      ],
    })
  it.each([
    ['two colours', { colour: 'GN' }, { colour: 'YE' }, 0],
    ['one colour', { colour: 'GN' }, { colour: 'GN' }, 1],
    ['one of them banded', { colour: 'GN' }, { colour: 'GN', band: 'WH' }, 0],
    ['both banded alike', { colour: 'GN', band: 'WH' }, { colour: 'GN', band: 'WH' }, 1],
    ['a tracer', { colour: 'GN' }, { colour: 'GNWH' }, 0],
    ['nothing stated', {}, {}, 0],
  ])('%s', (_, first, second, plugs) => {
    expect(says(coloursAgree, inks(first, second))).toHaveLength(plugs)
  })

  it('lets all fused feeds of a block be red, and asks more of signals', () => {
    const feeds = { cell: cell(), lamp: load('1 A'), fan: load('1 A') }
    const data = wired({
      units: feeds,
      components: [
        { id: 'F1', kind: 'fuse', rating: '5 A' },
        { id: 'F2', kind: 'fuse', rating: '5 A' },
      ],
      runs: [
        ['cell.1', 'F1.in', { colour: 'RD' }],
        ['F1.out', 'lamp.1', { colour: 'RD' }],
        ['cell.1', 'F2.in', { colour: 'RD' }],
        ['F2.out', 'fan.1', { colour: 'RD' }],
        ['lamp.2', 'cell.2', { colour: 'BK' }],
        ['fan.2', 'cell.2', { colour: 'BK' }],
      ],
    })
    expect(says(coloursAgree, data)).toEqual([])
    const coded = (policy: PolicyInput['colours']) =>
      says(coloursAgree, { ...data, policy: { colours: policy } })
    expect(coded({ plus: ['RD'], minus: ['YE', 'BK'] })).toEqual([])
    expect(coded({ minus: ['YE'] })).toHaveLength(2)
  })

  it.each<[Colour, Partial<Zone> | undefined, number]>([
    ['GNYE', undefined, 1],
    ['GN', undefined, 0],
    ['YE', { near: ['airbag'] }, 1],
    ['YEBU', { near: ['airbag'] }, 1],
    ['YE', { near: ['high-voltage'] }, 0],
    ['OG', { near: ['high-voltage'] }, 1],
    ['BU', { near: ['airbag', 'high-voltage'] }, 0],
  ])('%s in a zone with %o', (colour, zone, expected) => {
    const data = wired({
      units: { a: { pins: plain, zone: 'dash' }, b: { pins: plain } },
      runs: [['a.1', 'b.1', { colour }]],
      place: { zones: [{ id: 'dash', ...zone }] },
    })
    expect(says(coloursAgree, data)).toHaveLength(expected)
  })
})

describe('spares', () => {
  it('of a cable are told only while nobody says what becomes of them', () => {
    expect(says(spareCoresFinished, spareCoresFinished.examples.trips)).toHaveLength(1)
  })

  /** Two looms meeting at a plug of so many ways, so many of them used. */
  const joint = (ways: number, used: number): DocumentInput => {
    const lead = (id: string, half: 'pin' | 'socket') => ({
      id,
      title: id,
      connectors: [{ id: 'X1', family: `row-${ways}`, half }],
      splices: Array.from({ length: used }, (_, n) => ({ id: `S${n}`, kind: 'cap' as const })),
      wires: Array.from({ length: used }, (_, n) => ({ id: `A${n}`, from: `X1.${n + 1}`, to: `S${n}` })),
    })
    return {
      loomwright: 1,
      parts: [rowHousing(ways)],
      equipment: [
        { id: 'box', title: 'Box', connectors: [{ id: 'J', family: `row-${ways}`, half: 'pin', pins: {} }] },
      ],
      harnesses: [lead('one', 'pin'), lead('two', 'socket')],
      installations: [
        {
          id: 'job',
          title: 'Job',
          units: [{ id: 'box', of: 'box' }],
          looms: [
            { id: 'one', of: 'one' },
            { id: 'two', of: 'two' },
          ],
          mates: [['one.X1', 'two.X1']],
        },
      ],
    }
  }
  // FAA AC 43.13-1B ¶11-234: 2 up to 25 contacts, 4 from 26 to 100.
  it.each([
    [7, 7, 0],
    [8, 7, 1],
    [8, 6, 0],
    [25, 23, 0],
    [25, 24, 1],
    [26, 23, 1],
    [26, 22, 0],
  ])('of a plug with %i ways, %i of them used', (ways, used, expected) => {
    expect(says(spareContactsLeft, joint(ways, used))).toHaveLength(expected)
  })
})
