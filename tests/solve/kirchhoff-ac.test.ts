import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { admittance, solveAc } from '../../src/solve/ac-network.ts'
import { audioLine } from '../../src/solve/audio-line.ts'
import { add, type Complex, complex, magnitude, multiply } from '../../src/solve/formulas/complex.ts'
import { solve } from '../../src/solve/solve.ts'
import { loomOf } from '../resolve/shop-of.ts'
import { describeAudio, type RandomAudio, randomAudio } from './random-audio.ts'
import { type RandomNetwork, randomNetwork } from './random-network.ts'

const SOURCE_OHMS = 600
const zero = complex(0)
const times = (a: Complex, factor: number): Complex => ({ re: a.re * factor, im: a.im * factor })
const minus = (a: Complex, b: Complex): Complex => add(a, times(b, -1))
const conjugate = (a: Complex): Complex => ({ re: a.re, im: -a.im })

/** Every current of a solved network: what leaves the first node of each branch, with the branch's volts. */
function branches({ nodes, hertz, elements, transformers }: RandomNetwork) {
  const source = { a: 1, b: 0, volts: 1, ohms: SOURCE_OHMS }
  const volts = solveAc(nodes, elements, [source], hertz, transformers)
  const at = (node: number): Complex => volts[node] ?? zero
  const passive = elements.map((element) => {
    const across = minus(at(element.a), at(element.b))
    return { a: element.a, b: element.b, across, amps: multiply(across, admittance(element, hertz)) }
  })
  const windings = transformers.flatMap(({ p1, p2, s1, s2, ratio, ohms }) => {
    const [primary, secondary] = [minus(at(p1), at(p2)), minus(at(s1), at(s2))]
    const out = times(minus(times(primary, 1 / ratio), secondary), 1 / ohms)
    return [
      { a: p1, b: p2, across: primary, amps: times(out, 1 / ratio) },
      { a: s1, b: s2, across: secondary, amps: times(out, -1) },
    ]
  })
  const delivered = times(minus(complex(1), at(1)), 1 / SOURCE_OHMS)
  const lost = transformers.reduce((sum, { ohms, ratio, p1, p2, s1, s2 }) => {
    const drop = minus(times(minus(at(p1), at(p2)), 1 / ratio), minus(at(s1), at(s2)))
    return sum + magnitude(drop) ** 2 / ohms
  }, 0)
  return { nodes, passive, windings, delivered, at, lost }
}

describe('a solved AC network', () => {
  test('keeps Kirchhoff’s first law at every node, in phase and out of it', () => {
    fc.assert(
      fc.property(randomNetwork, (network) => {
        const { nodes, passive, windings, delivered } = branches(network)
        const out = Array.from({ length: nodes }, () => zero)
        for (const { a, b, amps } of [...passive, ...windings]) {
          out[a] = add(out[a] ?? zero, amps)
          out[b] = minus(out[b] ?? zero, amps)
        }
        out[1] = minus(out[1] ?? zero, delivered)
        out[0] = add(out[0] ?? zero, delivered)
        for (const sum of out) expect(magnitude(sum)).toBeLessThan(1e-9 * (1 + magnitude(delivered)))
      }),
      { numRuns: 300 },
    )
  })

  test('gives out all the power it takes in, real and reactive (Tellegen)', () => {
    fc.assert(
      fc.property(randomNetwork, (network) => {
        const { passive, delivered, at, lost } = branches(network)
        const given = multiply(at(1), conjugate(delivered))
        const used = passive.reduce(
          (sum, { across, amps }) => add(sum, multiply(across, conjugate(amps))),
          complex(lost),
        )
        expect(magnitude(minus(given, used))).toBeLessThan(1e-9)
      }),
      { numRuns: 300 },
    )
  })
})

/** The level at each input by its name. */
function levels(job: RandomAudio, options?: Parameters<typeof describeAudio>[1]): Map<string, number> {
  const loom = loomOf(describeAudio(job, options))
  const { paths, linkOhms } = solve(loom)
  const output = loom.terminalAt.get('source.J.1')
  if (!output) throw new Error('no source')
  const line = audioLine(loom, paths.nets, linkOhms, output, job.hertz)
  return new Map(line?.inputs.map(({ input, ratio }) => [input.address, ratio]))
}

describe('an audio line', () => {
  test('does not care which end of a wire is written first', () => {
    fc.assert(
      fc.property(randomAudio, (job) => {
        const [one, two] = [levels(job), levels(job, { swap: true })]
        expect(two.size).toBe(one.size)
        for (const [input, ratio] of one) expect((two.get(input) ?? Number.NaN) / ratio).toBeCloseTo(1, 9)
      }),
      { numRuns: 60 },
    )
  })

  test('loses in copper in proportion to its length', () => {
    // 1 / level = 1 + (source + joints + copper) / input, so equal steps of length are equal steps of it.
    const straight = randomAudio.map(
      (job): RandomAudio => ({
        ...job,
        shunts: [],
        steps: job.steps.map(({ onto, mm }) => ({ onto, mm })),
        inputs: job.inputs.slice(0, 1).map(({ at, ohms, mm }) => ({ at, ohms, mm })),
      }),
    )
    fc.assert(
      fc.property(straight, (job) => {
        const [one = 0, two = 0, three = 0] = [1, 2, 3].map(
          (stretch) => 1 / (levels(job, { stretch }).get('input-0.J.1') ?? Number.NaN),
        )
        // The solver is good to some 1e-9 of the whole (it agrees with the simulator to 1.7e-8); a short lead's copper is little more.
        const rounding = 5e-9 * three
        expect(two - one).toBeGreaterThan(-rounding)
        expect(Math.abs(three - two - (two - one))).toBeLessThan(1e-4 * (two - one) + rounding)
      }),
      { numRuns: 60 },
    )
  })
})
