import { describe, expect, test } from 'vitest'
import { coaxLead } from '../../src/check/examples/coax-lead.ts'
import { vehicleExample } from '../../src/check/examples/vehicle.ts'
import { isOnlyColour } from '../../src/check/rules/colour-not-only-mark.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { InstallationInput } from '../../src/describe/installation.ts'
import type { PartInput } from '../../src/describe/part.ts'
import type { PolicyInput } from '../../src/describe/policy.ts'
import { checkDocument } from './check-document.ts'

const place = { setting: 'building', highest: '450 MHz' } as const
const found = (data: DocumentInput, rule: string) =>
  checkDocument(data).findings.filter((finding) => finding.rule === rule)
const needed = (data: DocumentInput, rule: string) =>
  checkDocument(data).notChecked.flatMap((one) => (one.rule === rule ? [one.needs] : []))
const withPolicy = (data: DocumentInput, policy: PolicyInput): DocumentInput => ({ ...data, policy })

const cable = (more: Partial<Extract<PartInput, { kind: 'cable' }>>): PartInput => ({
  kind: 'cable',
  id: 'coax',
  title: 'Coax for tests',
  use: 'coax',
  ohms: '50 Ω',
  od: '5 mm',
  strands: 7,
  lossDb100m: { '450': 25 },
  cores: [{ name: 'centre', size: '0.5 mm²' }],
  shields: [{ name: 'shield', kind: 'braid' }],
  ...more,
})
const lead = (
  more: Partial<Extract<PartInput, { kind: 'cable' }>>,
  where: Partial<InstallationInput> = place,
) => coaxLead({ part: 'coax', parts: [cable(more)], place: where })

describe('feeder-loss', () => {
  // 25 dB/100 m and two joints of 0.5 dB at 450 MHz: the 3 dB are used up at 8 m.
  test.each([
    ['8 m', 0],
    ['8.01 m', 1],
  ] as const)('the limit of 3 dB at %s of 25 dB/100 m', (length, count) => {
    const data = coaxLead({ part: 'coax', parts: [cable({})], place, length })
    expect(found(data, 'feeder-loss')).toHaveLength(count)
  })

  test('the limit is a setting', () => {
    const data = coaxLead({ part: 'coax', parts: [cable({})], place, length: '8 m' })
    expect(found(withPolicy(data, { rf: { feederLossDb: 2.9 } }), 'feeder-loss')).toHaveLength(1)
  })

  test.each([
    ['4.05 m', 0],
    ['4.051 m', 1],
  ] as const)('a standard length is kept within 50 mm: %s', (length, count) => {
    const data = withPolicy(coaxLead({ place, length }), { rf: { feederLengths: ['4 m', '6 m'] } })
    const notes = found(data, 'feeder-loss')
    expect(notes.map(({ level }) => level)).toEqual(Array.from({ length: count }, () => 'note'))
  })

  test('asks for the loss of the cable and for the frequency', () => {
    expect(needed(lead({ lossDb100m: undefined }), 'feeder-loss')).toEqual([
      'needs the loss of coax in dB per 100 m',
    ])
  })
})

describe('coax-plug-suits-cable', () => {
  // A BNC takes 4.7 mm to 6.4 mm.
  test.each([
    ['4.69 mm', 2],
    ['4.7 mm', 0],
    ['6.4 mm', 0],
    ['6.41 mm', 2],
  ] as const)('a cable of %s', (od, count) => {
    expect(found(lead({ od }), 'coax-plug-suits-cable')).toHaveLength(count)
  })

  test.each([
    ['building', 1, 0],
    ['vehicle', 1, 1],
    ['vehicle', 7, 0],
  ] as const)('in a %s with %i strands', (setting, strands, count) => {
    expect(found(lead({ strands }, { setting, highest: '450 MHz' }), 'coax-plug-suits-cable')).toHaveLength(
      count,
    )
  })

  test('a vibrating zone counts wherever it is', () => {
    const data = lead({ strands: 1 }, { ...place, zones: [{ id: 'motor', vibration: true }] })
    const moved = {
      ...data,
      harnesses: data.harnesses?.map((one) => ({
        ...one,
        cables: one.cables?.map((each) => ({ ...each, zone: 'motor' })),
      })),
    }
    expect(found(data, 'coax-plug-suits-cable')).toHaveLength(0)
    expect(found(moved, 'coax-plug-suits-cable')).toHaveLength(1)
  })

  test('asks for a diameter that is not stated', () => {
    expect(needed(lead({ od: undefined }), 'coax-plug-suits-cable')).toEqual([
      'needs the outside diameter of coax',
    ])
  })
})

test('coax-impedance: 50 Ω into 75 Ω is VSWR 1.5 and 14 dB of return loss; the worst place speaks', () => {
  const [first] = found(lead({ ohms: '75 Ω' }), 'coax-impedance')
  expect(first?.what).toMatch(/^W1 is 75 Ω and .* 50 Ω: return loss 13\.98 dB$/)
  expect(first?.why).toMatch(/ratio 1\.50 .* 4\.0 % .*more places differ/)
  expect(needed(lead({ ohms: undefined }), 'coax-impedance')).toEqual(['needs the impedance of coax'])
})

describe('issued-paper-complete', () => {
  const head = { document: 'HT-1', revision: 'A', date: '2026-03-02', drawnBy: 'A', checkedBy: 'B' } as const
  const whats = (more: Partial<InstallationInput>) =>
    found(vehicleExample({ place: { ...head, state: 'issued', ...more } }), 'issued-paper-complete').map(
      ({ what }) => what,
    )

  test.each(Object.keys(head) as (keyof typeof head)[])('%s blank', (key) => {
    expect(whats({ [key]: undefined })).toHaveLength(1)
    if (key !== 'date') expect(whats({ [key]: '  ' })).toHaveLength(1)
  })

  test('a draft may be blank; one person may not make and check', () => {
    expect(whats({ state: 'draft', document: undefined })).toEqual([])
    expect(whats({ checkedBy: 'A ' })).toEqual(['van is made and checked by one person, A'])
  })
})

test.each([
  ['RD', true],
  ['red', true],
  ['red-blue', true],
  ['RDBU2', true],
  ['green_3', true],
  ['A02', false],
  ['REDUNDANT', false],
  ['R1', false],
  ['bus-red', false],
  ['12', false],
])('whether %s is only a colour: %s', (text, only) => {
  expect(isOnlyColour(text)).toBe(only)
})
