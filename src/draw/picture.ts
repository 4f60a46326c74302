import type { Arrangement } from './arrangement.ts'
import { drawWiring } from './draw-wiring.ts'
import type { DiagramModel } from './installation-diagram/diagram-model.ts'
import { drawDiagramModel } from './installation-diagram/draw-diagram.ts'
import type { LayoutEngine } from './layout-engine.ts'
import { pageSvg } from './scene-page.ts'
import type { SheetModel, TitleBlock } from './sheet-model.ts'

/** Everything that a laid-out picture of a page is drawn from, as plain data: it can be kept by its content and drawn anywhere. */
export type Picture =
  | { readonly kind: 'wiring'; readonly model: SheetModel; readonly keep: Arrangement }
  | { readonly kind: 'diagram'; readonly model: DiagramModel; readonly title: TitleBlock }

/** A picture as SVG, one for each sheet, and how a wiring drawing came to be arranged. */
export interface Drawn {
  readonly sheets: readonly string[]
  readonly arranged?: Arrangement
}

/**
 * Draws a picture as a page shows it, one SVG a sheet; none where there is nothing to show. Deterministic.
 * Throws when the layout library fails.
 */
export async function drawPicture(picture: Picture, engine?: LayoutEngine): Promise<Drawn> {
  if (picture.kind === 'diagram') {
    const page = await drawDiagramModel(picture.model, picture.title, engine)
    return { sheets: page ? [pageSvg(page, 'shared')] : [] }
  }
  const { model, keep } = picture
  const { sheets, arranged } = await drawWiring(model, {
    style: 'shared',
    keep,
    ...(engine ? { engine } : {}),
  })
  return { sheets: sheets.map(({ svg }) => svg), arranged }
}
