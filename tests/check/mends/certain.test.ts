import { describe, expect, test } from 'vitest'
import { exampleLead, rowHousing, socket, unitOf } from '../../../src/check/examples/parts.ts'
import { vehicleExample } from '../../../src/check/examples/vehicle.ts'
import { cell, load, wired } from '../../../src/check/examples/wired.ts'
import { standardMends } from '../../../src/check/mends/standard-mends.ts'
import { standardRules } from '../../../src/check/standard-rules.ts'
import type { DocumentInput } from '../../../src/describe/document.ts'
import type { PartInput } from '../../../src/describe/part.ts'
import { checkDocuments } from '../check-document.ts'
import { planOf, told } from './plan-of.ts'

const example = (id: string): DocumentInput => {
  const rule = standardRules.find((one) => one.id === id)
  if (!rule) throw new Error(`no rule ${id}`)
  return rule.examples.trips
}

const identities = (data: DocumentInput) =>
  checkDocuments(data)
    .findings.filter(({ level }) => level !== 'note')
    .map(({ rule, subject }) => `${rule} ${subject}`)

/** A sealed plug of two cavities with the seals and contacts a family offers. */
function sealedLead(od: '2.9 mm' | '2.1 mm', seals: string[], parts: PartInput[] = []): DocumentInput {
  const pins = { '1': { kind: 'signal-return' }, '2': { kind: 'signal-return' } } as const
  return exampleLead({
    parts: [
      rowHousing(2, { sealed: true, seals }),
      { kind: 'wire', id: 'pump-wire', title: 'Example wire', size: '1 mm²', od },
      ...parts,
    ],
    equipment: [unitOf('sensor', socket('J1', 'row-2', pins)), unitOf('panel', socket('J2', 'row-2', pins))],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'sensor.J1', seal: 'seal-1.7-2.4', plugEmpty: true },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'panel.J2', seal: 'seal-1.7-2.4', plugEmpty: true },
      ],
      wires: [{ id: 'A01', from: 'P1.1', to: 'P2.1', part: 'pump-wire' }],
    },
  })
}

const serialPort = {
  pins: {
    '2': { kind: 'data', standard: 'tia-232', line: 'RXD', direction: 'in' },
    '3': { kind: 'data', standard: 'tia-232', line: 'TXD', direction: 'out' },
    '5': { kind: 'signal-return' },
  },
} as const

/** A contact that takes any size in these examples. */
const any: PartInput = { kind: 'contact', id: 'any', title: 'Any', join: 'crimp', area: '0.2..300 mm²' }

/** The same description with contacts named for its connector families. */
const withContacts = (data: DocumentInput, contacts: readonly string[]): DocumentInput => ({
  ...data,
  parts: [
    any,
    ...(data.parts ?? []).map((part) =>
      part.kind === 'connector' ? { ...part, contacts: [...contacts] } : part,
    ),
  ],
})

/** A lamp behind a fuse, with every barrel named, so that a thicker wire can be judged whole. */
function lamp(options: {
  readonly amps: `${number} A`
  readonly fuse?: `${number} A`
  readonly feed?: '4 mm²' | '2.5 mm²' | '0.5 mm²' | '12 AWG'
  readonly back?: '0.5 mm²' | '1.5 mm²' | '2.5 mm²' | '4 mm²' | '18 AWG' | '0.5 mm2'
  readonly contacts?: readonly string[]
  readonly contact?: string
}): DocumentInput {
  const { amps, fuse = '15 A', feed = '4 mm²', back = '4 mm²', contacts = ['wide'], contact } = options
  const data = wired({
    units: { supply: cell(), lamp: load(amps) },
    components: [{ id: 'F1', kind: 'fuse', rating: fuse }],
    runs: [
      ['supply.1', 'F1.in', { size: feed, length: '0.1 m' }],
      ['F1.out', 'lamp.1', { size: feed, length: '0.5 m' }],
      ['lamp.2', 'supply.2', { size: back as '4 mm²', length: '0.5 m' }],
    ],
    parts: [
      { kind: 'contact', id: 'wide', title: 'Wide', join: 'crimp', area: '0.5..6 mm²', half: 'any' },
      { kind: 'contact', id: 'small', title: 'Small', join: 'crimp', area: '0.5..1 mm²', half: 'any' },
      { kind: 'contact', id: 'large', title: 'Large', join: 'crimp', area: '1.5..6 mm²', half: 'any' },
    ],
    ...(contact
      ? {
          harness: {
            connectors: [
              { id: 'P1', family: 'row-2', half: 'pin', fits: 'supply.J' },
              { id: 'P2', family: 'row-2', half: 'pin', fits: 'lamp.J', pins: { '2': { contact } } },
            ],
          },
        }
      : {}),
  })
  return withContacts(data, contacts)
}

