import type { Loom, LoomUse } from '../../resolve/loom.ts'
import { type LoomSheetOptions, titleOf } from '../loom-sheet.ts'
import type { Item } from '../scene.ts'
import type { ScenePage } from '../scene-page.ts'
import type { TitleBlock } from '../sheet-model.ts'
import { boardItems } from './board-items.ts'
import { overviewPage } from './board-overview.ts'
import { boardPlan } from './board-plan.ts'
import { TILE_PAPERS, type TileGrid, type TilePaper, tileGrid, tilePages } from './board-tiles.ts'
import { layBoard } from './lay-board.ts'

export interface Formboard {
  /** The whole board to scale on one sheet; undefined when there is nothing to lay. */
  readonly overview: ScenePage | undefined
  /** True size, row by row; none of a board too large for it. */
  readonly tiles: readonly ScenePage[]
}

/** A board with more loom than this takes thousands of sheets, which nobody tapes together; it has its overview alone. */
const MOST_TILED_MM = 300_000

interface Prepared {
  readonly items: readonly Item[]
  readonly block: TitleBlock
  readonly overview: (grid: TileGrid) => ScenePage | undefined
}

function prepare(
  loom: Loom,
  use: LoomUse,
  options: LoomSheetOptions,
  paper: TilePaper,
): Prepared | undefined {
  const plan = boardPlan(loom, use, options.flags)
  if (plan.branches.length === 0) return undefined
  const layout = layBoard(plan.branches)
  const block = titleOf(loom, use.harness, 'Formboard', options)
  return {
    items: layout.totalMm > MOST_TILED_MM ? [] : boardItems(plan, layout, { ratio: 1, full: true }).items,
    block,
    overview: (grid) => overviewPage(plan, layout, grid, TILE_PAPERS[paper].name, block),
  }
}

/** The formboard of one harness: an overview and, at true size, the sheets to nail to the board. Deterministic. */
export function drawFormboard(
  loom: Loom,
  use: LoomUse,
  options: LoomSheetOptions & { readonly paper?: TilePaper } = {},
): Formboard {
  const paper = options.paper ?? 'a4'
  const ready = prepare(loom, use, options, paper)
  if (!ready) return { overview: undefined, tiles: [] }
  const { block, items, overview } = ready
  const issue = [block.documentNo, block.revision, block.matchCode].filter(
    (part) => part !== undefined && part !== '',
  )
  if (items.length === 0) return { overview: overview(tileGrid(items, paper)), tiles: [] }
  const { grid, pages } = tilePages(items, paper, { title: block.title, issue: issue.join(' · ') })
  return { overview: overview(grid), tiles: pages }
}

/** The overview alone, without the work of cutting the board into sheets. */
export function drawFormboardOverview(
  loom: Loom,
  use: LoomUse,
  options: LoomSheetOptions = {},
): ScenePage | undefined {
  const ready = prepare(loom, use, options, 'a4')
  return ready?.overview(tileGrid(ready.items, 'a4'))
}
