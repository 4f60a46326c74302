import { itemBounds } from '../item-bounds.ts'
import { lineMeetsBox } from '../label-room.ts'
import { UNITS_PER_MM } from '../metrics.ts'
import { type Box, type Item, line, type Point, text } from '../scene.ts'
import type { ScenePage } from '../scene-page.ts'
import { shorten } from '../text-width.ts'

/** Paper that office printers take, lying down, in mm (ISO 216; ANSI/ASME Y14.1 size A). */
export const TILE_PAPERS = {
  a4: { name: 'A4', wMm: 297, hMm: 210 },
  letter: { name: 'Letter', wMm: 279.4, hMm: 215.9 },
} as const
export type TilePaper = keyof typeof TILE_PAPERS

/** By how much neighbouring sheets show the same. */
export const OVERLAP_MM = 20
/** Printers leave an edge white. */
const MARGIN_MM = 10
/** Strip along the foot for the number of the sheet and the scale bar. */
const STRIP_MM = 15
const BAR_MM = 100

const mm = (value: number): number => value * UNITS_PER_MM

export interface TileGrid {
  /** The part of a sheet that shows the board, in page units. */
  readonly window: Box
  /** Board units from one sheet to the next. */
  readonly pitch: { readonly w: number; readonly h: number }
  /** Board units at the upper left corner of the first field; fields meet without overlap. */
  readonly origin: Point
  readonly columns: number
  readonly rows: number
  /** Fields with something on them, by row and then column, both from 1. */
  readonly used: readonly { readonly row: number; readonly column: number }[]
}

/** The field of a sheet: what it alone is answerable for. */
export function fieldBox(grid: TileGrid, row: number, column: number): Box {
  const { pitch, origin } = grid
  return { x: origin[0] + (column - 1) * pitch.w, y: origin[1] + (row - 1) * pitch.h, w: pitch.w, h: pitch.h }
}

interface Range {
  readonly from: number
  readonly to: number
}

const rangeOf = (low: number, high: number, origin: number, pitch: number): Range => ({
  from: Math.floor((low - origin) / pitch),
  to: Math.floor((high - origin) / pitch),
})

/** Fields an item lies on. Lines are followed piece by piece: the hull of a slanted branch would take in empty sheets. */
function fieldsUnder(
  item: Item,
  grid: Pick<TileGrid, 'origin' | 'pitch'>,
  mark: (row: number, column: number) => void,
): void {
  if (item.kind === 'group') {
    for (const inner of item.items) fieldsUnder(inner, grid, mark)
    return
  }
  const visit = (hull: Box, touches: (box: Box) => boolean) => {
    const { origin, pitch } = grid
    const columns = rangeOf(hull.x, hull.x + hull.w, origin[0], pitch.w)
    const rows = rangeOf(hull.y, hull.y + hull.h, origin[1], pitch.h)
    for (let r = rows.from; r <= rows.to; r += 1)
      for (let c = columns.from; c <= columns.to; c += 1)
        if (touches({ x: origin[0] + c * pitch.w, y: origin[1] + r * pitch.h, w: pitch.w, h: pitch.h }))
          mark(r + 1, c + 1)
  }
  if (item.kind === 'line' || item.kind === 'wire')
    for (const [i, b] of item.points.slice(1).entries()) {
      const a = item.points[i] ?? b
      const hull = itemBounds([{ ...item, kind: 'line', className: '', points: [a, b] }])
      if (hull) visit(hull, (box) => lineMeetsBox([a, b], box))
    }
  else {
    const hull = itemBounds([item])
    if (hull) visit(hull, () => true)
  }
}

/** How a board is cut into sheets. Every bit of it lies on exactly one field; sheets without anything are left out. */
export function tileGrid(items: readonly Item[], paper: TilePaper): TileGrid {
  const { wMm, hMm } = TILE_PAPERS[paper]
  const window: Box = {
    x: mm(MARGIN_MM),
    y: mm(MARGIN_MM),
    w: mm(wMm - 2 * MARGIN_MM),
    h: mm(hMm - 2 * MARGIN_MM - STRIP_MM),
  }
  const pitch = { w: window.w - mm(OVERLAP_MM), h: window.h - mm(OVERLAP_MM) }
  const bounds = itemBounds(items) ?? { x: 0, y: 0, w: 1, h: 1 }
  const columns = Math.floor((bounds.w + mm(6)) / pitch.w) + 1
  const rows = Math.floor((bounds.h + mm(6)) / pitch.h) + 1
  const origin: Point = [
    bounds.x - (columns * pitch.w - bounds.w) / 2,
    bounds.y - (rows * pitch.h - bounds.h) / 2,
  ]
  const seen = new Set<string>()
  for (const item of items)
    fieldsUnder(item, { origin, pitch }, (row, column) => seen.add(`${row},${column}`))
  const used = [...seen]
    .map((key) => key.split(',').map(Number) as [number, number])
    .sort((a, b) => a[0] - b[0] || a[1] - b[1])
    .map(([row, column]) => ({ row, column }))
  return { window, pitch, origin, columns, rows, used }
}

