import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Branch } from '../../src/describe/harness.ts'
import { boardItems } from '../../src/draw/formboard/board-items.ts'
import { boardPlan } from '../../src/draw/formboard/board-plan.ts'
import { fieldBox, type TilePaper, tileGrid, tilePages } from '../../src/draw/formboard/board-tiles.ts'
import { cross } from '../../src/draw/formboard/clearance.ts'
import { deriveBranches } from '../../src/draw/formboard/derive-branches.ts'
import { drawFormboard } from '../../src/draw/formboard/draw-formboard.ts'
import { type BoardLayout, layBoard } from '../../src/draw/formboard/lay-board.ts'
import { lineMeetsBox } from '../../src/draw/label-room.ts'
import { UNITS_PER_MM } from '../../src/draw/metrics.ts'
import type { Item, LineItem, Point } from '../../src/draw/scene.ts'
import { pageSvg } from '../../src/draw/scene-page.ts'
import { branchDistanceMm } from '../../src/resolve/branch-routes.ts'
import type { Loom, LoomUse } from '../../src/resolve/loom.ts'
import { job } from '../demos/demo-shop.ts'
import { inspect } from './inspect.ts'

/** The figure the issue asks for: lengths on paper within half a millimetre. */
const WITHIN_MM = 0.5

const tree = fc
  .array(fc.record({ up: fc.nat(), length: fc.integer({ min: 20, max: 3000 }) }), {
    minLength: 1,
    maxLength: 40,
  })
  .map((list): Branch[] =>
    list.map(({ up, length }, i) => ({ from: `n${up % (i + 1)}`, to: `n${i + 1}`, length })),
  )

const measured = ({ branches }: BoardLayout) =>
  branches.map(({ branch, a, b }) => Math.abs(Math.hypot(a[0] - b[0], a[1] - b[1]) - branch.length))

const demos: readonly (readonly [string, number])[] = [
  ['council-pickup', 0],
  ['council-pickup', 1],
  ['harbour-launch', 0],
  ['council-pickup-planned', 0],
  ['theatre', 0],
  ['programming-lead', 0],
]
const useOf = ([id, index]: readonly [string, number]): { loom: Loom; use: LoomUse } => {
  const { loom } = job(id)
  const use = loom.looms[index]
  if (!use) throw new Error(`${id} has no loom ${index}`)
  return { loom, use }
}

/** Straight pieces of loom drawn for each branch, by what the drawing says it is. */
function drawnBranches(items: readonly Item[]): { mm: number; points: readonly Point[] }[] {
  return items.flatMap((item) => {
    if (item.kind !== 'group' || item.className !== 'lw-branch') return []
    const line = item.items.find((one): one is LineItem => one.kind === 'line')
    return line ? [{ mm: Number(item.data?.['mm']), points: line.points }] : []
  })
}

const lengthOf = (points: readonly Point[]): number => {
  const [a, b] = points as [Point, Point]
  return Math.hypot(a[0] - b[0], a[1] - b[1])
}