/** Each kind of mend, where the cure leaves no choice. */
const CERTAIN: readonly (readonly [name: string, data: DocumentInput, mends: readonly string[]])[] = [
  [
    'a return thinner than its load needs: the smallest size that ampacity, return and fuse all accept',
    lamp({ amps: '10 A', fuse: '15 A', back: '0.5 mm²' }),
    ['load-within-ampacity: A03 to 4 mm² (12–10 AWG)'],
  ],
  [
    'the same in gauges: a gauge is offered, not a metric size',
    lamp({ amps: '10 A', fuse: '15 A', feed: '12 AWG', back: '18 AWG' }),
    ['return-as-big-as-feed: A03 to 12 AWG (3.31 mm²)'],
  ],
  [
    'a contact that is named goes with the wire, where one other of the family fits',
    lamp({ amps: '10 A', fuse: '15 A', back: '0.5 mm²', contacts: ['small', 'large'], contact: 'small' }),
    ['load-within-ampacity: A03 to 4 mm² (12–10 AWG); P2.2 to contact large'],
  ],
  [
    'both legs of a boat’s feeder, which share the drop',
    withContacts(example('feeder-drop'), ['any']),
    ['feeder-drop: B01, B02 and B03 to 25 mm² (4–2 AWG)'],
  ],
  [
    'single wires too thin afloat',
    example('thin-wire-afloat'),
    ['thin-wire-afloat: B08 to 1 mm² (18–16 AWG)'],
  ],
  [
    'a fuse too large for every wire behind it',
    example('fuse-protects-wire'),
    ['fuse-protects-wire: F1 to 40 A'],
  ],
  [
    'a fuse too small for its load, whose wires bear the next',
    example('fuse-loaded'),
    ['fuse-loaded: F1 to 25 A'],
  ],
  [
    'open cavities of a sealed plug',
    example('empty-cavities-plugged'),
    ['empty-cavities-plugged: cavity plugs in P1: 2 3'],
  ],
  [
    'the one seal of the family for the wire, at both plugs',
    sealedLead('2.9 mm', ['seal-1.7-2.4', 'seal-2.4-3.0']),
    ['seal-fits-wire: seal seal-2.4-3.0 in P1.1', 'seal-fits-wire: seal seal-2.4-3.0 in P2.1'],
  ],
  [
    'hot and cold exchanged',
    example('hot-cold-identity'),
    ['hot-cold-identity: A01 and A02 change places at P2'],
  ],
  [
    'the legs of a data line exchanged',
    example('data-legs-swapped'),
    ['data-legs-swapped: A01 and A02 change places at P2'],
  ],
  [
    'a loudspeaker the wrong way round',
    example('speakers-in-phase'),
    ['speakers-in-phase: A05 and A06 change places at P3'],
  ],
  [
    'a straight lead between two ports that need a crossed one',
    wired({
      units: { computer: serialPort, radio: serialPort },
      runs: [
        ['computer.2', 'radio.2'],
        ['computer.3', 'radio.3'],
        ['computer.5', 'radio.5'],
      ],
    }),
    ['serial-directions: A01 and A02 change places at P2'],
  ],
  [
    'a split pair whose twin core is free',
    example('pair-legs-together'),
    ['pair-legs-together: W1.3 to core 2, which is twisted with that of W1.1'],
  ],
  ['a screen with one pin made for it', example('screen-bonded'), ['screen-bonded: screen of W1 on P1.3']],
]

