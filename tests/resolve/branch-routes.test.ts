import { describe, expect, it } from 'vitest'
import type { Branch } from '../../src/describe/harness.ts'
import { branchDistanceMm, branchTree, routeLengthMm } from '../../src/resolve/branch-routes.ts'
import { job } from '../demos/demo-shop.ts'

const branch = (from: string, to: string, length: number): Branch => ({ from, to, length })
const small = [branch('B1', 'P1', 100), branch('B2', 'B1', 250), branch('B2', 'P2', 40)]

describe('routes through branches', () => {
  it('adds up the stretches, whichever way they are written', () => {
    expect(branchDistanceMm(small, 'P1', 'P2')).toBe(390)
    expect(branchDistanceMm(small, 'P2', 'P1')).toBe(390)
    expect(branchDistanceMm(small, 'P1', 'P1')).toBe(0)
  })

  it('knows no route to a place that no branch reaches', () => {
    expect(branchDistanceMm(small, 'P1', 'P9')).toBeUndefined()
    expect(branchDistanceMm([...small, branch('X', 'Y', 5)], 'P1', 'Y')).toBeUndefined()
  })

  it('leaves out what would close a loop', () => {
    const tree = branchTree([...small, branch('P1', 'P2', 10), branch('P1', 'P1', 10)])
    expect(tree.branches).toEqual(small)
    expect(tree.looped.map(({ to }) => to)).toEqual(['P2', 'P1'])
  })
})

describe('the mended demos', () => {
  // For making both ends again once, which the demo shop gives each wire.
  const SLACK_MM = 80
  it.each(['council-pickup', 'harbour-launch'])(
    '%s: every conductor is as long as its route and its slack',
    (id) => {
      const { loom } = job(id)
      const routed = loom.conductors.flatMap((conductor) => {
        const route = routeLengthMm(conductor.loom.harness, conductor)
        return route === undefined ? [] : [{ id: conductor.id, lengthMm: conductor.lengthMm, route }]
      })
      expect(routed.length).toBeGreaterThan(25)
      for (const { id: number, lengthMm, route } of routed)
        expect([number, lengthMm]).toEqual([number, route + SLACK_MM])
    },
  )

  it('reaches every connector that the wires land on', () => {
    for (const id of ['council-pickup', 'harbour-launch'])
      for (const { harness } of job(id).loom.looms.filter((use) => use.harness.branches)) {
        const places = new Set(harness.branches?.flatMap(({ from, to }) => [from, to]))
        expect(harness.connectors.map((c) => c.id).filter((name) => !places.has(name))).toEqual([])
      }
  })
})
