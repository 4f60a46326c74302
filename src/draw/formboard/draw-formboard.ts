import type { Loom, LoomUse } from '../../resolve/loom.ts'
import { type LoomSheetOptions, titleOf } from '../loom-sheet.ts'
import type { ScenePage } from '../scene-page.ts'
import { boardItems } from './board-items.ts'
import { overviewPage } from './board-overview.ts'
import { boardPlan } from './board-plan.ts'
import { TILE_PAPERS, type TilePaper, tilePages } from './board-tiles.ts'
import { layBoard } from './lay-board.ts'

export interface Formboard {
  /** The whole board to scale on one sheet; undefined when there is nothing to lay. */
  readonly overview: ScenePage | undefined
  /** True size, row by row. */
  readonly tiles: readonly ScenePage[]
}

/** The formboard of one harness: an overview and, at true size, the sheets to nail to the board. Deterministic. */
export function drawFormboard(
  loom: Loom,
  use: LoomUse,
  options: LoomSheetOptions & { readonly paper?: TilePaper } = {},
): Formboard {
  const paper = options.paper ?? 'a4'
  const plan = boardPlan(loom, use)
  if (plan.branches.length === 0) return { overview: undefined, tiles: [] }
  const layout = layBoard(plan.branches)
  const block = titleOf(loom, use.harness, 'Formboard', options)
  const issue = [block.documentNo, block.revision, block.matchCode].filter(
    (part) => part !== undefined && part !== '',
  )
  const { grid, pages } = tilePages(boardItems(plan, layout, { ratio: 1, full: true }).items, paper, {
    title: block.title,
    issue: issue.join(' · '),
  })
  return { overview: overviewPage(plan, layout, grid, TILE_PAPERS[paper].name, block), tiles: pages }
}
