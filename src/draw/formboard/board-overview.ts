import { formatLength } from '../../base/format-quantity.ts'
import { itemBounds } from '../item-bounds.ts'
import type { LabelRoom } from '../label-room.ts'
import { TEXT, UNITS_PER_MM } from '../metrics.ts'
import { frameOf, PAPERS, type Paper } from '../paper.ts'
import { type Box, type Item, text } from '../scene.ts'
import type { ScenePage } from '../scene-page.ts'
import { sheetFrame } from '../sheet-frame.ts'
import type { TitleBlock } from '../sheet-model.ts'
import { textWidth, wrapText } from '../text-width.ts'
import { BAND_HEIGHT, titleBlock } from '../title-block.ts'
import { boardItems, type DrawnBoard } from './board-items.ts'
import type { BoardPlan } from './board-plan.ts'
import { fieldBox, type TileGrid } from './board-tiles.ts'
import type { BoardLayout } from './lay-board.ts'

/** Reduction scales of ISO 5455, and steps between them so that no sheet stays half empty. */
const RATIOS = [
  1, 2, 2.5, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 500, 1000, 2000, 5000, 1e4, 1e5, 1e6,
]
const TITLE_WIDTH = 180 * UNITS_PER_MM
const LINE = 14

interface Fitted {
  readonly paper: Paper
  readonly ratio: number
  readonly drawn: DrawnBoard
  readonly bounds: Box
}

function areaOf(paper: Paper): Box {
  const frame = frameOf(paper)
  const pad = 4 * UNITS_PER_MM
  return { x: frame.x + pad, y: frame.y + pad, w: frame.w - 2 * pad, h: frame.h - BAND_HEIGHT - 3 * pad }
}

/** The largest scale that fits on a paper; undefined when not even the smallest does. */
function fitOn(paper: Paper, plan: BoardPlan, layout: BoardLayout): Fitted | undefined {
  const area = areaOf(paper)
  const reach = Math.hypot(area.w, area.h) / UNITS_PER_MM
  const longest = layout.branches.reduce((most, { branch }) => Math.max(most, branch.length), 0)
  for (const ratio of RATIOS) {
    // What is longer than the sheet from corner to corner need not be drawn to know that it does not fit.
    if (longest / ratio > reach) continue
    const drawn = boardItems(plan, layout, { ratio, full: false })
    const bounds = itemBounds(drawn.items) ?? { x: 0, y: 0, w: 1, h: 1 }
    if (bounds.w <= area.w && bounds.h <= area.h) return { paper, ratio, drawn, bounds }
  }
  return undefined
}

/** A3 when every name and length finds room on it, else A2, which prints on A3 and can still be read. */
function smallestPaper(plan: BoardPlan, layout: BoardLayout): Fitted | undefined {
  let best: Fitted | undefined
  for (const paper of PAPERS.slice(1, 3)) {
    const fitted = fitOn(paper, plan, layout)
    if (!fitted) continue
    best = fitted
    if (fitted.drawn.unplaced.length === 0) return fitted
  }
  return best
}

/** Fields of the true-size sheets, with row and column where there is room, so that a sheet is found. */
function gridItems(grid: TileGrid, ratio: number, room: LabelRoom): Item[] {
  return grid.used.flatMap(({ row, column }): Item[] => {
    const field = fieldBox(grid, row, column)
    const [x, y, w, h] = [field.x, field.y, field.w, field.h].map((value) => value / ratio) as Quad
    const tag = `${row}/${column}`
    const width = textWidth(tag, TEXT.caption)
    const free =
      width + 6 < w && TEXT.caption < h && room.isFree({ x: x + 2, y: y + 2, w: width + 2, h: TEXT.caption })
    return [
      { kind: 'rect', className: 'lw-thin', x, y, w, h },
      ...(free ? [text(x + 3, y + 10.5, tag, { size: 'caption' })] : []),
    ]
  })
}

type Quad = [number, number, number, number]

function notesOf(
  plan: BoardPlan,
  layout: BoardLayout,
  grid: TileGrid,
  paperName: string,
  unplaced: readonly string[],
): string[] {
  return [
    `Longest path ${formatLength(layout.longestMm)}: ${layout.longest[0] ?? ''} to ${layout.longest.at(-1) ?? ''}. Total of all branches ${formatLength(layout.totalMm)}.`,
    `Lengths in mm, from breakout to wire entry; tolerances on the true-size sheets. Datum 0 is ${layout.longest[0] ?? ''}.`,
    grid.used.length > 0
      ? `Thin fields are the ${grid.used.length} true-size sheets (${paperName}), ${grid.rows} rows by ${grid.columns} columns, counted from the upper left.`
      : 'Too long for true-size sheets: it would take thousands of them.',
    ...(plan.derived
      ? [
          'Derived from wire lengths, which do not say where breakouts are; give branches to fix it. Wires between two tails may not fit.',
        ]
      : []),
    ...(plan.missing.length > 0
      ? [`Not on the board, because no branch reaches it: ${plan.missing.join(', ')}.`]
      : []),
    ...(plan.looped.length > 0 ? [`Left out, because it closes a loop: ${plan.looped.join(', ')}.`] : []),
    ...(unplaced.length > 0
      ? [`Too close together to be named here; see the true-size sheets: ${unplaced.join('; ')}.`]
      : []),
  ]
}

/** The whole board on one sheet, to scale, with names, lengths, and where the true-size sheets lie. */
export function overviewPage(
  plan: BoardPlan,
  layout: BoardLayout,
  grid: TileGrid,
  paperName: string,
  block: TitleBlock,
): ScenePage | undefined {
  const fitted = smallestPaper(plan, layout)
  if (!fitted) return undefined
  const { paper, ratio, drawn, bounds } = fitted
  const frame = frameOf(paper)
  const area = areaOf(paper)
  const at = [
    area.x + (area.w - bounds.w) / 2 - bounds.x,
    area.y + (area.h - bounds.h) / 2 - bounds.y,
  ] as const
  const tiles = gridItems(grid, ratio, drawn.room)
  const top = frame.y + frame.h - BAND_HEIGHT
  const width = frame.w - TITLE_WIDTH - 24
  const notes = notesOf(plan, layout, grid, paperName, drawn.unplaced).flatMap((note) =>
    wrapText(note, width, TEXT.small),
  )
  return {
    name: 'overview',
    wMm: paper.wMm,
    hMm: paper.hMm,
    title: `${block.documentType}: ${block.title}`,
    description: `Scale 1:${ratio}. Longest path ${formatLength(layout.longestMm)}, total ${formatLength(layout.totalMm)}.`,
    layers: [
      {
        items: [
          ...sheetFrame(paper),
          ...titleBlock(frame, { ...block, scale: `1:${ratio}` }, 1, 1),
          ...notes
            .slice(0, Math.floor(BAND_HEIGHT / LINE))
            .map((words, i) => text(frame.x + 12, top + 12 + i * LINE, words, { size: 'small' })),
        ],
        at: [0, 0],
        scale: 1,
        className: 'lw-furniture',
      },
      { items: tiles, at, scale: 1, clip: area },
      { items: drawn.items, at, scale: 1, className: 'lw-drawing' },
    ],
  }
}
