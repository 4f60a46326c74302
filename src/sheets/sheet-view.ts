import { type HeadLineView, headView, issueLine, runningLine } from './head-view.ts'
import { qrMarkup } from './qr.ts'
import { cellOf, columnTitle, type Row, type Sheet } from './sheet.ts'
import type { Markup } from './templates.ts'

const MOST_ON_ONE_LINE = 24

/** A cell as templates print it: with the heading it needs when a phone stacks the row as a card. */
export interface CellView {
  readonly text: string
  /** Where the text leads; empty for nowhere. */
  readonly href: string
  readonly heading: string
  readonly number: boolean
  readonly tick: boolean
  readonly fill: boolean
  readonly lead: boolean
  readonly empty: boolean
  /** Short enough to stand on one line of a wide table. */
  readonly short: boolean
}

export interface RowView {
  /** Anchor of the row; empty when another row of the page has it. */
  readonly id: string
  /** Address of what the row is about; empty where the row has no anchor. */
  readonly at: string
  readonly attention: boolean
  readonly cells: readonly CellView[]
}

/** A paper as the templates see it. Every field is always there, so that strict templates can ask for it. */
export interface SheetView {
  readonly id: string
  readonly title: string
  readonly use: string
  readonly subject: string
  readonly match: string
  /** One line for the top of every printed page. */
  readonly running: string
  readonly head: readonly HeadLineView[]
  readonly qr: Markup
  readonly headings: readonly { readonly text: string; readonly number: boolean }[]
  readonly width: number
  readonly sections: readonly {
    readonly title: string
    readonly note: string
    readonly caption: string
    readonly rows: readonly RowView[]
  }[]
  readonly foot: readonly string[]
  readonly fields: readonly string[]
}

const nowhere = (): string => ''

/**
 * Prepares a paper for a template. `anchor` names a row's anchor from its address, or gives an empty text for none;
 * `link` says likewise where the first filled one of the `linked` columns leads.
 */
export function sheetView(
  sheet: Sheet,
  anchor: (address: string) => string = nowhere,
  link: (address: string) => string = nowhere,
  linked: readonly string[] = [],
): SheetView {
  const { head } = sheet
  const seen = new Set<string>()
  const anchorOnce = (row: Row): string => {
    const id = row.address === undefined ? '' : anchor(row.address)
    if (id === '' || seen.has(id)) return ''
    seen.add(id)
    return id
  }
  const marksOf = (row: Row) => {
    const id = anchorOnce(row)
    return { id, at: id === '' ? '' : (row.address ?? '') }
  }
  return {
    id: sheet.id,
    title: sheet.title,
    use: sheet.use,
    subject: head.subject,
    match: head.match,
    running: runningLine(sheet.title, head),
    head: headView(head),
    qr: qrMarkup(issueLine(head)),
    headings: sheet.columns.map((column) => ({ text: columnTitle(column), number: column.use === 'number' })),
    width: sheet.columns.length,
    sections: sheet.sections.map((section) => ({
      title: section.title ?? '',
      note: section.note ?? '',
      caption: section.title === undefined ? sheet.title : `${sheet.title}: ${section.title}`,
      rows: section.rows.map((row) => ({
        ...marksOf(row),
        attention: row.attention ?? false,
        cells: sheet.columns.map((column) => {
          const text = cellOf(row, column)
          const leads = linked.find((key) => row.cells[key]) === column.key
          return {
            text,
            href: leads && row.address !== undefined ? link(row.address) : '',
            heading: columnTitle(column),
            number: column.use === 'number',
            tick: column.use === 'tick',
            fill: column.use === 'fill',
            lead: column.lead ?? false,
            short: [...text].length <= MOST_ON_ONE_LINE,
            empty: text === '' && column.use !== 'tick' && column.use !== 'fill',
          }
        }),
      })),
    })),
    foot: sheet.foot,
    fields: sheet.fields,
  }
}
