import { naturalOrder } from '../base/natural-order.ts'
import type { Column, Sheet } from '../sheets/sheet.ts'
import { type AssetRecord, ATTENTION, attentionOf } from './asset-record.ts'
import { ATTENTION_WORDS, loomWords, reworkWords } from './attention-words.ts'

/** The record that counts of each asset, those that ask for most first. */
export function fleetOf(records: readonly AssetRecord[]): AssetRecord[] {
  const rank = (record: AssetRecord) => ATTENTION.indexOf(attentionOf(record))
  return records
    .filter(({ superseded }) => !superseded)
    .sort(
      (a, b) =>
        rank(a) - rank(b) ||
        b.counts.fail - a.counts.fail ||
        naturalOrder(a.readings.asset, b.readings.asset),
    )
}

const COLUMNS: readonly Column[] = [
  { key: 'asset', heading: 'Asset', lead: true },
  { key: 'attention', heading: 'Attention' },
  { key: 'installation', heading: 'Installation' },
  { key: 'date', heading: 'Measured' },
  { key: 'by', heading: 'By' },
  { key: 'looms', heading: 'Looms fitted' },
  { key: 'fails', heading: 'Readings outside' },
  { key: 'open', heading: 'Not measured', use: 'number' },
  { key: 'deviations', heading: 'Deviations' },
  { key: 'questions', heading: 'Open questions' },
  { key: 'rework', heading: 'Rework' },
]

/** The fleet as one table, for a spreadsheet. */
export function fleetSheet(records: readonly AssetRecord[], shop: string | undefined): Sheet {
  return {
    id: 'fleet',
    title: 'Fleet',
    use: 'Which asset has which revision, what deviates, and what has to be done.',
    head: {
      ...(shop === undefined ? {} : { shop }),
      title: 'Fleet',
      subject: 'Fleet',
      state: 'issued',
      units: 'as each reading says',
      view: 'no face shown',
      colours: 'none',
      match: '',
    },
    columns: COLUMNS,
    sections: [
      {
        rows: fleetOf(records).map((record) => ({
          attention: attentionOf(record) === 'failed',
          cells: {
            asset: record.readings.asset,
            attention: ATTENTION_WORDS[attentionOf(record)],
            installation: record.loom.title,
            date: record.readings.date,
            by: record.readings.by ?? '',
            looms: record.looms.map(loomWords).join('; '),
            fails: record.lines
              .filter(({ verdict }) => verdict === 'fail')
              .map(({ limit, reading }) => `${limit.what}: ${reading}`)
              .join('; '),
            open: String(record.counts.notMeasured),
            deviations: (record.readings.deviations ?? [])
              .map(({ at, what }) => (at === undefined ? what : `${at}: ${what}`))
              .join('; '),
            questions: (record.readings.open ?? []).join('; '),
            rework: reworkWords(record).join('; '),
          },
        })),
      },
    ],
    foot: [],
    fields: [],
  }
}