describe('laying out a board', () => {
  it('keeps every length, whatever the tree', () => {
    fc.assert(
      fc.property(tree, (branches) => {
        for (const error of measured(layBoard(branches))) expect(error).toBeLessThan(1e-6)
      }),
      { numRuns: 60 },
    )
  })

  it('lays the longest path straight, and says how long it is', () => {
    fc.assert(
      fc.property(tree, (branches) => {
        const layout = layBoard(branches)
        const places = [...layout.places.keys()]
        const far = Math.max(
          ...places.map((to) => branchDistanceMm(branches, layout.longest[0] ?? '', to) ?? 0),
        )
        expect(layout.longestMm).toBe(far)
        const ys = layout.longest.map((place) => layout.places.get(place)?.[1])
        expect(new Set(ys).size).toBe(1)
      }),
      { numRuns: 40 },
    )
  })

  it('keeps an angle that is given: 90 is up, against the direction it is written in too', () => {
    const up: Branch = { from: 'B', to: 'C', length: 100, angle: 90 }
    const layout = layBoard([{ from: 'A', to: 'B', length: 500 }, { from: 'B', to: 'D', length: 500 }, up])
    const [b, c] = [layout.places.get('B'), layout.places.get('C')] as [Point, Point]
    expect(c[0] - b[0]).toBeCloseTo(0)
    expect(c[1] - b[1]).toBeCloseTo(-100)
    const turned = layBoard([
      { from: 'A', to: 'B', length: 500 },
      { from: 'B', to: 'D', length: 500 },
      { ...up, from: 'C', to: 'B' },
    ])
    const [b2, c2] = [turned.places.get('B'), turned.places.get('C')] as [Point, Point]
    expect(c2[1] - b2[1]).toBeCloseTo(100)
  })

  it.each(['council-pickup', 'harbour-launch'])('crosses no two branches of %s', (id) => {
    const { loom, use } = useOf([id, 0])
    const { branches } = layBoard(boardPlan(loom, use).branches)
    for (const [i, one] of branches.entries())
      for (const two of branches.slice(i + 1)) {
        const shared = [one.branch.from, one.branch.to].some(
          (p) => p === two.branch.from || p === two.branch.to,
        )
        expect([one.branch.to, two.branch.to, !shared && cross(one.a, one.b, two.a, two.b)]).toContain(false)
      }
  })

  it('lays parts that hang on nothing below each other', () => {
    const layout = layBoard([
      { from: 'A', to: 'B', length: 100 },
      { from: 'C', to: 'D', length: 100 },
    ])
    expect(layout.places.get('C')?.[1]).toBeGreaterThan((layout.places.get('A')?.[1] ?? 0) + 50)
  })
})

describe('branches worked out from wires', () => {
  it('come out as long as the wires from the place where most end', () => {
    const { use, loom } = useOf(['council-pickup-planned', 0])
    const own = loom.conductors.filter((conductor) => conductor.loom === use)
    const branches = deriveBranches(own)
    const p2 = own.filter(({ from, to }) => from?.half?.id === 'P2' || to?.half?.id === 'P2')
    let checked = 0
    for (const { from, to, lengthMm } of p2) {
      const [a, b] = [from?.half?.id, to?.half?.id ?? to?.component?.id]
      if (!a || !b || lengthMm === undefined) continue
      const route = branchDistanceMm(branches, a, b)
      if (route !== undefined && Math.abs(route - lengthMm) < 1) checked += 1
    }
    expect(checked).toBeGreaterThan(2)
  })
})

describe.each(demos)('the formboard of %s, loom %i', (id, index) => {
  const { loom, use } = useOf([id, index])
  const plan = boardPlan(loom, use)
  const layout = layBoard(plan.branches)
  const { items, unplaced } = boardItems(plan, layout, { ratio: 1, full: true })

  it('is drawn to length within half a millimetre', () => {
    const drawn = drawnBranches(items)
    expect(drawn.length).toBe(plan.branches.length)
    for (const { mm, points } of drawn)
      expect(Math.abs(lengthOf(points) / UNITS_PER_MM - mm)).toBeLessThan(WITHIN_MM)
  })

  it('names everything once with no text on text or on a line', () => {
    expect(unplaced).toEqual([])
    expect(
      inspect(items, { w: Infinity, h: Infinity }).faults.filter(
        (fault) => !fault.includes('leaves the sheet'),
      ),
    ).toEqual([])
    const { overview } = drawFormboard(loom, use)
    for (const layer of overview?.layers ?? [])
      expect(
        inspect(layer.items, { w: 1e6, h: 1e6 }).faults.filter(
          (fault) => !fault.includes('leaves the sheet'),
        ),
      ).toEqual([])
  })

  it.each(['a4', 'letter'] as const)(
    'is covered by %s sheets, every bit by the field of exactly one',
    (paper) => {
      const grid = tileGrid(items, paper)
      const printed = new Set(grid.used.map(({ row, column }) => `${row},${column}`))
      const fieldAt = ([x, y]: Point) =>
        `${Math.floor((y - grid.origin[1]) / grid.pitch.h) + 1},${Math.floor((x - grid.origin[0]) / grid.pitch.w) + 1}`
      for (const { points } of drawnBranches(items)) {
        const [a, b] = points as [Point, Point]
        const steps = Math.ceil(lengthOf(points) / 20)
        for (let i = 0; i <= steps; i += 1)
          expect(printed).toContain(
            fieldAt([a[0] + ((b[0] - a[0]) * i) / steps, a[1] + ((b[1] - a[1]) * i) / steps]),
          )
      }
      expect(printed.size).toBe(grid.used.length)
      const { pages } = tilePages(items, paper, { title: '', issue: '' })
      expect(pages.length).toBe(grid.used.length)
      for (const { row, column } of grid.used)
        expect(
          items.some(
            (item) => item.kind !== 'group' || touchesField(item.items, fieldBox(grid, row, column)),
          ),
        ).toBe(true)
    },
  )

  it('shows a place of the board at the same spot of it on neighbouring sheets, 20 mm of each doubled', () => {
    const { grid, pages } = tilePages(items, 'a4', { title: '', issue: '' })
    const at = (row: number, column: number) => {
      const i = grid.used.findIndex((one) => one.row === row && one.column === column)
      return pages[i]?.layers[0]?.at
    }
    for (const { row, column } of grid.used) {
      const [here, right] = [at(row, column), at(row, column + 1)]
      if (!here || !right) continue
      expect((here[0] - right[0]) / UNITS_PER_MM).toBeCloseTo(277 - 20, 6)
      expect(here[1]).toBe(right[1])
    }
  })
})

