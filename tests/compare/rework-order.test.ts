import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { ThingChange } from '../../src/compare/changes.ts'
import { orderMoves } from '../../src/compare/rework-order.ts'
import { altered } from '../../src/compare/thing-change.ts'

function moved(id: string, from: number, to: number): ThingChange {
  const change = altered('conductor', id, id, { moves: [{ from: `P-${from}`, to: `P-${to}` }] })
  if (!change) throw new Error('a move is a change')
  return change
}

const COUNT = 40

/** Wires in distinct cavities that go to distinct cavities, some of them those of others. */
const moves = fc
  .tuple(
    fc.shuffledSubarray([...Array(COUNT).keys()], { minLength: 1 }),
    fc.shuffledSubarray([...Array(COUNT).keys()], { minLength: COUNT }),
  )
  .map(([from, to]) => from.map((cavity, i) => moved(`A${i}`, cavity, to[i] ?? 0)))

test('no contact is pushed into a cavity that another still fills, but where wires change places in a ring', () => {
  fc.assert(
    fc.property(moves, (wires) => {
      const { order, rings } = orderMoves(wires, () => true)
      expect([...order].sort()).toHaveLength(wires.length)
      expect(new Set(order)).toEqual(new Set(wires))
      const filled = new Map(wires.map((wire) => [wire.moves[0]?.from, wire]))
      for (const wire of order) {
        for (const member of rings.get(wire) ?? []) filled.delete(member.moves[0]?.from)
        filled.delete(wire.moves[0]?.from)
        expect(filled.has(wire.moves[0]?.to)).toBe(false)
        filled.set(wire.moves[0]?.to, wire)
      }
    }),
  )
})

test('a chain of 20,000 wires has its order', () => {
  const wires = Array.from({ length: 20_000 }, (_, i) => moved(`A${i}`, i, i + 1))
  const { order, rings } = orderMoves(wires, () => true)
  expect(order[0]?.id).toBe('A19999')
  expect(order.at(-1)?.id).toBe('A0')
  expect(rings.size).toBe(0)
})
