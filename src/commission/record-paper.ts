import type { Loom } from '../resolve/loom.ts'
import { sheetHead } from '../sheets/head.ts'
import type { Column, Row, Sheet } from '../sheets/sheet.ts'
import type { Paths } from '../solve/paths.ts'
import { cautionsOf, GROUPS, RECORD_LIMITS } from './groups.ts'
import { limitText, printed, withUnit } from './judge.ts'
import { GROUP_IDS, type Limit, type Limits } from './limit.ts'

const TITLE = 'Commissioning record'

const ON_PAPER: readonly Column[] = [
  { key: 'what', heading: 'Measure', lead: true },
  { key: 'how', heading: 'How' },
  { key: 'expected', heading: 'Expected' },
  { key: 'limit', heading: 'Limit' },
  { key: 'reading', heading: 'Reading', use: 'fill' },
  { key: 'pass', heading: 'Pass', use: 'tick' },
  { key: 'sum', heading: 'Worked out' },
  { key: 'source', heading: 'Source' },
  { key: 'id', heading: 'Name' },
]

const FOR_MACHINES: readonly Column[] = [
  { key: 'id', heading: 'Name' },
  { key: 'what', heading: 'Measure' },
  { key: 'how', heading: 'How' },
  { key: 'unit', heading: 'Unit' },
  { key: 'least', heading: 'Least', use: 'number' },
  { key: 'most', heading: 'Most', use: 'number' },
  { key: 'nominal', heading: 'Expected', use: 'number' },
  { key: 'limit', heading: 'Limit' },
  { key: 'sum', heading: 'Worked out' },
  { key: 'source', heading: 'Source' },
]

/** What the expected figure is, in the unit of the limit; empty for a look. */
export const expectedText = (limit: Limit): string =>
  limit.kind === 'figure' && limit.expected !== undefined ? withUnit(limit, limit.expected) : ''

/** Whether the job as described cannot pass: its own figure lies outside the limit. */
export function cannotPass(limit: Limit): boolean {
  if (limit.kind === 'look' || limit.expected === undefined) return false
  const { expected, least = Number.NEGATIVE_INFINITY, most = Number.POSITIVE_INFINITY } = limit
  const slack = 0.005 * Math.abs(expected)
  return expected < least - slack || expected > most + slack
}

function row(limit: Limit): Row {
  const figure = limit.kind === 'figure' ? limit : undefined
  const text = (value: number | undefined) => (figure && value !== undefined ? printed(figure, value) : '')
  return {
    ...(limit.address === undefined ? {} : { address: limit.address }),
    attention: cannotPass(limit),
    cells: {
      id: limit.id,
      what: limit.what,
      how: limit.how,
      unit: figure?.unit ?? 'yes or no',
      least: text(figure?.least),
      most: text(figure?.most),
      nominal: text(figure?.expected),
      expected: expectedText(limit),
      limit: limitText(limit),
      sum: `${limit.sum}${cannotPass(limit) ? ' As described it cannot pass: mend the description first.' : ''}`,
      source: limit.source,
    },
  }
}

/** The commissioning record of an installation, empty: to be printed and filled in, or read by a machine. */
export function recordPaper(
  loom: Loom,
  paths: Paths,
  { limits, missing }: Limits,
  columns = ON_PAPER,
): Sheet {
  return {
    id: 'commissioning-record',
    title: TITLE,
    use: 'One for each asset, filled in as it is put to work. Every limit is worked out from this job; a reading outside it is a fault until its cause is known.',
    // One paper for every asset: the one it was designed for is not its subject.
    head: { ...sheetHead(loom, undefined, TITLE), subject: loom.title },
    columns,
    sectionHeading: 'Part',
    sections: GROUP_IDS.map((group) => ({
      title: GROUPS[group].title,
      note: [
        GROUPS[group].note,
        ...cautionsOf(loom, paths, group).map(({ title, text }) => `⚠ ${title}. ${text}`),
      ].join(' '),
      rows: limits.filter((limit) => limit.group === group).map(row),
    })).filter(({ rows }) => rows.length > 0),
    foot: [
      ...missing.map(({ what, needs }) => `Not worked out: ${what}; the description lacks ${needs}.`),
      RECORD_LIMITS,
    ],
    fields: [
      'Asset (plate, hull, rack)',
      'Date',
      'Odometer or hours',
      'Test set, serial, calibration due',
      'Loom serials',
      'Equipment serials and firmware',
      'Deviations',
      'Measured by',
      'Checked by',
      'Customer',
      'Paper kept at',
    ],
  }
}

/** The same as a table for machines: numbers in a unit of their own column. */
export const recordTable = (loom: Loom, paths: Paths, limits: Limits): Sheet =>
  recordPaper(loom, paths, limits, FOR_MACHINES)
