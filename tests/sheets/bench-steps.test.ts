import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { Loom, LoomUse } from '../../src/resolve/loom.ts'
import { onTheBench } from '../../src/sheets/bench.ts'
import type { BenchStep } from '../../src/sheets/bench-step.ts'
import { benchSteps } from '../../src/sheets/bench-steps.ts'
import { isProbed } from '../../src/sheets/probe-points.ts'
import type { Solution } from '../../src/solve/solution.ts'
import { job, jobIds } from '../demos/demo-shop.ts'
import { describeJob, randomJob } from '../solve/random-job.ts'
import { randomLoom } from './random-loom.ts'
import { firstUse, sample } from './sample-shop.ts'

const ORDER = ['cut', 'join', 'insert', 'close', 'continuity', 'open', 'look']

/** What is wrong with the steps of one loom, a line each; none when it can be made and proved by them. */
function faults(loom: Loom, use: LoomUse, solution: Solution): string[] {
  const steps = benchSteps(loom, use, solution)
  return [
    ...orderFaults(steps),
    ...cutFaults(loom, use, steps),
    ...joinFaults(loom, use, steps),
    ...cavityFaults(use, steps),
    ...proofFaults(loom, use, steps),
    ...untouched(loom, use, steps),
  ]
}

function orderFaults(steps: readonly BenchStep[]): string[] {
  const stages = steps.map(({ stage }) => ORDER.indexOf(stage))
  const back = stages.findIndex((stage, index) => stage < (stages[index - 1] ?? 0))
  const ids = new Set(steps.map(({ id }) => id))
  return [
    ...(back < 0 ? [] : [`step ${back + 1} goes back to an earlier stage`]),
    ...(ids.size === steps.length ? [] : ['two steps share an id']),
  ]
}

function cutFaults(loom: Loom, use: LoomUse, steps: readonly BenchStep[]): string[] {
  const wires = loom.conductors.filter(({ loom: own, kind }) => own === use && kind === 'wire')
  const pieces = [...wires.map(({ id }) => id), ...use.cables.map(({ id }) => id)]
  const cut = steps.filter(({ stage }) => stage === 'cut').map(({ what }) => what.replace('Cut ', ''))
  return [...pieces].sort().join() === [...cut].sort().join() ? [] : [`cut ${cut} of ${pieces}`]
}

function joinFaults(loom: Loom, use: LoomUse, steps: readonly BenchStep[]): string[] {
  const joined = steps.flatMap(({ joins }) =>
    joins.map(({ conductor, end }) => `${conductor.address} ${end}`),
  )
  const own = loom.conductors.filter((conductor) => conductor.loom === use)
  const wanted = own.flatMap(({ address, from, to }) => [
    ...(from ? [`${address} A`] : []),
    ...(to ? [`${address} B`] : []),
  ])
  return wanted.flatMap((end) => {
    const times = joined.filter((one) => one === end).length
    return times === 1 ? [] : [`${end} is joined ${times} times`]
  })
}

function cavityFaults(use: LoomUse, steps: readonly BenchStep[]): string[] {
  const settled = steps.flatMap(({ settles }) => settles)
  // A connector of one pin that nothing is joined to has no cavity to speak of, and a bare shell needs nothing.
  const cavities = use.halves
    .filter(({ pins }) => pins.size > 1)
    .flatMap(({ pins }) => [...pins.values()].filter(({ name }) => name !== 'shell'))
  return steps.length === 0
    ? []
    : cavities.flatMap((pin) => {
        const times = settled.filter((one) => one === pin).length
        return times === 1 ? [] : [`${pin.address} is settled ${times} times`]
      })
}

/** Every probe point of every piece is joined to the others of its piece by what is measured, or the piece is held against others. */
function proofFaults(loom: Loom, use: LoomUse, steps: readonly BenchStep[]): string[] {
  const proofs = steps.filter(({ a, b, stage }) => ORDER.indexOf(stage) >= 4 && a.length + b.length > 0)
  const closed = proofs.filter(
    ({ stage, a, b }) => stage === 'continuity' && a.length === 1 && b.length === 1,
  )
  return onTheBench(loom, use).pieces.flatMap((piece) => {
    const probes = piece.terminals.filter(isProbed)
    if (probes.length < 2 || piece.links.length === 0) return []
    const reached = new Set(probes.slice(0, 1))
    for (let before = -1; before < reached.size; ) {
      before = reached.size
      for (const { a, b } of closed) {
        const [from, to] = [a[0], b[0]]
        if (!from || !to || !probes.includes(from) || !probes.includes(to)) continue
        if (reached.has(from)) reached.add(to)
        else if (reached.has(to)) reached.add(from)
      }
    }
    return probes
      .filter((probe) => !reached.has(probe))
      .map(({ address }) => `${address} is never proved joined`)
  })
}

