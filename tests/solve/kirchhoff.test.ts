import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Loom } from '../../src/resolve/loom.ts'
import type { StateSolution } from '../../src/solve/solution.ts'
import { solve } from '../../src/solve/solve.ts'
import { loomOf } from '../resolve/shop-of.ts'
import { describeJob, type RandomJob, randomJob } from './random-job.ts'

function transmit(job: RandomJob, options?: Parameters<typeof describeJob>[1]) {
  const loom = loomOf(describeJob(job, options))
  const solution = solve(loom)
  const state = solution.states.find((entry) => entry.state.id === 'transmit')
  if (!state) throw new Error('no transmit')
  return { loom, solution, state }
}

/** What flows out of each terminal through its links, and into it from loads and sources, for a check of the first law. */
function outflow(loom: Loom, state: StateSolution): Float64Array {
  const out = new Float64Array(loom.terminals.length)
  const add = (index: number, amps: number): void => {
    out[index] = (out[index] ?? 0) + amps
  }
  for (const link of loom.links) {
    add(link.a.index, state.amps[link.index] ?? 0)
    add(link.b.index, -(state.amps[link.index] ?? 0))
  }
  for (const load of state.loads) {
    add(load.terminal.index, load.amps)
    if (load.back) add(load.back.index, -load.amps)
  }
  for (const source of state.sources) add(source.terminal.index, -source.amps)
  return out
}

/** Jobs whose loads are small enough for their feeds; the others are the business of the test of starved loads. */
const fed = (state: StateSolution): boolean => state.converged && state.loads.every((load) => load.volts > 1)

describe('a solved network', () => {
  test('keeps both of Kirchhoff’s laws', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        const { loom, solution, state } = transmit(job)
        fc.pre(fed(state))
        const total = state.sources.reduce((sum, source) => sum + source.amps, 0)
        const back = loom.terminalAt.get('cell.N.1')
        outflow(loom, state).forEach((amps, index) => {
          // All that leaves the positive comes back at the negative, which is held at zero.
          expect(amps + (index === back?.index ? total : 0)).toBeCloseTo(0, 8)
        })
        for (const link of loom.links) {
          const ohms = solution.linkOhms[link.index]?.ohms
          if (ohms === undefined || ohms === 0) continue
          const across = (state.volts[link.a.index] ?? 0) - (state.volts[link.b.index] ?? 0)
          if (!Number.isNaN(across)) expect(across).toBeCloseTo(ohms * (state.amps[link.index] ?? 0), 9)
        }
      }),
      { numRuns: 150 },
    )
  })

  test('gives out all the power it takes in', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        const { loom, state } = transmit(job)
        fc.pre(fed(state))
        const given = state.sources.reduce((sum, source) => sum + source.amps * job.volts, 0)
        const used = state.loads.reduce((sum, load) => sum + load.amps * load.volts, 0)
        const burnt = loom.links
          .filter((link) => link.kind === 'resistor')
          .reduce((sum, link) => sum + (state.amps[link.index] ?? 0) ** 2 * (link.ohms ?? 0), 0)
        expect(used + burnt + state.wattsLost).toBeCloseTo(given, 6)
      }),
      { numRuns: 150 },
    )
  })

  test('does not care which end of a wire is written first', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        const one = transmit(job).state
        const two = transmit(job, { swap: true }).state
        expect(two.loads.length).toBe(one.loads.length)
        one.loads.forEach((load, index) => {
          expect(two.loads[index]?.volts).toBeCloseTo(load.volts, 9)
        })
        expect(two.wattsLost).toBeCloseTo(one.wattsLost, 8)
      }),
      { numRuns: 60 },
    )
  })

  test('loses twice as much in copper when every length doubles', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        const plain: RandomJob = {
          ...job,
          bleeders: [],
          loads: job.loads.map(({ watts, ...load }) => ({ ...load, amps: load.amps ?? (watts ?? 0) / 10 })),
        }
        const none = { policy: { allowances: { contact: '0 Ω', fuse: '0 Ω', holder: '0 Ω' } } } as const
        const at = (stretch: number) => {
          const solution = solve(loomOf({ ...describeJob(plain, { stretch }), ...none }))
          return solution.states.find((entry) => entry.state.id === 'transmit')?.loads ?? []
        }
        const [one, two] = [at(1), at(2)]
        // Joints of nothing are reckoned as a micro-ohm, so the copies differ by microvolts.
        one.forEach((load, index) => {
          expect(two[index]?.dropVolts).toBeCloseTo(2 * load.dropVolts, 2)
          expect(Math.abs((two[index]?.dropVolts ?? 0) - 2 * load.dropVolts)).toBeLessThan(
            1e-5 * (1 + 40 * load.amps) * 30,
          )
        })
      }),
      { numRuns: 60 },
    )
  })

  test('superposes: constant currents times three lose three times as much', () => {
    fc.assert(
      fc.property(randomJob, (job) => {
        const plain = {
          ...job,
          bleeders: [],
          loads: job.loads.map(({ watts, ...load }) => ({ ...load, amps: load.amps ?? 1 })),
        }
        const one = transmit(plain).state
        const three = transmit(plain, { current: 3 }).state
        one.loads.forEach((load, index) => {
          expect(three.loads[index]?.dropVolts).toBeCloseTo(3 * load.dropVolts, 8)
        })
      }),
      { numRuns: 60 },
    )
  })
})

/** One load of constant power behind a resistance: V = (E + √(E² − 4PR)) / 2, and none where P is above E² / 4R. */
describe('a load of constant power', () => {
  const behind = (watts: number): RandomJob => ({
    volts: 12,
    feed: [{ onto: 0, size: '0.5 mm²', mm: 9000, fuse: false, also: undefined }],
    back: [{ onto: 0, size: '0.5 mm²', mm: 9000, fuse: false, also: undefined }],
    loads: [{ feed: 0, back: 0, mm: 1000, size: '0.5 mm²', watts }],
    bleeders: [],
  })
  const loop = 20 * 0.039 + 4 * 0.002

  test.each([1, 10, 30, 44, 45.5])('settles at the upper of its two working points at %d W', (watts) => {
    const { state } = transmit(behind(watts))
    expect(state.converged).toBe(true)
    expect(state.loads[0]?.volts).toBeCloseTo((12 + Math.sqrt(144 - 4 * watts * loop)) / 2, 6)
  })

  test('is said to starve its feed where there is no working point', () => {
    const most = 144 / (4 * loop)
    expect(most).toBeGreaterThan(45.5)
    const { state } = transmit(behind(most * 1.02))
    expect(state.converged).toBe(false)
    expect(state.loads).toEqual([])
    expect(state.unsolved.map((entry) => entry.needs)).toEqual([
      expect.stringMatching(/^a feed that can deliver .* W to load-0\.J\.1$/),
    ])
  })
})
