/** How a column is used: read, compared as a number, ticked, or written into by hand. */
export type ColumnUse = 'text' | 'number' | 'tick' | 'fill'

export interface Column {
  readonly key: string
  readonly heading: string
  /** Unit of every figure in the column, printed once in the heading. */
  readonly unit?: string
  readonly use?: ColumnUse
  /** The column a person finds the row by: printed large on a phone. */
  readonly lead?: boolean
}

export interface Row {
  /** Text by column key; a missing key is an empty cell. */
  readonly cells: Readonly<Record<string, string>>
  /** Address of what the row is about, such as `main.A03`, for links and anchors. */
  readonly address?: string
  /** A row that needs a second look: a missing figure, or words that are not unique. */
  readonly attention?: boolean
}

export interface Section {
  readonly title?: string
  /** One line on how to work through it. */
  readonly note?: string
  readonly rows: readonly Row[]
}

/** What stands at the head of every page of a paper. `undefined` prints as a line to fill in. */
export interface SheetHead {
  readonly shop?: string
  readonly document?: string
  readonly title: string
  /** The loom, vehicle, hull or rack the paper is about. */
  readonly subject: string
  readonly revision?: string
  readonly date?: string
  readonly state: string
  readonly madeBy?: string
  readonly checkedBy?: string
  readonly units: string
  /** Side from which faces are shown. */
  readonly view: string
  readonly colours: string
  /** Match code: the same on every paper of one issue. */
  readonly match: string
}

/** One paper as plain data: written as Markdown, CSV or HTML without knowing what it is about. */
export interface Sheet {
  /** `cut-list`, `pinout-p1`: also its file name. */
  readonly id: string
  readonly title: string
  /** Who uses it and how, in one or two sentences. */
  readonly use: string
  readonly head: SheetHead
  readonly columns: readonly Column[]
  /** What the section titles are, as a CSV column: `Material`. */
  readonly sectionHeading?: string
  readonly sections: readonly Section[]
  readonly foot: readonly string[]
  /** What the person who worked from it writes at the end. */
  readonly fields: readonly string[]
}

/** Heading with its unit: `Cut length (mm)`. */
export const columnTitle = (column: Column): string =>
  column.unit === undefined ? column.heading : `${column.heading} (${column.unit})`

/** The rows of every section in order. */
export const allRows = (sheet: Sheet): readonly Row[] => sheet.sections.flatMap((section) => section.rows)

/** The text of a cell; empty when the row says nothing. */
export const cellOf = (row: Row, column: Column): string => row.cells[column.key] ?? ''