/** A cross in a circle, on each corner of the field; sheets are laid so that the marks of neighbours cover each other. */
function registrationMark([x, y]: Point): Item[] {
  const r = mm(3)
  const ring = Array.from(
    { length: 25 },
    (_, i): Point => [x + r * Math.cos((i / 12) * Math.PI), y + r * Math.sin((i / 12) * Math.PI)],
  )
  return [
    line('lw-rule', [x - mm(5), y], [x + mm(5), y]),
    line('lw-rule', [x, y - mm(5)], [x, y + mm(5)]),
    line('lw-rule', ...ring),
  ]
}

function scaleBar(x: number, y: number): Item[] {
  const items: Item[] = []
  for (let i = 0; i < 10; i += 1)
    items.push({
      kind: 'rect',
      className: i % 2 === 0 ? 'lw-ink' : 'lw-paper',
      x: x + mm(i * 10),
      y,
      w: mm(10),
      h: mm(2),
    })
  items.push(
    line('lw-bold', [x, y - mm(1.5)], [x, y + mm(3.5)]),
    line('lw-bold', [x + mm(BAR_MM), y - mm(1.5)], [x + mm(BAR_MM), y + mm(3.5)]),
  )
  return items
}

export interface TileWords {
  readonly title: string
  /** Document number, revision and issue code. */
  readonly issue: string
}

function furniture(grid: TileGrid, row: number, column: number, number: number, words: TileWords): Item[] {
  const { window, used } = grid
  const inset = mm(OVERLAP_MM / 2)
  const [x0, y0] = [window.x + inset, window.y + inset]
  const [x1, y1] = [window.x + window.w - inset, window.y + window.h - inset]
  const there = (r: number, c: number) => used.some((one) => one.row === r && one.column === c)
  const beside = [
    ['left', row, column - 1],
    ['right', row, column + 1],
    ['above', row - 1, column],
    ['below', row + 1, column],
  ] as const
  const neighbours = beside.flatMap(([side, r, c]) => (there(r, c) ? [`${side} ${r}/${c}`] : []))
  const foot = window.y + window.h
  const half = window.w - mm(BAR_MM + 12)
  return [
    { kind: 'rect', className: 'lw-rule', ...window },
    { kind: 'rect', className: 'lw-dash', x: x0, y: y0, w: x1 - x0, h: y1 - y0 },
    ...[x0, x1].flatMap((x) => [y0, y1].flatMap((y) => registrationMark([x, y]))),
    text(
      window.x,
      foot + mm(5),
      shorten(`Row ${row} · column ${column}   ${words.title}`, half, 16, 'bold'),
      { size: 'title', bold: true },
    ),
    text(
      window.x,
      foot + mm(9.5),
      shorten(
        `Sheet ${number} of ${used.length} · joins ${neighbours.join(', ') || 'none'} · ${words.issue}`,
        half,
        11.6,
      ),
      { size: 'small' },
    ),
    text(
      window.x,
      foot + mm(13.5),
      shorten(
        'Print at 100 %. Lay sheets so that dashed edges and marks meet. The bar must measure 100 mm.',
        half,
        11.6,
      ),
      { size: 'small' },
    ),
    ...scaleBar(window.x + window.w - mm(BAR_MM + 4), foot + mm(5)),
    text(window.x + window.w - mm(BAR_MM / 2 + 4), foot + mm(12.5), '100 mm', {
      anchor: 'middle',
      bold: true,
    }),
  ]
}

const touches = (item: Item, box: Box): boolean => {
  const hull = itemBounds([item])
  return (
    hull !== undefined &&
    hull.x <= box.x + box.w &&
    box.x <= hull.x + hull.w &&
    hull.y <= box.y + box.h &&
    box.y <= hull.y + hull.h
  )
}

/** The board at true size on as many sheets as it takes, row by row. */
export function tilePages(
  items: readonly Item[],
  paper: TilePaper,
  words: TileWords,
): { grid: TileGrid; pages: ScenePage[] } {
  const grid = tileGrid(items, paper)
  const { wMm, hMm, name } = TILE_PAPERS[paper]
  const inset = mm(OVERLAP_MM / 2)
  const pages = grid.used.map(({ row, column }, i): ScenePage => {
    const field = fieldBox(grid, row, column)
    const shown: Box = { x: field.x - inset, y: field.y - inset, w: grid.window.w, h: grid.window.h }
    return {
      name: `row ${row} column ${column}`,
      wMm,
      hMm,
      title: `Formboard: ${words.title}, row ${row}, column ${column}`,
      description: `True size on ${name}. Sheet ${i + 1} of ${grid.used.length}.`,
      layers: [
        {
          items: items.filter((item) => touches(item, shown)),
          at: [grid.window.x - shown.x, grid.window.y - shown.y],
          scale: 1,
          clip: grid.window,
          className: 'lw-drawing',
        },
        {
          items: furniture(grid, row, column, i + 1, words),
          at: [0, 0],
          scale: 1,
          className: 'lw-furniture',
        },
      ],
    }
  })
  return { grid, pages }
}
