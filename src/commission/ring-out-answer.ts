import type { AsBuilt, AsBuiltStep } from '../describe/as-built.ts'
import type { Judged } from './judge.ts'
import type { LookLimit } from './limit.ts'

const RING_OUT: ReadonlySet<AsBuiltStep['stage']> = new Set(['continuity', 'open', 'look'])

/**
 * What an as-built record says of the ring-out of its loom. A step that failed fails it. Steps not come to, and whatever else stands
 * between the record and a loom that may be used, leave it not measured.
 */
export function ringOutAnswer(limit: LookLimit, record: AsBuilt, gaps: readonly string[]): Judged {
  const steps = record.steps.filter(({ stage }) => RING_OUT.has(stage))
  const count = (...wanted: AsBuiltStep['verdict'][]) =>
    steps.filter(({ verdict }) => wanted.includes(verdict)).length
  const open = count('not-done', 'skipped') + Math.max(0, record.stepCount - record.steps.length)
  const [good, bad] = [count('pass', 'done'), count('fail')]
  const [gap] = gaps
  return {
    limit,
    reading: `${good} passed, ${bad} failed, ${open} not done; as-built record of serial ${record.serial}`,
    verdict: bad > 0 ? 'fail' : open > 0 || good === 0 || gap !== undefined ? 'not measured' : 'pass',
    ...(gap === undefined ? {} : { note: gap }),
  }
}
