import { describe, expect, test } from 'vitest'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { PinFunctionInput } from '../../src/describe/function.ts'
import { solve } from '../../src/solve/solve.ts'
import { loomOf } from '../resolve/shop-of.ts'

type Content = Omit<DocumentInput, 'loomwright'>

const out: Record<string, PinFunctionInput> = {
  '1': {
    kind: 'audio-out',
    level: 'speaker',
    leg: 'hot',
    port: 'spk',
    bridged: true,
    minLoad: '4 Ω',
    watts: '15 W',
  },
  '2': { kind: 'audio-out', level: 'speaker', leg: 'cold', port: 'spk', bridged: true },
}
const speaker = (ohms?: `${number} Ω`): Record<string, PinFunctionInput> => ({
  '1': { kind: 'audio-in', level: 'speaker', leg: 'hot', port: 'coil', ...(ohms ? { ohms } : {}) },
  '2': { kind: 'audio-in', level: 'speaker', leg: 'cold', port: 'coil' },
})

/** An amplifier A with loudspeakers S0, S1 …, wired as listed; each wire is 0.75 mm², 26 mΩ/m. */
function network(
  ohms: readonly (`${number} Ω` | undefined)[],
  wires: readonly [from: string, to: string, metres: number][],
  amplifier = out,
) {
  const content: Content = {
    policy: { allowances: { contact: '0 Ω' } },
    parts: [{ kind: 'connector', id: 'test-two', title: 'Two', pins: ['1', '2'], style: 'terminal' }],
    equipment: [
      { id: 'amp', title: 'Amplifier', connectors: [{ id: 'J', family: 'test-two', pins: amplifier }] },
      ...ohms.map((each, index) => ({
        id: `speaker-${index}`,
        title: 'Loudspeaker',
        connectors: [{ id: 'J', family: 'test-two', pins: speaker(each) }],
      })),
    ],
    harnesses: [
      {
        id: 'lead',
        title: 'Lead',
        connectors: [
          { id: 'A', family: 'test-two', fits: 'amp.J' },
          ...ohms.map((_, index) => ({ id: `S${index}`, family: 'test-two', fits: `speaker-${index}.J` })),
        ],
        wires: wires.map(([from, to, metres], index) => ({
          id: `${index + 1}`,
          from,
          to,
          size: '0.75 mm²',
          length: `${metres} m`,
        })),
      },
    ],
  }
  const all = solve(loomOf(content)).speakers
  expect(all).toHaveLength(1)
  const [only] = all
  if (!only) throw new Error('no network')
  return only
}

describe('what a speaker output sees', () => {
  test('one loudspeaker: loss is 20·log10(Z / (Z + R)), common practice', () => {
    const found = network(
      ['4 Ω'],
      [
        ['A.1', 'S0.1', 5],
        ['S0.2', 'A.2', 5],
      ],
    )
    expect(found.loadOhms).toBeCloseTo(4, 6)
    expect(found.lineOhms).toBeCloseTo(0.26, 5)
    expect(found.totalOhms).toBeCloseTo(4.26, 5)
    expect(found.lossDb).toBeCloseTo(20 * Math.log10(4 / 4.26), 5)
    expect(found.speakers.map((each) => [each.share, each.polarity])).toEqual([[1, 1]])
    // 15 W into 4 Ω is 7.75 V; behind 0.26 Ω the loudspeaker has (4 / 4.26)² of it.
    expect(found.speakers[0]?.watts).toBeCloseTo(15 * (4 / 4.26) ** 2, 4)
    expect(found.needs).toEqual([])
  })

  test('two in parallel: half the impedance, shares by impedance, and a swapped one counts backwards', () => {
    const found = network(
      ['4 Ω', '8 Ω'],
      [
        ['A.1', 'S0.1', 0.001],
        ['S0.2', 'A.2', 0.001],
        ['A.1', 'S1.2', 0.001],
        ['S1.1', 'A.2', 0.001],
      ],
    )
    expect(found.loadOhms).toBeCloseTo(8 / 3, 6)
    expect(found.speakers.map((each) => each.share.toFixed(4))).toEqual(['0.6667', '0.3333'])
    expect(found.speakers.map((each) => each.polarity)).toEqual([1, -1])
  })

  test('two in series: the sum', () => {
    const found = network(
      ['4 Ω', '4 Ω'],
      [
        ['A.1', 'S0.1', 1],
        ['S0.2', 'S1.1', 1],
        ['S1.2', 'A.2', 1],
      ],
    )
    expect(found.loadOhms).toBeCloseTo(8, 6)
    expect(found.totalOhms).toBeCloseTo(8 + 3 * 0.026, 5)
    expect(found.speakers.map((each) => each.share)).toEqual([expect.closeTo(0.5, 6), expect.closeTo(0.5, 6)])
  })

  test('a loudspeaker that hangs on one leg is not driven', () => {
    const found = network(
      ['4 Ω', '8 Ω'],
      [
        ['A.1', 'S0.1', 1],
        ['S0.2', 'A.2', 1],
        ['A.1', 'S1.1', 1],
      ],
    )
    expect(found.speakers.map((each) => each.ohms)).toEqual([4])
    expect(found.loadOhms).toBeCloseTo(4, 6)
  })

  test('a single-ended output comes back through its return', () => {
    const found = network(
      ['8 Ω'],
      [
        ['A.1', 'S0.1', 1],
        ['S0.2', 'A.2', 1],
      ],
      {
        '1': { kind: 'audio-out', level: 'speaker', leg: 'single', port: 'spk' },
        '2': { kind: 'return', port: 'spk' },
      },
    )
    expect(found.cold?.name).toBe('2')
    expect(found.loadOhms).toBeCloseTo(8, 6)
    expect(found.speakers[0]?.watts).toBeUndefined()
  })

  test('what is missing is asked for', () => {
    expect(
      network(
        [undefined],
        [
          ['A.1', 'S0.1', 1],
          ['S0.2', 'A.2', 1],
        ],
      ).needs,
    ).toEqual(['the impedance of speaker-0.J.1'])
    expect(network(['4 Ω'], [['A.1', 'S0.1', 1]]).needs).toEqual([
      'a way back from the loudspeakers to amp.J.2',
    ])
  })
})
