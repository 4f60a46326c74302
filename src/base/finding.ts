import type { Place, Pointer } from './place.ts'

/**
 * `stop`: fire, injury, stuck transmitter or dead equipment; do not build. `warning`: will not work, works badly, or not for long.
 * `note`: worth knowing.
 */
export type Level = 'stop' | 'warning' | 'note'

/** A value with its unit, as data, so that nobody has to read a number out of a sentence. */
export interface Fact {
  readonly value: number | string | boolean
  readonly unit?: string
}

/** A second place that matters to a finding, with its own words. */
export interface FindingNote {
  readonly text: string
  readonly at?: Pointer
}

/** Plain data that an edit puts into a description. */
export type EditValue =
  | string
  | number
  | boolean
  | readonly EditValue[]
  | { readonly [key: string]: EditValue }

/** One value of a description and what it becomes. Where nothing stands yet, the object or list around it does. */
export interface ValueChange {
  readonly at: Pointer
  readonly value: EditValue
}

/** A cure without a choice, as changes to the description: all of them or none. */
export interface Edit {
  /** "A03 to 4 mm² (12–10 AWG)". */
  readonly what: string
  readonly changes: readonly ValueChange[]
}

/** One problem, as data. Nothing upstream of a printer knows lines, columns, colour or width. */
export interface Finding {
  /** Rule in kebab-case: also the file, the page and what people search for. */
  readonly rule: string
  readonly level: Level
  /** Address of the thing at fault, such as `pickup-17/main.A03`. Stable when lines move. */
  readonly subject: string
  /** What is wrong, in figures. One line, no full stop. */
  readonly what: string
  /** Why, with the sum that gives the figure. */
  readonly why: string
  /** The cure, with the figure it gives. */
  readonly fix: string
  readonly assumed: readonly string[]
  readonly facts: Readonly<Record<string, Fact>>
  /** The one place to edit. */
  readonly at: Pointer
  readonly notes: readonly FindingNote[]
  /** Set where mends were asked for and one is certain: it was tried, the finding was gone, and nothing else came. */
  readonly edit?: Edit
  /** Findings with one cause share this key; printers show the worst and count the rest. */
  readonly cause?: string
  /** Addresses of pins and conductors involved, for marks on drawings. */
  readonly marks: readonly string[]
}

/** Something a rule could not judge, and the one fact that would let it. Silence is never a pass. */
export interface NotChecked {
  readonly rule: string
  readonly subject: string
  /** "needs the current J1.1 draws in transmit" */
  readonly needs: string
  readonly at?: Pointer
}

/** A problem that stops the run before there is anything to check: unreadable file, broken syntax. */
export interface Trouble {
  readonly what: string
  readonly fix: string
  readonly place?: Place
}

/** What acceptances and reviews match on: moving a line changes nothing. */
export function identity(finding: Finding): string {
  return `${finding.rule} ${finding.subject}`
}
