import { drawFormboardOverview } from '../draw/formboard/draw-formboard.ts'
import { drawDiagram } from '../draw/installation-diagram/draw-diagram.ts'
import type { LoomSheetOptions } from '../draw/loom-sheet.ts'
import { pageSvg } from '../draw/scene-page.ts'
import type { Loom, LoomUse } from '../resolve/loom.ts'

/** The formboard of a harness on one sheet, as its page shows it; undefined where nothing can be laid. */
export function formboardOverview(loom: Loom, use: LoomUse, options: LoomSheetOptions): string | undefined {
  const overview = drawFormboardOverview(loom, use, options)
  return overview && pageSvg(overview, 'shared')
}

/** The diagram of an installation, as its page shows it; undefined where nothing is installed. */
export async function diagramPicture(loom: Loom, options: LoomSheetOptions): Promise<string | undefined> {
  const page = await drawDiagram(loom, options)
  return page && pageSvg(page, 'shared')
}
