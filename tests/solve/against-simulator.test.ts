import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { solve } from '../../src/solve/solve.ts'
import { loomOf } from '../resolve/shop-of.ts'
import { netlist, simulate, simulator } from './ngspice.ts'
import { describeJob, randomJob } from './random-job.ts'

const WANTED = 300
const jobs = fc.sample(randomJob, { seed: 20260101, numRuns: 420 })

if (!simulator)
  console.warn(
    'NOT CHECKED: ngspice is not installed, so the solver was not compared with a circuit simulator. apt-get install ngspice',
  )

describe.skipIf(!simulator)('the solver and a general circuit simulator', () => {
  test(`agree to a part in a million on ${WANTED} random networks`, () => {
    let compared = 0
    let worst = 0
    for (const job of jobs) {
      const loom = loomOf(describeJob(job))
      const solution = solve(loom)
      const state = solution.states.find((entry) => entry.state.id === 'transmit')
      // Where a feed is starved there is no working point for either to find.
      if (!state?.converged || state.loads.some((load) => load.volts < job.volts / 2)) continue
      const { text, nodes } = netlist(loom, solution, job.volts)
      const volts = simulate(text, nodes)
      expect(volts.size).toBe(nodes.length)
      for (const node of nodes) {
        const error =
          Math.abs((volts.get(node) ?? Number.NaN) - (state.volts[node] ?? Number.NaN)) / job.volts
        expect(error, `${loom.terminals[node]?.address} in\n${text}`).toBeLessThan(1e-6)
        worst = Math.max(worst, error)
      }
      if (++compared === WANTED) break
    }
    expect(compared).toBe(WANTED)
    console.info(
      `compared ${compared} networks with ngspice; largest difference ${worst.toExponential(1)} of the supply`,
    )
  })
})
