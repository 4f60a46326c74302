import * as z from 'zod'
import { idText } from './name-schema.ts'
import { lengthText } from './quantity-schema.ts'

/** Sheets people print on, portrait, in mm: ISO 216 A4 and ANSI/ASME Y14.1 size A. */
export const PAPER_MM = {
  a4: { widthMm: 210, heightMm: 297 },
  letter: { widthMm: 215.9, heightMm: 279.4 },
} as const

const MIN_WIDTH_MM = 12
const MIN_HEIGHT_MM = 6

/** One kind of label sheet, lengths in mm. */
export interface LabelStock {
  readonly id: string
  readonly paper: keyof typeof PAPER_MM
  readonly rows: number
  readonly columns: number
  readonly top: number
  readonly bottom?: number | undefined
  readonly left: number
  readonly right?: number | undefined
  readonly across?: number | undefined
  readonly down?: number | undefined
}

const round = (mm: number): number => Math.round(mm * 10) / 10

/** Size of one label of a stock in mm. */
export function cellOf(stock: LabelStock): { readonly widthMm: number; readonly heightMm: number } {
  const paper = PAPER_MM[stock.paper]
  const wide =
    paper.widthMm - stock.left - (stock.right ?? stock.left) - (stock.columns - 1) * (stock.across ?? 0)
  const high = paper.heightMm - stock.top - (stock.bottom ?? stock.top) - (stock.rows - 1) * (stock.down ?? 0)
  return { widthMm: wide / stock.columns, heightMm: high / stock.rows }
}

/** Gridded sheets of labels as their box states them: how many, and where the first one begins. */
export const labelStock = z
  .strictObject({
    id: idText('Name of the stock, as on the box in the shop.', 'wrap-a4'),
    paper: z.enum(['a4', 'letter']).meta({ description: 'Sheet they are on.' }),
    rows: z.number().int().min(1).max(60),
    columns: z.number().int().min(1).max(20),
    top: lengthText('From the edge of the sheet to the first row.', '13 mm'),
    bottom: lengthText('Below the last row; as the top when left out.', '13 mm').optional(),
    left: lengthText('From the edge of the sheet to the first column.', '8 mm'),
    right: lengthText('Beside the last column; as the left when left out.', '8 mm').optional(),
    across: lengthText('Gap between columns; none when left out.', '2.5 mm').optional(),
    down: lengthText('Gap between rows; none when left out.', '0 mm').optional(),
  })
  .refine((stock) => cellOf(stock).widthMm >= MIN_WIDTH_MM && cellOf(stock).heightMm >= MIN_HEIGHT_MM, {
    error: ({ input }) => {
      const { widthMm, heightMm } = cellOf(input as LabelStock)
      return `a label of this stock would be ${round(widthMm)} × ${round(heightMm)} mm, and one has to be at least ${MIN_WIDTH_MM} × ${MIN_HEIGHT_MM} mm: look at rows, columns, margins and gaps again`
    },
  })
  .meta({ id: 'LabelStock' })
