import { headLines } from './head.ts'
import type { SheetHead } from './sheet.ts'

/** One line of a head as the templates print it. */
export interface HeadLineView {
  readonly name: string
  readonly value: string
  readonly missing: boolean
  /** Left out on a phone, where the table comes first; always on paper. */
  readonly less: boolean
}

const ON_A_PHONE: ReadonlySet<string> = new Set(['Document', 'Revision', 'Date', 'State'])

/** The head without its match code, which is printed large beside the title. */
export function headView(head: SheetHead): HeadLineView[] {
  return headLines(head)
    .filter(([name]) => name !== 'Match code')
    .map(([name, value]) => ({
      name,
      value: value ?? '',
      missing: value === undefined,
      less: !ON_A_PHONE.has(name),
    }))
}

/** What the QR code of a paper says: enough to hold it against the current issue, and short enough to scan when dirty. */
export const issueLine = (head: SheetHead): string =>
  `${head.document ?? head.subject} rev ${head.revision ?? '-'} match ${head.match}`

/** The head in one line, for the top of every printed page. */
export function runningLine(title: string, head: SheetHead): string {
  const revision = head.revision === undefined ? 'no revision' : `rev ${head.revision}`
  return [head.shop, head.document, head.subject, title, revision, head.state, `match ${head.match}`]
    .filter((part) => part !== undefined && part !== '')
    .join(' · ')
}

/** What the bottom margin of every printed page says: id, revision and match code first, since the rest may not fit. */
export function marginLine(title: string, head: SheetHead): string {
  const revision = head.revision === undefined ? 'no revision' : `rev ${head.revision}`
  const parts = [head.document, revision, `match ${head.match}`, title, head.subject, head.state]
  return parts.flatMap((part) => (part ? [apart(part)] : [])).join(' · ')
}

/** Kept from the words beside it, whichever way it reads: first strong isolate and its end (Unicode UAX 9). */
const apart = (text: string): string => `\u2068${text}\u2069`
