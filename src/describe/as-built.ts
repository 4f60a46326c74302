import * as z from 'zod'
import { bad, good, type Result } from '../base/result.ts'

/** The longest text a record may hold, so that a damaged file cannot fill a page. */
const words = z.string().max(500)
const moment = z
  .string()
  .regex(
    /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,3})?Z$/,
    'write a moment in UTC such as 2026-02-03T14:05:00.000Z',
  )
const figure = z.number().nonnegative().max(1e12)

/** `not-done` stands in a record for a step that nobody has come to. */
const verdict = z.enum(['done', 'pass', 'fail', 'skipped', 'not-done'])

/** What one measurement gave: a figure in N or Ω, or a meter that showed an open circuit. */
const measured = {
  /** In N or Ω as `unit` says, the resistance of the leads taken off. */
  reading: figure.optional(),
  /** The meter showed an open circuit (OL). */
  overRange: z.boolean().optional(),
  /** As it was typed, with its unit. */
  typed: words.optional(),
  verdict,
  at: moment.optional(),
}

const step = z.strictObject({
  /** Made from what the step says: the same step of the same issue has the same id. */
  id: words,
  number: z.number().int().positive(),
  stage: z.enum(['cut', 'join', 'insert', 'close', 'continuity', 'open', 'look']),
  /** Heading it stands under: a tool set-up, a connector, a part of the ring-out. */
  section: words,
  what: z.string().max(4000),
  /** The expectation in words. */
  expect: z.string().max(1000).optional(),
  /** What the person was asked for: to do it, a force, a resistance, or to look and judge. */
  ask: z.enum(['done', 'force', 'ohms', 'look']),
  unit: z.enum(['N', 'Ω']).optional(),
  /** Bounds of a good reading in `unit`; a missing bound is none. */
  min: figure.optional(),
  max: figure.optional(),
  ...measured,
  /** Who did it. */
  by: words.optional(),
  /** Why it was skipped, or what else was seen. */
  note: words.optional(),
  /** What was measured before it was mended and measured again, oldest first. */
  earlier: z.array(z.strictObject(measured)).max(50).optional(),
})

const asBuilt = z.strictObject({
  /** Version of this form. */
  asBuilt: z.literal(1),
  shop: words.optional(),
  /** Id of the harness. */
  harness: words,
  title: words,
  document: words.optional(),
  revision: words.optional(),
  /** Match code of the papers it was made from. */
  match: words,
  /** Number of this one loom. */
  serial: words,
  madeBy: words,
  testedBy: words,
  meter: z.strictObject({
    kind: z.enum(['hand', 'four-wire']),
    serial: words,
    /** Resistance of the test leads in Ω, taken off each reading; 0 when the meter was zeroed. */
    leadOhms: figure,
  }),
  started: moment,
  finished: moment,
  /** Steps the page asked for; more than are listed when an interrupted session was saved. */
  stepCount: z.number().int().nonnegative().max(100_000),
  steps: z.array(step).max(100_000),
})

/** What was done to one loom at the bench and what was measured on it. Times are those of the device. */
export type AsBuilt = z.output<typeof asBuilt>
export type AsBuiltStep = AsBuilt['steps'][number]
export type AsBuiltVerdict = AsBuiltStep['verdict']
export type MeterKind = AsBuilt['meter']['kind']

/** Below this many ohms a two-wire hand meter tells closed from not closed, and no more; common practice. */
export const HAND_METER_OHMS = 0.5

/** The largest reading in the step's unit that passes on a meter. A hand meter's limit is never below {@link HAND_METER_OHMS}. */
export function mostAllowed(
  step: Pick<AsBuiltStep, 'ask' | 'min' | 'max'>,
  meter: MeterKind,
): number | undefined {
  const closed = step.ask === 'ohms' && step.min === undefined
  return closed && step.max !== undefined && meter === 'hand' ? Math.max(step.max, HAND_METER_OHMS) : step.max
}

/** What a step comes to by its own reading, whatever verdict it carries. */
export function judgeStep(step: AsBuiltStep, meter: MeterKind): AsBuiltVerdict {
  if (step.verdict === 'not-done') return 'not-done'
  if (step.verdict === 'skipped') return (step.note ?? '').trim() === '' ? 'not-done' : 'skipped'
  if (step.ask === 'done') return step.verdict === 'fail' ? 'fail' : 'done'
  if (step.ask === 'look') return step.verdict === 'pass' ? 'pass' : 'fail'
  const value = step.overRange ? Number.POSITIVE_INFINITY : step.reading
  if (value === undefined) return 'not-done'
  const most = mostAllowed(step, meter)
  return value >= (step.min ?? 0) && (most === undefined || value <= most) ? 'pass' : 'fail'
}

/** A record with the verdicts its readings give, and the steps whose own verdict said otherwise. */
export interface AsBuiltReading {
  readonly record: AsBuilt
  /** Steps as they were written; a file can be edited, so their verdicts were not believed. */
  readonly overruled: readonly AsBuiltStep[]
}

/**
 * Reads an as-built record, of any JSON value. Verdicts are worked out again from the readings and the limits in the record;
 * whether those limits are still the right ones is for whoever knows the harness.
 */
export function readAsBuilt(data: unknown): Result<AsBuiltReading> {
  const read = asBuilt.safeParse(data)
  if (!read.success) {
    const [issue] = read.error.issues
    const place = issue?.path.join('.') || 'the file'
    return bad(
      `This is no as-built record: ${place}: ${issue?.message ?? 'not understood'}. Download it again from the bench page.`,
    )
  }
  const record = read.data
  const steps = record.steps.map((one) => ({ ...one, verdict: judgeStep(one, record.meter.kind) }))
  const overruled = record.steps.filter((one, index) => one.verdict !== steps[index]?.verdict)
  return good({ record: { ...record, steps }, overruled })
}

/** How many steps of a record came to a verdict; what the page asked for and the record does not list counts as not done. */
export function countVerdict(record: AsBuilt, wanted: AsBuiltVerdict): number {
  const count = record.steps.filter(({ verdict: own }) => own === wanted).length
  return wanted === 'not-done' ? count + Math.max(0, record.stepCount - record.steps.length) : count
}

const folded = (text: string): string => text.trim().toLowerCase()

/**
 * What stands between a record and a loom that may be used, a sentence each; none when nothing does.
 * `current` is the match code the papers have now, where it is known.
 */
export function asBuiltGaps(record: AsBuilt, current?: string): string[] {
  const counted = (wanted: AsBuiltVerdict, text: string) => {
    const count = countVerdict(record, wanted)
    return count === 0 ? '' : `${count} ${count === 1 ? 'step' : 'steps'} ${text}.`
  }
  const lines = [
    current !== undefined && current !== record.match
      ? `Made from another issue: its match code is ${record.match}, that of the papers is now ${current}.`
      : '',
    record.serial.trim() === '' ? 'It has no serial number.' : '',
    folded(record.madeBy) === '' ? 'It is not said who made it.' : '',
    folded(record.testedBy) === '' ? 'It is not said who tested it.' : '',
    folded(record.madeBy) !== '' && folded(record.madeBy) === folded(record.testedBy)
      ? `Made and tested by the same person, ${record.madeBy.trim()}.`
      : '',
    record.meter.serial.trim() === '' ? 'It is not said with which meter it was measured.' : '',
    counted('fail', 'failed'),
    counted('skipped', 'skipped'),
    counted('not-done', 'not done'),
  ]
  return lines.filter((line) => line !== '')
}
