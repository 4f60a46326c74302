import { describe, expect, test } from 'vitest'
import { assignColumns } from '../../src/draw/columns.ts'
import { expandTrunk } from '../../src/draw/expand-trunk.ts'
import { fieldBounds, frameOf, PAPERS, zoneAt } from '../../src/draw/paper.ts'
import { pinList } from '../../src/draw/pin-list.ts'
import type { Item, Point } from '../../src/draw/scene.ts'
import type { SheetModel, Trunk } from '../../src/draw/sheet-model.ts'
import { orderTrunk } from '../../src/draw/trunk-rows.ts'
import { inspect, partedPairs } from './inspect.ts'
import { accessoryHarness } from './samples.ts'

describe('lists of pins', () => {
  test.each([
    [['1', '2', '3'], '1–3'],
    [['10', '9', '2', '1'], '1, 2, 9, 10'],
    [['5', '6', '7', '11', '13', '14', '15', '16'], '5–7, 11, 13–16'],
    [['B', 'A', 'shell'], 'A, B, shell'],
    [['A1', 'A2', 'A3'], 'A1, A2, A3'],
    [[], ''],
  ])('%j', (pins, expected) => {
    expect(pinList(pins)).toBe(expected)
  })
})

describe('paper', () => {
  const a3 = PAPERS.find((paper) => paper.name === 'A3')
  if (!a3) throw new Error('no A3')

  test('A3 has 8 by 6 fields of 50 mm round its middle (ISO 5457)', () => {
    const bounds = fieldBounds(a3.wMm, a3.columns)
    expect(bounds).toHaveLength(9)
    expect((bounds[1] ?? 0) - (bounds[0] ?? 0)).toBe(50 * 4)
    expect(bounds[4]).toBe(210 * 4)
  })

  test.each([
    [21, 11, 'A1'],
    [409, 286, 'F8'],
    [209, 148, 'C4'],
    [211, 149, 'D5'],
  ])('%d mm, %d mm lies in %s', (x, y, zone) => {
    expect(zoneAt(a3, x * 4, y * 4)).toBe(zone)
  })

  test('the frame leaves 20 mm for binding and 10 mm elsewhere', () => {
    expect(frameOf(a3)).toEqual({ x: 80, y: 40, w: 1560, h: 1108 })
  })
})

describe('the lines of a trunk', () => {
  const middle: Point[] = [
    [0, 100],
    [50, 100],
    [50, 300],
    [120, 300],
  ]

  test('keep their order and distance round corners', () => {
    const lanes = expandTrunk(middle, 3)
    expect(lanes.map((lane) => lane[0]?.[1])).toEqual([80, 100, 120])
    expect(lanes.map((lane) => lane.at(-1)?.[1])).toEqual([280, 300, 320])
    // Going down, the upper line is the outer one.
    expect(lanes.map((lane) => lane[1]?.[0])).toEqual([59, 50, 41])
  })

  test('never touch or cross', () => {
    const items = expandTrunk(middle, 6).map(
      (points, i): Item => ({ kind: 'group', data: { id: String(i) }, items: [{ kind: 'wire', points }] }),
    )
    const found = inspect(items, { w: 500, h: 500 })
    expect(found.crossings).toBe(0)
    expect(found.faults).toEqual([])
  })
})

describe('the order inside a trunk', () => {
  const heights: Record<string, number> = { a: 10, b: 90, c: 30, d: 50, e: 70 }
  const trunk = (more: Partial<Trunk>): Trunk => ({
    id: 'W1',
    title: 'W1',
    jacket: true,
    conductors: ['a', 'b', 'c', 'd', 'e'],
    pairs: [],
    shields: [],
    ...more,
  })
  const order = (more: Partial<Trunk>) => orderTrunk(trunk(more), (id) => heights[id] ?? 0)

  test('follows the pins', () => {
    expect(order({}).rows.map((row) => row.id)).toEqual(['a', 'c', 'd', 'e', 'b'])
  })

  test('keeps a pair together', () => {
    const { rows, pairs } = order({ pairs: [['b', 'a']] })
    expect(rows.map((row) => row.id)).toEqual(['c', 'a', 'b', 'd', 'e'])
    expect(pairs).toEqual([1])
  })

  test('puts the lane of a screen under what it covers and one over all last', () => {
    const { rows, shields } = order({
      pairs: [['c', 'd']],
      shields: [
        { id: 'all', covers: [] },
        { id: 'inner', covers: ['d', 'c'] },
      ],
    })
    expect(rows.map((row) => row.id)).toEqual(['a', 'c', 'd', 'inner', 'e', 'b', 'all'])
    expect(shields.map(({ shield, from, to, row }) => [shield.id, from, to, row])).toEqual([
      ['inner', 1, 2, 3],
      ['all', 0, 5, 6],
    ])
  })
})