describe('a certain mend', () => {
  test.each(CERTAIN)('%s', (_, data, mends) => {
    const before = identities(data)
    const plan = planOf(data)
    expect(told(plan).mended).toEqual(mends)
    const mended = plan.documents[0]?.data as DocumentInput
    const after = identities(mended)
    for (const { rule, subject } of plan.mended) expect(after).not.toContain(`${rule} ${subject}`)
    expect(after.filter((one) => !before.includes(one))).toEqual([])
    // Mending what is mended does nothing.
    expect(planOf(mended).mended).toEqual([])
  })

  test('is shown for every kind there is', () => {
    const rules = new Set(CERTAIN.flatMap(([, , mends]) => mends.map((text) => text.split(':')[0])))
    for (const mend of standardMends)
      expect(
        mend.rules.some((rule) => rules.has(rule)),
        mend.id,
      ).toBe(true)
    expect(standardMends.length).toBeGreaterThanOrEqual(5)
  })

  test('names only rules there are', () => {
    const ids = new Set(standardRules.map(({ id }) => id))
    for (const { rules } of standardMends) for (const rule of rules) expect(ids).toContain(rule)
  })

  test('keeps the spelling of units a file uses', () => {
    const plan = planOf(lamp({ amps: '10 A', fuse: '15 A', back: '0.5 mm2' }))
    expect(plan.changes.map(({ value }) => value)).toEqual(['4 mm2'])
  })

  test('changes each value once, though two findings ask for it', () => {
    const plan = planOf(sealedLead('2.9 mm', ['seal-1.7-2.4', 'seal-2.4-3.0']))
    const paths = plan.changes.map(({ at }) => at.path.join('/'))
    expect(new Set(paths).size).toBe(paths.length)
  })
})

/** Where a person has to choose. */
const UNCERTAIN: readonly (readonly [name: string, data: DocumentInput, rule: string])[] = [
  [
    'two seals of the family fit',
    sealedLead(
      '2.9 mm',
      ['seal-1.7-2.4', 'seal-2.4-3.0', 'seal-wide'],
      [{ kind: 'seal', id: 'seal-wide', title: 'Wide seal', insulation: '2..3.2 mm' }],
    ),
    'seal-fits-wire',
  ],
  ['no seal of the family fits', sealedLead('2.9 mm', ['seal-1.7-2.4']), 'seal-fits-wire'],
  [
    'the barrel of the contact is not known',
    lamp({ amps: '10 A', fuse: '15 A', back: '0.5 mm²', contacts: [] }),
    'load-within-ampacity',
  ],
  [
    'the contact takes no thicker wire and the family has two that do',
    {
      ...lamp({ amps: '10 A', back: '0.5 mm²', contacts: ['small', 'large', 'wide'], contact: 'small' }),
    },
    'load-within-ampacity',
  ],
  [
    'one wire of several is too thin for the fuse, and a smaller fuse would carry the load',
    lamp({ amps: '1 A', fuse: '20 A', feed: '4 mm²', back: '1.5 mm²' }),
    'fuse-protects-wire',
  ],
  [
    'the return is missing, and nothing says where it should run',
    vehicleExample({ back: 'none' }),
    'return-as-big-as-feed',
  ],
  ['a terminator is missing: a part has to be fitted', example('bus-terminated'), 'bus-terminated'],
  ['a suppressor is missing: there are several kinds', example('coil-suppressed'), 'coil-suppressed'],
  [
    'a wire too thick for its contact: wire or contact may be meant',
    example('wire-fits-contact'),
    'wire-fits-contact',
  ],
]

describe('no mend is offered where', () => {
  test.each(UNCERTAIN)('%s', (_, data, rule) => {
    expect(checkDocuments(data).findings.map((finding) => finding.rule)).toContain(rule)
    expect(planOf(data).mended.filter((finding) => finding.rule === rule)).toEqual([])
  })

  test('a finding is a note, or accepted in the policy', () => {
    const data = example('empty-cavities-plugged')
    expect(planOf({ ...data, policy: { rules: { 'empty-cavities-plugged': 'note' } } }).mended).toEqual([])
    const [finding] = checkDocuments(data).findings
    const waiver = {
      rule: finding?.rule ?? '',
      at: finding?.subject ?? '',
      reason: 'Dry place',
      by: 'A. Tester',
      date: '2026-11-25',
    }
    expect(planOf({ ...data, policy: { waivers: [waiver] } }).mended).toEqual([])
  })
})
