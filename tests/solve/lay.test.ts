import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { BranchInput } from '../../src/describe/harness.ts'
import { routeLengthMm } from '../../src/resolve/branch-routes.ts'
import { makeLay } from '../../src/solve/lay.ts'
import { onlyLoom } from '../check/check-document.ts'

const plug = (n: number) => `P${n}`

/** A harness of so many one-way plugs on the branches given, a wire from each plug to the next. */
function laid(plugs: number, branches: BranchInput[]): DocumentInput {
  return {
    loomwright: 1,
    parts: [
      { kind: 'connector', id: 'one', title: 'One way', style: 'housing', pins: ['1'], manyWires: true },
    ],
    harnesses: [
      {
        id: 'h',
        title: 'H',
        connectors: Array.from({ length: plugs }, (_, n) => ({ id: plug(n), family: 'one' })),
        wires: Array.from({ length: plugs - 1 }, (_, n) => ({
          id: `W${n}`,
          from: `${plug(n)}.1`,
          to: `${plug(n + 1)}.1`,
        })),
        branches,
      },
    ],
  }
}

/** Each place after the first hangs on an earlier one: any tree, with any lengths, written from either end. */
const trees = fc
  .array(fc.tuple(fc.nat(), fc.integer({ min: 1, max: 900 }), fc.boolean()), { minLength: 2, maxLength: 14 })
  .map((steps) =>
    steps.map(([earlier, mm, turned], index): BranchInput => {
      const [a, b] = [plug(earlier % (index + 1)), plug(index + 1)]
      return { from: turned ? b : a, to: turned ? a : b, length: `${mm} mm` }
    }),
  )

describe('how a loom lies', () => {
  it('gives every conductor the way that the board gives it, and lists it in each branch of that way', () => {
    fc.assert(
      fc.property(trees, (branches) => {
        const loom = onlyLoom(laid(branches.length + 1, branches))
        const [use] = loom.looms
        const lay = use && makeLay(use, loom.conductors)
        expect(lay?.branches).toHaveLength(branches.length)
        for (const conductor of loom.conductors) {
          const way = lay?.way(conductor) ?? []
          const mm = way.reduce((sum, { source }) => sum + source.length, 0)
          expect(mm).toBe(use && routeLengthMm(use.harness, conductor))
          for (const branch of lay?.branches ?? [])
            expect(branch.conductors.includes(conductor)).toBe(way.includes(branch))
        }
      }),
      { numRuns: 60 },
    )
  })

  it('is in the order of the way, from the first end to the second', () => {
    const loom = onlyLoom(
      laid(2, [
        { from: 'B2', to: 'P1', length: '30 mm' },
        { from: 'P0', to: 'B1', length: '10 mm' },
        { from: 'B2', to: 'B1', length: '20 mm' },
      ]),
    )
    const [use] = loom.looms
    const [wire] = loom.conductors
    const way = use && wire && makeLay(use, loom.conductors)?.way(wire)
    expect(way?.map(({ source }) => source.length)).toEqual([10, 20, 30])
    expect(way?.map(({ at }) => at.path.at(-1))).toEqual([1, 2, 0])
  })

  it('is not known where the branches do not join the two ends, or are not described', () => {
    const apart = onlyLoom(
      laid(2, [
        { from: 'P0', to: 'B1', length: '10 mm' },
        { from: 'P1', to: 'B2', length: '10 mm' },
      ]),
    )
    const [use] = apart.looms
    const [wire] = apart.conductors
    expect(use && wire && makeLay(use, apart.conductors)?.way(wire)).toBeUndefined()
    const none = onlyLoom(laid(2, []))
    expect(none.looms[0] && makeLay(none.looms[0], none.conductors)).toBeUndefined()
  })
})
