import type { AssetRecord, Attention, FittedLoom, Issue, Standing } from './asset-record.ts'
import type { Verdict } from './judge.ts'

/** A shape beside each word, so that nothing hangs on colour. */
export const ATTENTION_MARKS: Readonly<Record<Attention, string>> = {
  failed: '■',
  stale: '▲',
  deviates: '◆',
  'not measured': '○',
  'in order': '✓',
}
export const ATTENTION_WORDS: Readonly<Record<Attention, string>> = {
  failed: 'Reading outside its limit',
  stale: 'Other issue than now',
  deviates: 'Deviations or open questions',
  'not measured': 'Not measured throughout',
  'in order': 'In order',
}
export const VERDICT_MARKS: Readonly<Record<Verdict, string>> = { pass: '✓', fail: '■', 'not measured': '○' }
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  pass: 'Pass',
  fail: 'Fails',
  'not measured': 'Not measured',
}

export const STANDING_WORDS: Readonly<Record<Standing, string>> = {
  current: 'as it is now',
  older: 'other revision than now',
  changed: 'same revision letter, changed since',
  'not stated': 'issue not written down',
}

/** `rev A, K7P2-M9XD`, or `not stated`. */
export const issueWords = ({ revision, match }: Issue): string =>
  [revision === undefined ? '' : `rev ${revision}`, match ?? ''].filter((part) => part !== '').join(', ') ||
  'not stated'

/** `main: rev A, now rev B`; without a second issue where it is current. */
export function loomWords(one: FittedLoom): string {
  const stale = one.standing === 'older' || one.standing === 'changed'
  return `${one.id}: ${issueWords(one.fitted)}${stale ? `, now ${issueWords(one.now)}` : ''}`
}

/** What has to be done to an asset for it to be as described: later revisions, or a comparison. */
export function reworkWords({ looms }: AssetRecord): readonly string[] {
  return looms.flatMap((one) => {
    if (one.later.length > 0)
      return one.later.map(({ revision, what }) => `${one.id}, rev ${revision}: ${what}`)
    const stale = one.standing === 'older' || one.standing === 'changed'
    return stale ? [`${one.id}: compare the issues, ${STANDING_WORDS[one.standing]}`] : []
  })
}
