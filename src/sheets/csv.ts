import { csvRecord } from '../base/escape.ts'
import { cellOf, columnTitle, type Sheet } from './sheet.ts'

/**
 * A paper as RFC 4180: one record of headings, then one a row, CRLF, every record equally long.
 * Document, revision and match code stand in every record, so that a row copied out of its file still says which issue it is from.
 */
export function toCsv(sheet: Sheet): string {
  const sectioned = sheet.sections.some((section) => section.title !== undefined)
  const headings = [
    ...(sectioned ? [sheet.sectionHeading ?? 'Section'] : []),
    ...sheet.columns.map(columnTitle),
    'Document',
    'Revision',
    'Match code',
  ]
  const issue = [sheet.head.document ?? sheet.head.subject, sheet.head.revision ?? '', sheet.head.match]
  const records = sheet.sections.flatMap((section) =>
    section.rows.map((row) => [
      ...(sectioned ? [section.title ?? ''] : []),
      ...sheet.columns.map((column) => cellOf(row, column)),
      ...issue,
    ]),
  )
  return [headings, ...records].map((record) => csvRecord(record)).join('')
}
