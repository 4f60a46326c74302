import fc from 'fast-check'
import type { AcElement, AcTransformer } from '../../src/solve/ac-network.ts'

/** Networks of any kind the solver takes, inductors and phase too, which no description has yet. */
export interface RandomNetwork {
  readonly nodes: number
  readonly hertz: number
  readonly elements: readonly AcElement[]
  readonly transformers: readonly AcTransformer[]
}

export const randomNetwork: fc.Arbitrary<RandomNetwork> = fc.integer({ min: 3, max: 9 }).chain((nodes) => {
  const node = fc.nat({ max: nodes - 1 })
  const value = fc.oneof(
    fc.integer({ min: 1, max: 20_000 }).map((ohms) => ({ ohms })),
    fc.integer({ min: 1, max: 5000 }).map((nF) => ({ farads: nF * 1e-9 })),
    fc.integer({ min: 1, max: 5000 }).map((mH) => ({ henries: mH * 1e-3 })),
  )
  return fc.record({
    nodes: fc.constant(nodes),
    hertz: fc.constantFrom(50, 300, 1000, 15_000),
    elements: fc
      .tuple(
        // A tree of resistors, so that every node hangs on something.
        fc.array(fc.record({ onto: fc.nat(1000), ohms: fc.integer({ min: 10, max: 9000 }) }), {
          minLength: nodes - 1,
          maxLength: nodes - 1,
        }),
        fc.array(fc.record({ a: node, b: node, value }), { maxLength: 10 }),
      )
      .map(([tree, more]) => [
        ...tree.map(({ onto, ohms }, index) => ({ a: index + 1, b: onto % (index + 1), ohms })),
        ...more.filter(({ a, b }) => a !== b).map(({ a, b, value: figure }) => ({ a, b, ...figure })),
      ]),
    transformers: fc
      .array(
        fc.record({
          p1: node,
          s1: node,
          ratio: fc.constantFrom(0.25, 1, 3),
          ohms: fc.integer({ min: 1, max: 50 }),
        }),
        { maxLength: 1 },
      )
      .map((list) =>
        list.filter(({ p1, s1 }) => p1 !== s1 && p1 > 0 && s1 > 0).map((one) => ({ ...one, p2: 0, s2: 0 })),
      ),
  })
})
