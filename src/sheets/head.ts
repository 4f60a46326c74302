import type { Loom, LoomUse } from '../resolve/loom.ts'
import { matchCodeOf } from './match-code.ts'
import type { SheetHead } from './sheet.ts'

export const BOTH_VIEWS = 'both faces shown: mating face and wire-entry face'
export const NO_VIEW = 'no face shown'
const COLOURS = 'IEC 60757 letters and words'

const unitsOf = (loom: Loom): string =>
  loom.settings.stated.units === 'both'
    ? 'mm and m, ft and in beside; mm² and AWG; V, A, Ω'
    : 'mm and m; mm² and AWG; V, A, Ω'

/** The head of a paper about one loom, or about the whole installation when `use` is left out. */
export function sheetHead(
  loom: Loom,
  use: LoomUse | undefined,
  title: string,
  view = NO_VIEW,
  match = matchCodeOf(loom, use),
): SheetHead {
  const source = use?.harness ?? loom.source
  const state = 'state' in source ? source.state : undefined
  const asset = 'asset' in source && source.asset ? `, ${source.asset}` : ''
  return {
    shop: loom.settings.stated.shop,
    document: source.document,
    title,
    subject: `${source.title}${asset}`,
    revision: source.revision,
    date: source.date,
    state: state ?? 'draft',
    madeBy: source.drawnBy,
    checkedBy: source.checkedBy,
    units: unitsOf(loom),
    view,
    colours: COLOURS,
    match,
  }
}

/** The head as names and values in printing order; an undefined value is a line to fill in. */
export function headLines(head: SheetHead): readonly (readonly [string, string | undefined])[] {
  return [
    ['Shop', head.shop],
    ['Document', head.document],
    ['Revision', head.revision],
    ['Date', head.date],
    ['State', head.state],
    ['Made by', head.madeBy],
    ['Checked by', head.checkedBy],
    ['Units', head.units],
    ['View', head.view],
    ['Colours', head.colours],
    ['Match code', head.match],
  ]
}
