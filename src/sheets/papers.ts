import type { Loom, LoomUse } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'
import { billOfMaterials } from './bill-of-materials.ts'
import { crimpSheet } from './crimp-sheet.ts'
import { cutList } from './cut-list.ts'
import { labelList } from './label-list.ts'
import { pinoutContext, pinoutTable } from './pinout-table.ts'
import { ringOut } from './ring-out.ts'
import type { Sheet } from './sheet.ts'
import { singleEnds } from './single-ends.ts'

/** Papers that a spreadsheet, a label printer or a tester reads as well as a person. */
export const CSV_PAPERS: ReadonlySet<string> = new Set([
  'cut-list',
  'label-list',
  'bill-of-materials',
  'ring-out',
])

/** Every working paper of one loom, in the order in which the bench uses them; pinout tables are made by {@link pinoutsOf}. */
export function papersOf(loom: Loom, use: LoomUse, solution: Solution | undefined): Sheet[] {
  return [
    billOfMaterials(loom, use),
    cutList(loom, use),
    crimpSheet(loom, use),
    ringOut(loom, use, solution),
    labelList(loom, use),
  ]
}

/** The pinout table of every plug of one loom, and one table for all its rings, tabs and tails. */
export function pinoutsOf(loom: Loom, use: LoomUse, context = pinoutContext(loom)): Sheet[] {
  const plugs = use.halves.filter((half) => half.pins.size > 1)
  const single = use.halves.filter((half) => half.pins.size <= 1)
  const tables = plugs.map((half) => pinoutTable(loom, half, context))
  return single.length === 0 ? tables : [...tables, singleEnds(loom, use, single, context)]
}
