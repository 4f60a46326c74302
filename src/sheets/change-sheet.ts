import type { Loom, LoomUse } from '../resolve/loom.ts'
import { sheetHead } from './head.ts'
import type { Column, Row, Sheet } from './sheet.ts'

const COLUMNS: readonly Column[] = [
  { key: 'step', heading: 'Step', lead: true },
  { key: 'do', heading: 'Do' },
  { key: 'done', heading: 'Done', use: 'tick' },
  { key: 'initials', heading: 'Initials', use: 'fill' },
]

/** The issue a built loom is of. */
export interface IssueBefore {
  readonly revision?: string
  readonly match: string
  readonly date?: string
  /** Where that issue was found, as people name it: a commit, a folder. */
  readonly source: string
}

/** What tells the two issues apart, and what that means for a loom in the hand; both in sentences, in order. */
export interface IssueChange {
  readonly before: IssueBefore
  readonly steps: readonly string[]
  readonly changes: readonly string[]
}

const issue = (revision: string | undefined, match: string): string =>
  `${revision === undefined ? 'no revision' : `rev ${revision}`}, match ${match}`

/** The paper for the person who brings a built loom from one issue to the present one. */
export function changeSheet(loom: Loom, use: LoomUse, { before, steps, changes }: IssueChange): Sheet {
  const head = sheetHead(loom, use, 'Change sheet')
  const from = issue(before.revision, before.match)
  const to = issue(head.revision, head.match)
  const rows = steps.map((text, index): Row => ({ cells: { step: String(index + 1), do: text } }))
  return {
    id: 'change-sheet',
    title: 'Change sheet',
    use: `For a loom built to ${from}: brings it to ${to}. If its label shows another match code, stop: this sheet is not for it.`,
    head,
    columns: COLUMNS,
    sections: [
      {
        title: 'Work on the loom, in this order',
        ...(rows.length === 0
          ? { note: 'Nothing on the loom itself is touched: only its papers change.' }
          : {}),
        rows,
      },
    ],
    foot: [
      `From: ${from}${before.date === undefined ? '' : `, ${before.date}`} (${before.source}). To: ${to}.`,
      ...changes.map((text) => `Changed: ${text}`),
      'Afterwards: ring out the whole loom by the ring-out sheet of the new issue, print its labels again, and take the old papers out.',
    ],
    fields: [
      'Loom serial or asset',
      'Match code found on the loom',
      'Reworked by',
      'Checked by (not who reworked it)',
      'Ring-out passed on',
      'Date',
    ],
  }
}
