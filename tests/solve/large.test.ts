import { expect, test } from 'vitest'
import type { DocumentInput } from '../../src/describe/document.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import { solve } from '../../src/solve/solve.ts'
import { shopOf } from '../resolve/shop-of.ts'

type Content = Omit<DocumentInput, 'loomwright'>

/** A bar that feeds `count` / 3 lamps through fuses, each with a return and a signal wire. */
function hall(count: number): Content {
  const lamps = Math.floor(count / 3)
  const wires: NonNullable<NonNullable<Content['harnesses']>[number]['wires']>[number][] = []
  for (let n = 0; n < lamps; n++) {
    wires.push({
      id: `F${n}`,
      from: n % 50 === 0 ? 'R1' : `S${n - 1}`,
      to: `S${n}`,
      size: '2.5 mm²',
      length: '1 m',
    })
    wires.push({ id: `B${n}`, from: `P${n}.2`, to: 'R2', size: '1.5 mm²', length: '2 m' })
    wires.push({ id: `L${n}`, from: `S${n}`, to: `P${n}.1`, size: '0.75 mm²', length: '0.5 m' })
  }
  const ids = Array.from({ length: lamps }, (_, n) => n)
  return {
    parts: [
      { kind: 'connector', id: 'test-post', title: 'Post', pins: ['1'], style: 'stud', manyWires: true },
      { kind: 'connector', id: 'test-two', title: 'Two', pins: ['1', '2'], style: 'housing' },
    ],
    equipment: [
      {
        id: 'cell',
        title: 'Battery',
        connectors: [
          {
            id: 'P',
            family: 'test-post',
            pins: { '1': { kind: 'supply-out', volts: '24 V', battery: true } },
          },
          { id: 'N', family: 'test-post', pins: { '1': { kind: 'return' } } },
        ],
      },
      {
        id: 'lamp',
        title: 'Lamp',
        connectors: [
          {
            id: 'J',
            family: 'test-two',
            pins: { '1': { kind: 'supply-in', amps: '0.02 A' }, '2': { kind: 'return' } },
          },
        ],
      },
    ],
    harnesses: Array.from({ length: Math.ceil(lamps / 1900) }, (_, part) => ({
      id: `hall-${part}`,
      title: 'Hall',
      connectors: [
        { id: 'R1', family: 'test-post', fits: 'cell.P' },
        { id: 'R2', family: 'test-post', fits: 'cell.N' },
        ...ids
          .filter((n) => Math.floor(n / 1900) === part)
          .map((n) => ({ id: `P${n}`, family: 'test-two', fits: 'lamp.J' })),
      ],
      splices: ids.filter((n) => Math.floor(n / 1900) === part).map((n) => ({ id: `S${n}` })),
      wires: wires.filter((wire) => Math.floor(Number(wire.id.slice(1)) / 1900) === part),
    })),
  }
}

test.each([3_000, 30_000])('%i wires are resolved and solved', (count) => {
  const shop = shopOf(hall(count))
  const started = performance.now()
  const { looms } = resolveShop(shop)
  const resolvedAt = performance.now()
  let loads = 0
  for (const loom of looms) {
    const solution = solve(loom)
    for (const state of solution.states) {
      expect(state.unsolved).toEqual([])
      expect(state.sources[0]?.amps).toBeCloseTo(0.02 * state.loads.length, 6)
      loads += state.loads.length
    }
  }
  expect(loads).toBe(4 * Math.floor(count / 3))
  const ms = (from: number, to: number): string => `${Math.round(to - from)} ms`
  console.info(
    `${count} wires in ${looms.length} harnesses: resolved in ${ms(started, resolvedAt)}, solved in four states in ${ms(resolvedAt, performance.now())}`,
  )
})
