import { UNITS_PER_MM } from './metrics.ts'
import type { Box } from './scene.ts'

export type PaperName = 'A4' | 'A3' | 'A2' | 'A1' | 'A0'

/** A trimmed sheet lying down, in millimetres (ISO 216), with its reference fields (ISO 5457). */
export interface Paper {
  readonly name: PaperName
  readonly wMm: number
  readonly hMm: number
  readonly columns: number
  readonly rows: number
}

export const PAPERS: readonly Paper[] = [
  { name: 'A4', wMm: 297, hMm: 210, columns: 6, rows: 4 },
  { name: 'A3', wMm: 420, hMm: 297, columns: 8, rows: 6 },
  { name: 'A2', wMm: 594, hMm: 420, columns: 12, rows: 8 },
  { name: 'A1', wMm: 841, hMm: 594, columns: 16, rows: 12 },
  { name: 'A0', wMm: 1189, hMm: 841, columns: 24, rows: 16 },
]

const BINDING_MM = 20
const BORDER_MM = 10
const FIELD_MM = 50
/** Letters of the rows, from the top; I and O are left out because they read as figures. */
const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ'

/** The drawing space inside the frame: 20 mm to the left for binding, 10 mm elsewhere (ISO 5457). */
export function frameOf(paper: Paper): Box {
  const u = UNITS_PER_MM
  return {
    x: BINDING_MM * u,
    y: BORDER_MM * u,
    w: (paper.wMm - BINDING_MM - BORDER_MM) * u,
    h: (paper.hMm - 2 * BORDER_MM) * u,
  }
}

/** Bounds of the reference fields along one side, 50 mm each from the middle of the sheet outwards. */
export function fieldBounds(lengthMm: number, fields: number): number[] {
  return Array.from(
    { length: fields + 1 },
    (_, i) => (lengthMm / 2 + (i - fields / 2) * FIELD_MM) * UNITS_PER_MM,
  )
}

export const rowLetter = (row: number): string => LETTERS[row] ?? '?'

/** The reference field a spot lies in, such as `C4`. */
export function zoneAt(paper: Paper, x: number, y: number): string {
  const index = (bounds: readonly number[], at: number) => {
    const found = bounds.findIndex((bound) => at < bound)
    return Math.min(Math.max(found < 0 ? bounds.length - 1 : found, 1), bounds.length - 1) - 1
  }
  const column = index(fieldBounds(paper.wMm, paper.columns), x)
  return `${rowLetter(index(fieldBounds(paper.hMm, paper.rows), y))}${column + 1}`
}
