import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { adjacentPins } from '../../src/sheets/adjacent-pins.ts'
import { type Edge, effectiveOhms } from '../../src/sheets/effective-ohms.ts'
import { insertOrder } from '../../src/sheets/insert-order.ts'
import { pullForceN } from '../../src/sheets/pull-force.ts'
import { cutToleranceMm } from '../../src/solve/formulas/cut-tolerance.ts'
import { firstUse, sample } from './sample-shop.ts'

const halfOf = (id: string) => {
  const half = firstUse(sample().loom).halves.find((one) => one.id === id)
  if (!half) throw new Error(`no half ${id}`)
  return half
}

// Length table of IPC/WHMA-A-620 as cable makers quote it; its edges belong to the longer row.
test.each([
  [299, 25],
  [300, 50],
  [1499, 50],
  [1500, 100],
  [2999, 100],
  [3000, 150],
  [7499, 150],
  [7500, 375],
  [20_000, 1000],
])('a piece of %d mm may be %d mm longer', (length, plus) => {
  expect(cutToleranceMm(length)).toBe(plus)
})

// Commercial minimum of a terminal maker's crimp handbook: 22 AWG 36 N … 10 AWG 356 N.
test.each([
  [0.326, 36],
  [0.518, 58],
  [0.823, 89],
  [1.31, 134],
  [1.5, 134],
  [2.08, 223],
  [2.5, 223],
  [3.31, 312],
  [5.26, 356],
  [6, 356],
  [0.22, undefined],
  [16, undefined],
])('a crimp on %d mm² holds %s N', (area, newtons) => {
  expect(pullForceN(area)).toBe(newtons)
})

describe('resistance of a network', () => {
  const edge = (a: number, b: number, ohms: number): Edge => ({ a, b, ohms })

  test('two terminators of 120 Ω read 60 Ω, a balanced bridge its arms, an open network nothing', () => {
    expect(effectiveOhms([edge(1, 2, 120), edge(2, 1, 120)], 1, 2)).toBeCloseTo(60, 9)
    // Wheatstone: 10-10 over 10-10 with any bridge resistance is 10 Ω.
    const bridge = [edge(1, 2, 10), edge(2, 4, 10), edge(1, 3, 10), edge(3, 4, 10), edge(2, 3, 7)]
    expect(effectiveOhms(bridge, 1, 4)).toBeCloseTo(10, 9)
    // Cube of equal resistors across the space diagonal: 5/6 of one.
    const cube = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((a) =>
      [1, 2, 4].flatMap((bit) => (a & bit ? [] : [edge(a, a | bit, 6)])),
    )
    expect(effectiveOhms(cube, 0, 7)).toBeCloseTo(5, 9)
    expect(effectiveOhms([edge(1, 2, 5)], 1, 3)).toBe(Number.POSITIVE_INFINITY)
    expect(effectiveOhms([], 4, 4)).toBe(0)
  })

  test('a chain is its sum, and one more way never reads higher (Rayleigh)', () => {
    const chain = fc.array(fc.double({ min: 0.001, max: 1e4, noNaN: true }), { minLength: 1, maxLength: 12 })
    fc.assert(
      fc.property(
        chain,
        fc.nat(11),
        fc.nat(11),
        fc.double({ min: 0.001, max: 1e4, noNaN: true }),
        (ohms, i, j, extra) => {
          const edges = ohms.map((one, index) => edge(index, index + 1, one))
          const end = ohms.length
          const sum = ohms.reduce((total, one) => total + one, 0)
          const plain = effectiveOhms(edges, 0, end) ?? Number.NaN
          expect(Math.abs(plain - sum)).toBeLessThan(1e-6 * sum)
          const more =
            effectiveOhms([...edges, edge(i % (end + 1), j % (end + 1), extra)], 0, end) ?? Number.NaN
          expect(more).toBeLessThanOrEqual(plain * (1 + 1e-6))
        },
      ),
    )
  })
})

test('neighbours are those on the true face: a D-sub pin touches its row and the staggered row', () => {
  const pairs = adjacentPins(halfOf('P2')).map(([a, b]) => `${a}-${b}`)
  expect(pairs).toContain('1-2')
  expect(pairs).toContain('1-6')
  expect(pairs).toContain('2-6')
  expect(pairs).not.toContain('1-3')
  expect(pairs).not.toContain('1-7')
  // Nine ways in rows of five and four: 4 + 3 along the rows, 8 across.
  expect(pairs).toHaveLength(15)
})

test('cavities nearest the middle are filled first, and only the used ones are numbered', () => {
  const order = insertOrder(halfOf('P2'), ['1', '3', '5', '8'])
  expect([...order.keys()]).toEqual(['3', '8', '1', '5'])
  expect([...order.values()]).toEqual([1, 2, 3, 4])
})
