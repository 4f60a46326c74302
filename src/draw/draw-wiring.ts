import { UNITS_PER_MM } from './metrics.ts'
import { type PlannedSheet, planWiring, type WiringOptions } from './plan-wiring.ts'
import type { SheetModel } from './sheet-model.ts'
import { drawItem, drawingCss, drawingFontCss, num } from './svg-text.ts'

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
}

async function sheetSvg(
  sheet: PlannedSheet,
  sheets: number,
  model: SheetModel,
  style: 'embedded' | 'shared',
) {
  const { svgDocument } = await import('./svg-document.ts')
  const { paper, scale, at, drawing } = sheet
  const move = `translate(${num(at[0])} ${num(at[1])})${scale === 1 ? '' : ` scale(${Math.round(scale * 1e4) / 1e4})`}`
  const w = paper.wMm * UNITS_PER_MM
  const h = paper.hMm * UNITS_PER_MM
  const body = [
    `<rect class="lw-sheet" width="${w}" height="${h}"/>`,
    `<g class="lw-furniture">${sheet.furniture.map(drawItem).join('\n')}</g>`,
    `<g class="lw-drawing" transform="${move}">${drawing.items.map(drawItem).join('\n')}</g>`,
  ].join('\n')
  const { titleBlock } = model
  return svgDocument({
    width: `${paper.wMm}mm`,
    height: `${paper.hMm}mm`,
    viewBox: { w, h },
    title: `${titleBlock.documentType}: ${titleBlock.title}${sheets > 1 ? `, sheet ${sheet.name} of ${sheets}` : ''}`,
    description: `${sheet.conductors} conductors between ${model.blocks.length} blocks. The pin tables say the same in words.`,
    css: style === 'embedded' ? drawingFontCss() + drawingCss() : '',
    body,
  })
}

/**
 * Draws a wiring drawing on as many sheets as it needs to be read, each an SVG document in millimetres.
 * The same model gives the same bytes. The layout and document libraries are loaded only here.
 */
export async function drawWiring(model: SheetModel, options: DrawingOptions = {}): Promise<WiringDrawing> {
  const planned = await planWiring(model, options)
  const sheets: DrawnSheet[] = []
  for (const sheet of planned)
    sheets.push({
      name: sheet.name,
      svg: await sheetSvg(sheet, planned.length, model, options.style ?? 'embedded'),
    })
  return {
    sheets,
    stats: {
      sheets: planned.length,
      conductors: model.conductors.length,
      scale: Math.min(1, ...planned.map((sheet) => sheet.scale)),
      paper: planned[0]?.paper.name ?? 'A4',
    },
  }
}
