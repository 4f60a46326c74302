import { UNITS_PER_MM } from '../../src/draw/metrics.ts'
import type { PlannedSheet } from '../../src/draw/plan-wiring.ts'
import type { Item, Point } from '../../src/draw/scene.ts'
import type { Block, SheetModel } from '../../src/draw/sheet-model.ts'

/** Where something stands: its sheet, and its place on the paper in mm. */
interface Spot {
  readonly sheet: string
  readonly xMm: number
  readonly yMm: number
}

/** The first point of what a group is drawn with. */
function firstPoint(items: readonly Item[]): Point | undefined {
  for (const item of items) {
    if (item.kind === 'group') {
      const inside = firstPoint(item.items)
      if (inside) return inside
    } else if (item.kind === 'text' || item.kind === 'rect') return [item.x, item.y]
    else if (item.kind === 'line' || item.kind === 'wire') {
      if (item.points[0]) return item.points[0]
    } else {
      const found = /^M(-?[\d.]+)[ ,](-?[\d.]+)/.exec(item.d)
      if (found) return [Number(found[1]), Number(found[2])]
    }
  }
  return undefined
}

/** Every block and pin of a drawing by name; one that stands on several sheets has a place on each. */
export function spotsOf(sheets: readonly PlannedSheet[]): Map<string, Spot> {
  const spots = new Map<string, Spot>()
  for (const { name, drawing, scale, at } of sheets) {
    const add = (key: string, point: Point | undefined) => {
      if (!point) return
      const [x, y] = point
      spots.set(`${key} on ${name}`, {
        sheet: name,
        xMm: (at[0] + x * scale) / UNITS_PER_MM,
        yMm: (at[1] + y * scale) / UNITS_PER_MM,
      })
    }
    const look = (items: readonly Item[]) => {
      for (const item of items) {
        if (item.kind !== 'group') continue
        const { block, pin } = item.data ?? {}
        if (item.className === 'lw-block' && block !== undefined)
          add(`block ${block}`, firstPoint(item.items))
        // The row's own text, not the line above it, which the neighbour may have.
        if (item.className === 'lw-pin') add(`pin ${block} ${pin}`, firstPoint(item.items))
        look(item.items)
      }
    }
    look(drawing.items)
  }
  return spots
}

export interface Displacement {
  /** Blocks and pins that are on both drawings. */
  readonly common: number
  /** Mean distance between where one stood and stands, of those that are still on their sheet. */
  readonly meanMm: number
  /** The same with what all have in common taken out: moving a drawing as a whole confuses nobody. */
  readonly meanOwnMm: number
  /** Share that is no longer on the sheet it was on. */
  readonly lost: number
}

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? 0
}

export function displacement(before: readonly PlannedSheet[], after: readonly PlannedSheet[]): Displacement {
  const old = spotsOf(before)
  const now = spotsOf(after)
  const moves = [...old].flatMap(([key, spot]) => {
    const other = now.get(key)
    return other ? [{ sheet: spot.sheet, dx: other.xMm - spot.xMm, dy: other.yMm - spot.yMm }] : []
  })
  const sheets = new Set(moves.map(({ sheet }) => sheet))
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / Math.max(1, values.length)
  const own = [...sheets].flatMap((sheet) => {
    const here = moves.filter((move) => move.sheet === sheet)
    const [mx, my] = [median(here.map(({ dx }) => dx)), median(here.map(({ dy }) => dy))]
    return here.map(({ dx, dy }) => Math.hypot(dx - mx, dy - my))
  })
  return {
    common: moves.length,
    meanMm: mean(moves.map(({ dx, dy }) => Math.hypot(dx, dy))),
    meanOwnMm: mean(own),
    lost: 1 - moves.length / Math.max(1, old.size),
  }
}

/** The model without one conductor: a pin that nothing lands on any more is listed as empty. */
export function without(model: SheetModel, id: string): SheetModel {
  const conductors = model.conductors.filter((conductor) => conductor.id !== id)
  const ends = [...conductors, ...model.trunks.flatMap(({ shields }) => shields)].flatMap(({ from, to }) => [
    from,
    to,
  ])
  const used = new Set(ends.map((end) => (end ? JSON.stringify([end.block, end.pin]) : '')))
  const thinned = (block: Block): Block => {
    if (block.kind !== 'strip') return block
    const sections = block.sections.map((section) => {
      const isUsed = ({ key }: { readonly key: string }) => used.has(JSON.stringify([block.id, key]))
      const free = section.rows.filter((row) => !isUsed(row)).map(({ pin }) => pin)
      if (free.length === 0) return section
      const [first, ...rest] = section.idle ?? []
      const idle = [
        { state: first?.state ?? 'empty cavity', pins: [...(first?.pins ?? []), ...free] },
        ...rest,
      ]
      return { ...section, rows: section.rows.filter(isUsed), idle }
    })
    return { ...block, sections }
  }
  return { ...model, conductors, blocks: model.blocks.map(thinned) }
}

/** Conductors outside cables, some of them spread evenly over the drawing. */
export function someConductors({ conductors, trunks }: SheetModel, count: number): string[] {
  const inTrunk = new Set(trunks.flatMap((trunk) => trunk.conductors))
  const single = conductors.filter(({ id }) => !inTrunk.has(id)).map(({ id }) => id)
  const step = Math.max(1, single.length / count)
  return Array.from({ length: Math.min(count, single.length) }, (_, i) => single[Math.floor(i * step)] ?? '')
}