describe('columns', () => {
  test('a fuse stands between what it joins', () => {
    const columns = assignColumns(accessoryHarness(), 'facing')
    const [bt, f3, k1] = ['BT1', 'F3', 'K1'].map(columns.columnOf) as [number, number, number]
    expect(Math.min(bt, k1)).toBeLessThan(f3)
    expect(f3).toBeLessThan(Math.max(bt, k1))
  })

  test('a wish is kept', () => {
    const model: SheetModel = accessoryHarness()
    const blocks = model.blocks.map((block) => (block.id === 'J1' ? { ...block, column: 2 } : block))
    expect(assignColumns({ ...model, blocks }, 'facing').columnOf('J1')).toBe(2)
  })

  test('no two blocks share a place in the order', () => {
    const { blocks } = accessoryHarness()
    const { compare } = assignColumns(accessoryHarness(), 'facing')
    for (const a of blocks) for (const b of blocks) if (a !== b) expect(compare(a.id, b.id)).not.toBe(0)
  })
})

describe('the inspector', () => {
  const text = (x: number, y: number): Item => ({ kind: 'text', x, y, text: 'A02', size: 'label' })
  const wire = (id: string, ...points: Point[]): Item => ({
    kind: 'group',
    data: { id },
    items: [{ kind: 'wire', points }],
  })
  test.each<[string, Item[], RegExp]>([
    ['text on text', [text(10, 20), text(20, 24)], /lies on text/],
    ['a conductor through text', [text(10, 20), wire('1', [0, 16], [90, 16])], /runs through text/],
    [
      'two conductors on one line',
      [wire('1', [0, 5], [50, 5]), wire('2', [30, 5], [90, 5])],
      /lie on each other/,
    ],
    [
      'a conductor through a block',
      [
        wire('1', [0, 5], [90, 5]),
        { kind: 'rect', className: 'lw-box', x: 20, y: 0, w: 20, h: 20, solid: true },
      ],
      /through the block/,
    ],
    ['text off the sheet', [text(95, 20)], /leaves the sheet/],
    [
      'text out of its block',
      [
        {
          kind: 'group',
          className: 'lw-block',
          items: [{ kind: 'rect', className: 'lw-box', x: 5, y: 0, w: 20, h: 40, solid: true }, text(10, 20)],
        },
      ],
      /leaves its block/,
    ],
    [
      'a conductor along the edge of a block',
      [
        wire('1', [20, 2], [20, 18]),
        { kind: 'rect', className: 'lw-box', x: 0, y: 0, w: 20, h: 20, solid: true },
      ],
      /runs along a block/,
    ],
  ])('sees %s', (_, items, expected) => {
    expect(inspect(items, { w: 100, h: 100 }).faults.join()).toMatch(expected)
  })

  const leg = (id: string, y: number, to: number): Item => ({
    kind: 'group',
    className: 'lw-cond',
    data: { id },
    items: [
      {
        kind: 'wire',
        points: [
          [0, y],
          [40, y],
        ],
      },
      { kind: 'wire', points: [], path: 'M40 0' },
      {
        kind: 'wire',
        points: [
          [50, y],
          [70, y],
          [70, to],
          [90, to],
        ],
      },
    ],
  })
  test('sees a conductor between the legs of a pair, and legs that part', () => {
    const pair = [leg('a', 20, 60), leg('b', 40, 80)]
    expect(partedPairs(pair, [['a', 'b']])).toEqual([])
    expect(partedPairs([...pair, wire('c', [0, 30], [30, 30])], [['a', 'b']]).join()).toMatch(
      /c between its legs/,
    )
    expect(partedPairs([leg('a', 20, 60), leg('b', 40, 99)], [['a', 'b']]).join()).toMatch(/a, b parts/)
    expect(partedPairs([leg('a', 20, 60)], [['a', 'b']]).join()).toMatch(/one twist/)
  })

  test('counts a crossing once', () => {
    const items = [wire('1', [0, 50], [90, 50]), wire('2', [40, 0], [40, 90])]
    expect(inspect(items, { w: 100, h: 100 })).toMatchObject({ crossings: 1, faults: [] })
  })
})
