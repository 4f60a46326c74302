import type { Arrangement } from './arrangement.ts'
import { planWiring, type WiringOptions } from './plan-wiring.ts'
import type { SheetModel } from './sheet-model.ts'
import { wiringPage } from './wiring-page.ts'

export interface DrawingOptions extends WiringOptions {
  /** `embedded` makes each drawing complete by itself; `shared` leaves font and style to the page. */
  readonly style?: 'embedded' | 'shared'
}

export interface DrawnSheet {
  /** Sheet number, from `1`. */
  readonly name: string
  readonly svg: string
}

export interface WiringStats {
  readonly sheets: number
  readonly conductors: number
  /** The smallest scale any sheet had to be drawn at; 1 is full size. */
  readonly scale: number
  readonly paper: string
}

export interface WiringDrawing {
  readonly sheets: readonly DrawnSheet[]
  readonly stats: WiringStats
  /** To be kept for the next time, when the description has changed a little. */
  readonly arranged: Arrangement
}

/**
 * Draws a wiring drawing on as many sheets as it needs to be read, each an SVG document in millimetres.
 * The same model gives the same bytes. The layout and document libraries are loaded only here.
 */
export async function drawWiring(model: SheetModel, options: DrawingOptions = {}): Promise<WiringDrawing> {
  const planned = await planWiring(model, options)
  const { pageSvg } = await import('./scene-page.ts')
  const sheets: DrawnSheet[] = planned.map((sheet) => ({
    name: sheet.name,
    svg: pageSvg(wiringPage(sheet, planned.length, model), options.style),
  }))
  return {
    sheets,
    arranged: planned.map(({ arranged }) => arranged),
    stats: {
      sheets: planned.length,
      conductors: model.conductors.length,
      scale: Math.min(1, ...planned.map((sheet) => sheet.scale)),
      paper: planned[0]?.paper.name ?? 'A4',
    },
  }
}
