import { csvRecord } from '../base/escape.ts'
import { cellOf, type LabelStock, PAPER_MM } from '../describe/label-stock.ts'
import { textWidth, wrapText } from '../draw/text-width.ts'
import { TEXT_MM } from '../solve/formulas/label-size.ts'
import { type Label, LINE } from './labels.ts'
import { qrModules, qrSide } from './qr.ts'

/** Plain sheets to print and cut up, for a shop that names no stock. */
export const PLAIN_STOCK: readonly LabelStock[] = [
  { id: 'plain-a4', paper: 'a4', rows: 12, columns: 3, top: 13, left: 8 },
  { id: 'plain-letter', paper: 'letter', rows: 11, columns: 3, top: 13, left: 8 },
]

/** Height of capitals over the text size in the drawing font. */
const CAPITALS = 0.698
/** Text size whose capitals are as high as a label needs. */
export const TEXT_SIZE_MM = TEXT_MM / CAPITALS
const LINE_MM = TEXT_MM * LINE
const PADDING_MM = 1.2
/** Four dots of a 300 dpi printer: what a phone still reads when the print is rubbed; common practice. */
export const MIN_MODULE_MM = 0.33
/** Text beside a code needs room for a few words. */
const MIN_TEXT_MM = 18

/** One label in its place on a sheet, in mm. */
export interface LabelCell {
  readonly label: Label
  readonly leftMm: number
  readonly topMm: number
  readonly first: string
  readonly lines: readonly string[]
  /** Whether all of its words are on it: a text cut short says something else, and is not printed. */
  readonly fits: boolean
  readonly qr: boolean
}

export interface LabelSheet {
  readonly stock: LabelStock
  readonly widthMm: number
  readonly heightMm: number
  readonly cellWidthMm: number
  readonly cellHeightMm: number
  /** Side of a code with its quiet zone; 0 where it would print too small to be read. */
  readonly qrMm: number
  readonly moduleMm: number
  readonly pages: readonly (readonly LabelCell[])[]
}

/** Texts that go on a sheet: sleeves are printed one by one from the CSV. */
export const onSheets = (labels: readonly Label[]): Label[] =>
  labels.filter(({ kind }) => kind !== 'heat-shrink')

/** Lays labels out on sheets of one stock, row by row. `code` is what the QR code says. */
export function labelSheet(
  labels: readonly Label[],
  stock: LabelStock,
  revision: string,
  code: string,
): LabelSheet {
  const { widthMm, heightMm } = cellOf(stock)
  const modules = qrModules(code)
  const room = Math.min(heightMm - 0.8, widthMm - MIN_TEXT_MM - 2 * PADDING_MM)
  const moduleMm = modules === undefined ? 0 : room / qrSide(modules)
  const qrMm = moduleMm >= MIN_MODULE_MM ? room : 0
  const perPage = stock.rows * stock.columns
  const all = onSheets(labels).flatMap((label) => Array.from({ length: label.copies }, () => label))
  const pages = Array.from({ length: Math.ceil(all.length / perPage) }, (_, page) =>
    all.slice(page * perPage, (page + 1) * perPage).map((label, index) => ({
      ...textOf(label, revision, widthMm, heightMm, qrMm),
      leftMm: stock.left + (index % stock.columns) * (widthMm + (stock.across ?? 0)),
      topMm: stock.top + Math.floor(index / stock.columns) * (heightMm + (stock.down ?? 0)),
    })),
  )
  return {
    stock,
    ...PAPER_MM[stock.paper],
    cellWidthMm: widthMm,
    cellHeightMm: heightMm,
    qrMm,
    moduleMm,
    pages,
  }
}

function textOf(label: Label, revision: string, widthMm: number, heightMm: number, qrMm: number) {
  // A wrap goes round a wire, where no phone reads a code.
  const qr = qrMm > 0 && label.kind !== 'wrap'
  const room = widthMm - 2 * PADDING_MM - (qr ? qrMm : 0)
  const most = Math.floor((heightMm - PADDING_MM) / LINE_MM)
  const first = label.kind === 'wrap' || revision === '' ? label.id : `${label.id} rev ${revision}`
  const lines = [label.text.line1, label.text.line2]
    .filter((text) => text !== '')
    .flatMap((text) => wrapText(text, room, TEXT_SIZE_MM))
  const words = [label.text.line1, label.text.line2].join(' ').split(/\s+/)
  const fits =
    lines.length + 1 <= most &&
    textWidth(first, TEXT_SIZE_MM, 'bold') <= room &&
    words.every((word) => textWidth(word, TEXT_SIZE_MM) <= room)
  return { label, first, lines: fits ? lines : [], fits, qr }
}

const HEADINGS = [
  'Label',
  'Kind',
  'Number',
  'Line 1',
  'Line 2',
  'Text',
  'Where',
  'Width (mm)',
  'Text height (mm)',
  'Copies',
  'QR',
  'Harness',
  'Revision',
  'Match code',
  'Problem',
] as const

/** Label texts for a label printer: one record a label (RFC 4180, UTF-8), no field that a spreadsheet would run. */
export function labelCsv(
  labels: readonly Label[],
  issue: {
    readonly harness: string
    readonly revision: string
    readonly match: string
    readonly code: string
  },
): string {
  const records = labels.map((label, index) => [
    String(index + 1),
    label.kindText,
    label.id,
    label.text.line1,
    label.text.line2,
    label.text.text,
    label.where,
    String(label.widthMm),
    String(label.heightMm),
    String(label.copies),
    label.kind === 'wrap' || label.kind === 'heat-shrink' ? '' : issue.code,
    issue.harness,
    issue.revision,
    issue.match,
    label.problems.join('; '),
  ])
  return [[...HEADINGS], ...records].map((record) => csvRecord(record)).join('')
}
