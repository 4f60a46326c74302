import type { Finding, Level } from '../base/finding.ts'
import { below, type Pointer } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { AssetRecord, Issue } from './asset-record.ts'
import { type Judged, limitText, marginText } from './judge.ts'

interface Draft {
  readonly rule:
    | 'record-place'
    | 'reading-unusable'
    | 'reading-outside-limit'
    | 'record-stale'
    | 'as-built-open'
  readonly level: Level
  readonly subject: string
  readonly what: string
  readonly why: string
  readonly fix: string
  readonly at: Pointer
  readonly facts?: Finding['facts']
  readonly cause?: string
  readonly marks?: readonly string[]
}

const finding = ({ facts = {}, marks = [], ...draft }: Draft): Finding => ({
  ...draft,
  facts,
  marks,
  assumed: [],
  notes: [],
})

/** Subjects begin with a word and a blank, which no name holds, so that a record is never taken for its installation. */
export const assetSubject = (asset: string, rest: string): string => `asset ${asset}/${rest}`

/** A record that names something the shop does not describe. */
export function placeFinding(
  asset: string,
  kind: string,
  name: string,
  known: readonly string[],
  at: Pointer,
): Finding {
  const hint = didYouMean(name, known).trim()
  return finding({
    rule: 'record-place',
    level: 'warning',
    subject: assetSubject(asset, `${kind} ${name}`),
    what: `${asset}: there is no ${kind} ${quote(name)}`,
    why: 'What is written of it belongs to nothing, and is left out of the record.',
    fix:
      hint === ''
        ? `Name a ${kind} that is described${known.length > 0 ? `: ${known.slice(0, 8).join(', ')}` : ''}.`
        : hint,
    at,
  })
}

/** A reading whose limit is not known, whose unit is wrong, or that no meter can show. */
export function unusableFinding(asset: string, limit: string, problem: string, at: Pointer): Finding {
  const [what = problem, ...rest] = problem.split('; ')
  const fix = rest.join('; ')
  return finding({
    rule: 'reading-unusable',
    level: 'warning',
    subject: assetSubject(asset, limit),
    what: `${asset}, ${limit}: ${what}`,
    why: 'It cannot be judged, so the line counts as not measured.',
    fix: fix === '' ? 'Correct it.' : `${fix[0]?.toUpperCase() ?? ''}${fix.slice(1).replace(/\.$/, '')}.`,
    at,
  })
}

/** The limit that a reading names does not exist. */
export function unknownLimit(asset: string, limit: string, known: readonly string[], at: Pointer): Finding {
  const hint = didYouMean(limit, known).trim()
  const fix = hint === '' ? 'Take the name from the commissioning record' : hint.replace(/\.$/, '')
  return unusableFinding(asset, limit, `the commissioning record has no such limit; ${fix}`, at)
}

/** A reading outside its limit on an asset as it stands now. */
export function outsideFinding(record: AssetRecord, line: Judged, index: number): Finding {
  const { limit, reading, margin } = line
  const { asset } = record.readings
  const by = marginText(line)
  return finding({
    rule: 'reading-outside-limit',
    level: limit.level,
    subject: assetSubject(asset, limit.id),
    what: `${asset}: ${limit.what} reads ${reading} (${limitText(limit)})${by === '' ? '' : `, ${by}`}`,
    why: limit.sum,
    fix: `Find the cause, mend it and measure again: ${limit.how}`,
    facts: margin === undefined ? {} : { margin: { value: margin } },
    at: index < 0 ? record.at : below(record.at, 'values', index, 'reading'),
    marks: limit.address === undefined ? [] : [limit.address],
  })
}

const issueText = ({ revision, match }: Issue): string =>
  [revision === undefined ? '' : `revision ${revision}`, match === undefined ? '' : `match code ${match}`]
    .filter((part) => part !== '')
    .join(', ') || 'no revision'

/** An asset fitted to an issue that is not the current one. */
export function staleFinding(
  record: AssetRecord,
  subject: string,
  fitted: Issue,
  now: Issue,
  at: Pointer,
  later: readonly string[],
): Finding {
  const { asset } = record.readings
  const same = fitted.revision !== undefined && fitted.revision === now.revision
  return finding({
    rule: 'record-stale',
    level: 'note',
    subject: assetSubject(asset, subject),
    what: `${asset}: ${subject} was fitted to ${issueText(fitted)}; it is now ${issueText(now)}`,
    why: `${same ? 'The description changed under the same revision letter. ' : ''}Its readings are judged by limits of the issue that holds now, which may not be those it was built to.`,
    fix:
      later.length > 0
        ? `Since then: ${later.join(' ')} Rework it, or write down why it stays.`
        : 'Compare the two issues (loomwright compare), rework what differs, and measure again; or write down why it stays.',
    at,
    cause: `record-stale ${record.readings.installation} ${subject} ${issueText(fitted)}`,
  })
}

/** An as-built record that does not yet say that its loom may be used. */
export function asBuiltFinding(
  serial: string,
  harness: string,
  gaps: readonly string[],
  at: Pointer,
): Finding {
  return finding({
    rule: 'as-built-open',
    level: 'warning',
    subject: `as-built ${harness}/${serial}`,
    what: `loom ${serial} of ${harness}: ${gaps[0] ?? ''}${gaps.length > 1 ? ` and ${gaps.length - 1} more` : ''}`,
    why: gaps.join(' '),
    fix: 'Finish the work on the bench page and put its new record in place of this one.',
    at,
  })
}
