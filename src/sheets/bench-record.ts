import { z } from 'zod'
import { bad, good, type Result } from '../base/result.ts'

/** The longest text a record may hold, so that a damaged file cannot fill a page. */
const words = z.string().max(500)
const moment = z
  .string()
  .regex(/^\d{4}-\d\d-\d\dT[\d:.]+Z$/, 'write a moment in UTC such as 2026-02-03T14:05:00.000Z')

const stepRecord = z.strictObject({
  id: words,
  number: z.number().int().positive(),
  stage: z.enum(['make', 'test']),
  section: words,
  what: z.string().max(4000),
  expect: words.optional(),
  ask: z.enum(['done', 'newtons', 'ohms', 'look']),
  /** Bounds the step was judged by, N or Ω as `ask` says. */
  min: z.number().optional(),
  max: z.number().optional(),
  result: z.enum(['done', 'pass', 'fail', 'skipped', 'not done']),
  /** As typed. */
  reading: words.optional(),
  /** N or Ω, leads taken off; missing where the meter showed an open circuit. */
  value: z.number().nonnegative().optional(),
  /** The meter showed an open circuit. */
  open: z.boolean().optional(),
  /** The sum the step was judged by, in words. */
  sum: words.optional(),
  /** Why it was skipped. */
  reason: words.optional(),
  at: moment.optional(),
})

const record = z.strictObject({
  benchRecord: z.literal(1),
  shop: words,
  harness: words,
  title: words,
  document: words.optional(),
  revision: words.optional(),
  /** Match code of the papers it was made from. */
  match: words,
  serial: words,
  madeBy: words,
  testedBy: words,
  meterSerial: words,
  meter: z.enum(['hand', 'four-wire']),
  /** Resistance of the test leads in ohms, taken off each reading. */
  leadOhms: z.number().nonnegative(),
  started: moment,
  finished: moment,
  steps: z.array(stepRecord).max(20000),
})

/** What was done to one loom at the bench and what was measured on it. Times are those of the device. */
export type BenchRecord = z.output<typeof record>
export type BenchStepRecord = BenchRecord['steps'][number]

/** Below this a two-wire hand meter tells closed from not closed, and no more; common practice. */
export const HAND_METER_OHMS = 0.5

/**
 * Reads an as-built record, of any JSON value. A record whose verdicts do not follow from its own readings is refused,
 * because a file can be edited.
 */
export function readBenchRecord(data: unknown): Result<BenchRecord> {
  const read = record.safeParse(data)
  if (!read.success) {
    const [issue] = read.error.issues
    const place = issue?.path.join('.') || 'the file'
    return bad(
      `This is no as-built record: ${place}: ${issue?.message ?? 'not understood'}. Download it again from the bench page.`,
    )
  }
  const wrong = read.data.steps.find((step) => !follows(step, read.data.meter))
  return wrong === undefined
    ? good(read.data)
    : bad(
        `Step ${wrong.number} (${wrong.what.slice(0, 80)}) says “${wrong.result}”, which does not follow from its reading “${wrong.reading ?? 'none'}”. Measure it again.`,
      )
}

function follows(step: BenchStepRecord, meter: BenchRecord['meter']): boolean {
  const { ask, result, value, open } = step
  if (result === 'skipped') return (step.reason ?? '').trim() !== ''
  if (result === 'not done') return true
  if (ask === 'done') return result === 'done'
  if (ask === 'look') return result === 'pass' || result === 'fail'
  if (value === undefined && open !== true) return false
  return (result === 'pass') === withinBounds(step, open ? Number.POSITIVE_INFINITY : (value ?? 0), meter)
}

/** Whether a reading is good. A hand meter cannot judge below half an ohm, so smaller limits are widened to that. */
export function withinBounds(
  { ask, min, max }: Pick<BenchStepRecord, 'ask' | 'min' | 'max'>,
  value: number,
  meter: BenchRecord['meter'],
): boolean {
  const most =
    ask === 'ohms' && min === undefined && meter === 'hand' ? Math.max(max ?? 0, HAND_METER_OHMS) : max
  return value >= (min ?? 0) && (most === undefined ? true : value <= most)
}

/** What stands between a record and a loom that may be used, one sentence each; none when nothing does. */
export function recordGaps(record: BenchRecord, currentMatch?: string): string[] {
  const count = (result: BenchStepRecord['result']) =>
    record.steps.filter((step) => step.result === result).length
  const same = (text: string) => text.trim().toLowerCase()
  const lines = [
    currentMatch !== undefined && currentMatch !== record.match
      ? `Made from another issue: match code ${record.match}, the papers now say ${currentMatch}.`
      : '',
    record.serial.trim() === '' ? 'No serial number.' : '',
    record.madeBy.trim() === '' || record.testedBy.trim() === ''
      ? 'It is not said who made and who tested it.'
      : '',
    same(record.madeBy) !== '' && same(record.madeBy) === same(record.testedBy)
      ? `Made and tested by the same person, ${record.madeBy}.`
      : '',
    record.meterSerial.trim() === '' ? 'No meter serial.' : '',
    count('fail') > 0 ? `${count('fail')} failed.` : '',
    count('skipped') > 0 ? `${count('skipped')} skipped.` : '',
    count('not done') > 0 ? `${count('not done')} not done.` : '',
  ]
  return lines.filter((line) => line !== '')
}