/** A pin with a wire that no probe touches could be anything. */
function untouched(loom: Loom, use: LoomUse, steps: readonly BenchStep[]): string[] {
  const touched = new Set(
    steps.filter(({ stage }) => ORDER.indexOf(stage) >= 4).flatMap(({ a, b }) => [...a, ...b]),
  )
  const wired = loom.conductors.filter(({ loom: own }) => own === use).flatMap(({ from, to }) => [from, to])
  return [...new Set(wired)].flatMap((end) =>
    end?.half && !touched.has(end) ? [`${end.address} is touched by no probe`] : [],
  )
}

function faultsOf(data: DocumentInput): string[] {
  const { loom, solution } = sample(data)
  return faults(loom, firstUse(loom), solution)
}

describe('every end is joined once, every cavity settled once, every net proved', () => {
  test.each(jobIds)('%s', (id) => {
    const { loom, solution } = job(id)
    expect(loom.looms.flatMap((use) => faults(loom, use, solution))).toEqual([])
  })

  test('the sample', () => {
    const { loom, solution } = sample()
    expect(faults(loom, firstUse(loom), solution)).toEqual([])
  })

  test('looms of random shape', () => {
    fc.assert(
      fc.property(randomLoom, (data) => {
        expect(faultsOf(data)).toEqual([])
      }),
      { numRuns: 50 },
    )
  })

  test('supply trees of random shape', () => {
    fc.assert(
      fc.property(randomJob, (one) => {
        expect(faultsOf({ loomwright: 1, ...describeJob(one) } as DocumentInput)).toEqual([])
      }),
      { numRuns: 25 },
    )
  })
})

describe('the steps of the sample', () => {
  const { loom, solution } = sample()
  const use = firstUse(loom)
  const steps = benchSteps(loom, use, solution)
  const facts = (what: RegExp) => {
    const step = steps.find((one) => what.test(one.what))
    return Object.fromEntries((step?.facts ?? []).map(({ name, text }) => [name, text]))
  }

  test('a crimp says everything the hands need', () => {
    expect(facts(/^Crimp A1, end A/)).toMatchObject({
      Colour: 'RD red',
      Size: '6 mm² (≈10 AWG)',
      For: 'R1',
      Strip: expect.stringMatching(/^\d+(\.\d+)? mm$/),
      Contact: expect.stringContaining('ring-yellow'),
      Crimp: expect.stringMatching(/tool/i),
      'Label on first': expect.stringContaining('A1'),
    })
  })

  test('two conductors in one contact are one crimp', () => {
    expect(steps.filter(({ what }) => /^Crimp B1, end A and C1, end A/.test(what))).toHaveLength(1)
    expect(facts(/^Crimp B1, end A and C1/)).toMatchObject({
      B1: 'colour not stated',
      C1: expect.stringMatching(/^[A-Z]{2}/),
      Size: '0.22 mm² (≈24 AWG)',
    })
  })

  test('contacts of one plug go in from its middle outward, after every crimp', () => {
    const fill = steps.filter(({ section }) => section === 'Fill P2')
    expect(fill[0]?.what).toMatch(/into P2 cavity 3$/)
    expect(fill.length).toBe(5)
  })

  test('a screen goes onto its shell when the plug is closed', () => {
    const close = steps.filter(({ section }) => section === 'Close P2')
    expect(close.map(({ what }) => what)).toEqual([
      'C3, end A, on the shell of P2',
      'Look P2 over and close it',
    ])
  })

  test('a measurement carries its bounds as figures and both probe points', () => {
    const step = steps.find(({ what }) => what === 'R1 to P1-1')
    expect(step).toMatchObject({ ask: 'ohms', stage: 'continuity' })
    expect(step?.max).toBeGreaterThan(0.01)
    expect([step?.a, step?.b].map((list) => list?.map(({ address }) => address))).toEqual([
      ['main.R1.1'],
      ['main.P1.1'],
    ])
    expect(steps.filter(({ stage }) => stage === 'open').every(({ min }) => min === 1e6)).toBe(true)
  })

  test('an id stays while its step says the same, and goes when it does not', () => {
    const again = benchSteps(loom, use, solution)
    expect(again.map(({ id }) => id)).toEqual(steps.map(({ id }) => id))
    const without = benchSteps(loom, use, undefined)
    const changed = without.filter(({ id }) => !steps.some((one) => one.id === id))
    expect(changed.length).toBeGreaterThan(0)
    expect(changed.every(({ stage }) => stage === 'continuity')).toBe(true)
  })

  test('a loom without conductors has nothing to do', () => {
    const bare = sample({ loomwright: 1, harnesses: [{ id: 'x', title: 'x', connectors: [] }] })
    expect(benchSteps(bare.loom, firstUse(bare.loom), bare.solution)).toEqual([])
  })
})
