import { describe, expect, test } from 'vitest'
import { groundLoopInSignal } from '../../src/check/rules/ground-loop-in-signal.ts'
import { groundLost } from '../../src/check/rules/ground-lost.ts'
import { isolatorBackFed } from '../../src/check/rules/isolator-back-fed.ts'
import { shortOpensFuse } from '../../src/check/rules/short-opens-fuse.ts'
import { groundLoops } from '../../src/solve/ground-loops.ts'
import { shortFarEnds } from '../../src/solve/simulate/far-end-shorts.ts'
import { loseGrounds } from '../../src/solve/simulate/lost-grounds.ts'
import { openIsolators } from '../../src/solve/simulate/open-isolators.ts'
import { solve } from '../../src/solve/solve.ts'
import { onlyLoom } from '../check/check-document.ts'

describe('a short at the far end', () => {
  const loom = onlyLoom(shortOpensFuse.examples.trips)
  const solution = solve(loom)
  const [short] = shortFarEnds(loom, solution.paths, solution).results

  test('draws what the loop allows', () => {
    // By hand: 0.5 mm² at 39 mΩ/m, 0.1 m + 2 × 18 m; four contacts of 2 mΩ; fuse and holder 7 mΩ.
    const ohms = 36.1 * 0.039 + 4 * 0.002 + 0.007
    expect(short?.loopOhms).toBeCloseTo(ohms, 9)
    expect(short?.faultAmps).toBeCloseTo(12 / ohms, 9)
    expect(short?.fuse.id).toBe('F1')
  })
})

describe('a lost ground', () => {
  test('sends the current down the one wire that is left', () => {
    const loom = onlyLoom(groundLost.examples.trips)
    const { results, left } = loseGrounds(loom, solve(loom))
    expect(left).toBe(0)
    const radio = results.find(({ joint }) => [joint.a.address, joint.b.address].includes('radio.J.2'))
    const thin = radio?.carriers.find(({ conductor }) => conductor.id === 'A05')
    // Load 12 V less drops over 1.5 Ω at work: the ground wire of 0.22 mm² (96 mΩ/m) adds little to that.
    expect(thin?.before).toBeLessThan(0.6)
    expect(thin?.amps).toBeGreaterThan(7)
    expect(thin?.amps).toBeLessThan(8)
  })

  test('harms nobody where the signal is not grounded at both ends', () => {
    const loom = onlyLoom(groundLost.examples.passes)
    for (const { carriers } of loseGrounds(loom, solve(loom)).results) expect(carriers).toEqual([])
  })
})

describe('an open switch', () => {
  test('leaves the load on what the resistor across it lets through', () => {
    const loom = onlyLoom(isolatorBackFed.examples.trips)
    const [opened] = openIsolators(loom, solve(loom)).results
    // 1 A at nearly 12 V is nearly 12 Ω, behind 10 Ω: 12 / (10 + 12) of the supply.
    expect(opened?.fed[0]?.volts).toBeCloseTo(6.5, 1)
    expect(opened?.fed[0]?.how).toBe('through a load')
  })

  test('leaves nothing on the load without it', () => {
    const loom = onlyLoom(isolatorBackFed.examples.passes)
    expect(openIsolators(loom, solve(loom)).results.flatMap(({ fed }) => fed)).toEqual([])
  })
})

describe('ground loops', () => {
  test('are found through signal and supply returns, smallest first found', () => {
    const { loops } = groundLoops(onlyLoom(groundLoopInSignal.examples.trips))
    expect(loops).toHaveLength(1)
    expect(loops[0]?.conductors.map(({ id }) => id).sort()).toEqual(['A05', 'A06', 'A08'])
    expect([...(loops[0]?.legs ?? [])].sort()).toEqual(['power', 'signal'])
  })

  test('are none in a tree', () => {
    expect(groundLoops(onlyLoom(groundLoopInSignal.examples.passes)).loops).toEqual([])
  })
})
