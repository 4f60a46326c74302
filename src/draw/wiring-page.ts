import type { PlannedSheet } from './plan-wiring.ts'
import type { ScenePage } from './scene-page.ts'
import type { SheetModel } from './sheet-model.ts'

/** A planned sheet as a page. */
export function wiringPage(
  sheet: PlannedSheet,
  sheets: number,
  { titleBlock, blocks }: SheetModel,
): ScenePage {
  const { paper, scale, at, drawing, furniture } = sheet
  return {
    name: `sheet ${sheet.name}`,
    wMm: paper.wMm,
    hMm: paper.hMm,
    title: `${titleBlock.documentType}: ${titleBlock.title}${sheets > 1 ? `, sheet ${sheet.name} of ${sheets}` : ''}`,
    description: `${sheet.conductors} conductors between ${blocks.length} blocks. The pin tables say the same in words.`,
    layers: [
      { items: furniture, at: [0, 0], scale: 1, className: 'lw-furniture' },
      { items: drawing.items, at, scale, className: 'lw-drawing' },
    ],
  }
}
