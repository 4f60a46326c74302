import { describe, expect, test } from 'vitest'
import { wired } from '../../src/check/examples/wired.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { PolicyInput } from '../../src/describe/policy.ts'
import { checkDocuments } from './check-document.ts'

type Labels = NonNullable<PolicyInput['labels']>

function found(label: string, od: `${number} mm`, labels?: Labels) {
  const data: DocumentInput = {
    ...wired({
      units: {
        desk: { pins: { '1': { kind: 'signal-return' } } },
        radio: { pins: { '1': { kind: 'signal-return' } } },
      },
      parts: [{ kind: 'wire', id: 'hook-up', title: 'Example wire', size: '0.5 mm²', od }],
      runs: [['desk.1', 'radio.1', { part: 'hook-up', label }]],
    }),
    ...(labels ? { policy: { labels } } : {}),
  }
  return checkDocuments(data).findings.filter(({ rule }) => rule === 'label-fits')
}

/** 210 − 2 × 8 over 4 columns is 48.5 mm; 297 − 2 × 13 over 20 rows is 13.55 mm. */
const stock: Labels['stock'] = [
  { id: 'wrap-a4', paper: 'a4', rows: 20, columns: 4, top: '13 mm', left: '8 mm' },
]

describe('a label', () => {
  test('of more characters than the shop allows is a warning, by accents too', () => {
    expect(found('ABCDEFGHIJ', '1.6 mm', { longest: 10 })).toEqual([])
    const [long] = found('ABCDEFGHIJK', '1.6 mm', { longest: 10 })
    expect(long).toMatchObject({
      level: 'warning',
      facts: { characters: { value: 11 }, limit: { value: 10 } },
    })
    expect(found('ABCDEFGHIJ\u0301', '1.6 mm', { longest: 10 })).toEqual([])
  })

  test('is held to 24 characters, as a note, where the shop has said nothing', () => {
    expect(found('A'.repeat(24), '1.6 mm')).toEqual([])
    expect(found('A'.repeat(25), '1.6 mm').map(({ level }) => level)).toEqual(['note'])
  })

  test.each([
    // 2.5 mm capitals advance 0.75 of their height: 23 × 1.875 + 4 = 47.1 mm, 24 make 49.
    ['23 characters fit in 48.5 mm', 'A'.repeat(23), '1.6 mm', 0],
    ['24 do not', 'A'.repeat(24), '1.6 mm', 1],
    // Once round and a quarter: 1.25 × π × 3.4 = 13.35 mm, of 3.5 mm 13.74 mm, in 13.55 mm.
    ['it goes round 3.4 mm', 'FEED', '3.4 mm', 0],
    ['it does not go round 3.5 mm', 'FEED', '3.5 mm', 1],
  ] as const)('on a sheet: %s', (_, text, od, count) => {
    expect(found(text, od, { longest: 60, ...(stock ? { stock } : {}) })).toHaveLength(count)
  })

  test('on a sleeve needs room for its capitals', () => {
    // 1.6 mm sleeve lies 2.5 mm flat, under 2.5 × 1.2; 2.4 mm lies 3.8 mm.
    expect(found('FEED', '1.3 mm', { wires: 'heat-shrink' })).toHaveLength(1)
    expect(found('FEED', '2 mm', { wires: 'heat-shrink' })).toEqual([])
  })
})