function touchesField(items: readonly Item[], box: ReturnType<typeof fieldBox>): boolean {
  return items.some(
    (item) =>
      item.kind === 'line' &&
      item.points.slice(1).some((b, i) => lineMeetsBox([item.points[i] ?? b, b], box)),
  )
}

describe('a set of sheets', () => {
  const { loom, use } = useOf(['council-pickup', 0])

  it.each([
    ['a4', 297, 210],
    ['letter', 279.4, 215.9],
  ] as const)('on %s is %d by %d mm, with a bar of 100 mm', (paper: TilePaper, wMm, hMm) => {
    const { tiles } = drawFormboard(loom, use, { paper })
    for (const tile of tiles) {
      expect([tile.wMm, tile.hMm]).toEqual([wMm, hMm])
      const bar = tile.layers
        .at(-1)
        ?.items.filter((item) => item.kind === 'rect' && /lw-(ink|paper)/.test(item.className))
      const xs = bar?.flatMap((item) => (item.kind === 'rect' ? [item.x, item.x + item.w] : [])) ?? []
      expect((Math.max(...xs) - Math.min(...xs)) / UNITS_PER_MM).toBeCloseTo(100, 6)
      expect(tile.layers.every(({ scale }) => scale === 1)).toBe(true)
    }
  })

  it('comes out the same twice, and its SVG is whole', () => {
    const once = drawFormboard(loom, use)
    const twice = drawFormboard(loom, use)
    for (const [i, tile] of [once.overview, ...once.tiles.slice(0, 6)].entries()) {
      const other = [twice.overview, ...twice.tiles][i]
      if (!tile || !other) throw new Error('no sheet')
      const svg = pageSvg(tile)
      expect(svg).toBe(pageSvg(other))
      expect(svg).toContain(`width="${tile.wMm}mm"`)
    }
  })

  it('says on the overview how long the longest path and all branches are', () => {
    const { overview } = drawFormboard(loom, use)
    const words = overview?.layers[0]?.items
      .flatMap((item) => (item.kind === 'text' ? [item.text] : []))
      .join(' ')
    expect(words).toContain('Longest path 9.82 m')
    expect(words).toContain('20.56 m')
  })
})

it('a loom of a hundred kilometres has an overview that says there are no true-size sheets', () => {
  const { loom, use } = useOf(['programming-lead', 0])
  const harness = { ...use.harness, branches: [{ from: 'P1', to: 'X1', length: 1e8 }] }
  const { overview, tiles } = drawFormboard(loom, { ...use, harness })
  expect(tiles).toEqual([])
  expect(overview && pageSvg(overview)).toContain('Too long for true-size sheets')
})
