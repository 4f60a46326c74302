import { TEXT, type TextSize, UNITS_PER_MM } from './metrics.ts'
import { type Box, type Item, line, text } from './scene.ts'
import type { TitleBlock } from './sheet-model.ts'
import { shorten } from './text-width.ts'

/** 180 mm is the width ISO 7200 gives. */
const WIDTH = 180 * UNITS_PER_MM
const ROW = 8 * UNITS_PER_MM
const ROWS = 4

/** Height of the band along the foot of a sheet that holds title block, colour key and notes. */
export const BAND_HEIGHT = ROWS * ROW

interface Field {
  readonly caption: string
  readonly value: string | undefined
  readonly mm: number
  readonly size?: TextSize
}

function fieldsOf(block: TitleBlock, sheet: number, sheets: number): Field[][] {
  return [
    [
      { caption: 'Owner', value: block.owner, mm: 70 },
      { caption: 'Document type', value: block.documentType, mm: 62 },
      { caption: 'Status', value: block.status, mm: 48 },
    ],
    [
      { caption: 'Title', value: block.title, mm: 118, size: 'title' },
      { caption: 'Document no.', value: block.documentNo, mm: 62 },
    ],
    [
      { caption: 'Supplementary title', value: block.supplement, mm: 118 },
      { caption: 'Rev.', value: block.revision, mm: 14 },
      { caption: 'Date of issue', value: block.date, mm: 28 },
      { caption: 'Sheet', value: `${sheet}/${sheets}`, mm: 20 },
    ],
    [
      { caption: 'Created by', value: block.createdBy, mm: 48 },
      { caption: 'Approved by', value: block.approvedBy, mm: 48 },
      { caption: 'Scale', value: block.scale ?? 'none', mm: 22 },
      { caption: 'Issue code: papers with another code do not match', value: block.matchCode, mm: 62 },
    ],
  ]
}

/** The title block (ISO 7200) in the lower right corner of the drawing space. */
export function titleBlock(frame: Box, block: TitleBlock, sheet: number, sheets: number): Item[] {
  const x0 = frame.x + frame.w - WIDTH
  const y0 = frame.y + frame.h - BAND_HEIGHT
  const items: Item[] = [{ kind: 'rect', className: 'lw-box', x: x0, y: y0, w: WIDTH, h: BAND_HEIGHT }]
  for (const [r, fields] of fieldsOf(block, sheet, sheets).entries()) {
    const y = y0 + r * ROW
    if (r > 0) items.push(line('lw-rule', [x0, y], [x0 + WIDTH, y]))
    let x = x0
    for (const [i, field] of fields.entries()) {
      if (i > 0) items.push(line('lw-rule', [x, y], [x, y + ROW]))
      const room = field.mm * UNITS_PER_MM - 10
      const size = field.size ?? 'label'
      const value = shorten(field.value ?? '', room, TEXT[size], 'bold')
      items.push(text(x + 5, y + 10.5, shorten(field.caption, room, TEXT.caption), { size: 'caption' }))
      items.push(text(x + 5, y + 26.5, value, { size, bold: true, full: field.value ?? '' }))
      x += field.mm * UNITS_PER_MM
    }
  }
  return items
}
