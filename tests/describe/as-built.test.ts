import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type AsBuilt,
  type AsBuiltStep,
  asBuiltGaps,
  countVerdict,
  judgeStep,
  readAsBuilt,
} from '../../src/describe/as-built.ts'

const step = (more: Partial<AsBuiltStep> = {}): AsBuiltStep => ({
  id: 'A1B2C3D4',
  number: 1,
  stage: 'continuity',
  section: 'Continuity',
  what: 'R1 to P1-1',
  ask: 'ohms',
  unit: 'Ω',
  max: 0.04,
  reading: 0.03,
  verdict: 'pass',
  at: '2026-02-03T14:05:00.000Z',
  ...more,
})

const record = (steps: AsBuiltStep[], more: Partial<AsBuilt> = {}): AsBuilt => ({
  asBuilt: 1,
  harness: 'van',
  title: 'Van radio loom',
  revision: 'B',
  match: '7QK2-M9XD',
  serial: '0001',
  madeBy: 'A. Maker',
  testedBy: 'B. Tester',
  meter: { kind: 'four-wire', serial: 'M-7', leadOhms: 0 },
  started: '2026-02-03T13:00:00.000Z',
  finished: '2026-02-03T14:10:00.000Z',
  stepCount: steps.length,
  steps,
  ...more,
})

describe('a reading is judged by figure, limit and meter', () => {
  test.each<[string, Partial<AsBuiltStep>, 'hand' | 'four-wire', string]>([
    ['under the limit', { reading: 0.04 }, 'four-wire', 'pass'],
    ['over the limit', { reading: 0.041 }, 'four-wire', 'fail'],
    // A hand meter cannot tell 0.04 Ω from 0.3 Ω, so it only says closed.
    ['over the limit, but closed for a hand meter', { reading: 0.3 }, 'hand', 'pass'],
    ['a bad joint, for a hand meter too', { reading: 0.6 }, 'hand', 'fail'],
    ['a limit above half an ohm stays', { reading: 1.3, max: 1.2 }, 'hand', 'fail'],
    ['an open where metal should be', { reading: undefined, overRange: true }, 'hand', 'fail'],
    [
      'an open where it should be',
      { reading: undefined, overRange: true, max: undefined, min: 1e6 },
      'hand',
      'pass',
    ],
    ['a short', { reading: 0.1, max: undefined, min: 1e6 }, 'hand', 'fail'],
    ['a part between bounds', { reading: 118, min: 108, max: 132 }, 'hand', 'pass'],
    ['a part below them', { reading: 60, min: 108, max: 132 }, 'hand', 'fail'],
    ['a small part is not widened', { reading: 0.45, min: 0.09, max: 0.11 }, 'hand', 'fail'],
    ['a crimp that holds', { ask: 'force', unit: 'N', max: undefined, min: 89, reading: 95 }, 'hand', 'pass'],
    [
      'a crimp that does not',
      { ask: 'force', unit: 'N', max: undefined, min: 89, reading: 80 },
      'hand',
      'fail',
    ],
    ['no figure', { reading: undefined }, 'hand', 'not-done'],
    ['skipped without saying why', { verdict: 'skipped' }, 'hand', 'not-done'],
    ['skipped for a reason', { verdict: 'skipped', note: 'no meter' }, 'hand', 'skipped'],
    ['done cannot pass a measurement', { verdict: 'done', reading: 9 }, 'hand', 'fail'],
    ['work that is done', { ask: 'done', verdict: 'pass' }, 'hand', 'done'],
    ['looked at and found wrong', { ask: 'look', verdict: 'fail' }, 'hand', 'fail'],
  ])('%s', (_, more, meter, verdict) => {
    expect(judgeStep(step(more), meter)).toBe(verdict)
  })

  test('a larger reading never makes a failed continuity pass', () => {
    const ohms = fc.double({ min: 0, max: 1e7, noNaN: true })
    fc.assert(
      fc.property(ohms, ohms, ohms, fc.constantFrom('hand', 'four-wire'), (a, b, max, meter) => {
        const verdict = (reading: number) => judgeStep(step({ reading, max }), meter as 'hand')
        if (verdict(Math.min(a, b)) === 'fail') expect(verdict(Math.max(a, b))).toBe('fail')
      }),
    )
  })
})

describe('a record that is read', () => {
  test('does not believe its own verdicts', () => {
    const read = readAsBuilt(record([step({ reading: 7, verdict: 'pass' }), step({ id: 'B', number: 2 })]))
    if (!read.ok) throw new Error(read.problem)
    expect(read.value.record.steps.map(({ verdict }) => verdict)).toEqual(['fail', 'pass'])
    expect(read.value.overruled.map(({ number }) => number)).toEqual([1])
  })

  test.each<[string, unknown]>([
    ['nothing', undefined],
    ['a list', []],
    ['another form', { ...record([]), asBuilt: 2 }],
    ['a field nobody knows', { ...record([]), extra: 1 }],
    ['a reading below zero', record([step({ reading: -1 })])],
    ['a reading without bounds', record([step({ reading: Number.POSITIVE_INFINITY })])],
    ['a time in words', record([step({ at: 'yesterday' })])],
    ['a text as long as a book', record([step({ section: 'x'.repeat(501) })])],
  ])('%s is refused with what to do', (_, data) => {
    const read = readAsBuilt(data)
    expect(read).toMatchObject({
      ok: false,
      problem: expect.stringMatching(/no as-built record: .*Download it again/),
    })
  })

  test('anything at all is read or refused, never thrown', () => {
    fc.assert(fc.property(fc.jsonValue(), (data) => typeof readAsBuilt(data).ok === 'boolean'))
  })

  test('a whole record of another pair of hands has no gaps', () => {
    expect(asBuiltGaps(record([step()]), '7QK2-M9XD')).toEqual([])
  })

  test('says each thing that is missing', () => {
    const half = record(
      [step({ verdict: 'fail' }), step({ id: 'B', number: 2, verdict: 'skipped', note: 'later' })],
      { serial: ' ', testedBy: 'a. maker', meter: { kind: 'hand', serial: '', leadOhms: 0 }, stepCount: 5 },
    )
    expect(countVerdict(half, 'not-done')).toBe(3)
    expect(asBuiltGaps(half, 'AAAA-BBBB').join('\n')).toBe(
      [
        'Made from another issue: its match code is 7QK2-M9XD, that of the papers is now AAAA-BBBB.',
        'It has no serial number.',
        'Made and tested by the same person, A. Maker.',
        'It is not said with which meter it was measured.',
        '1 step failed.',
        '1 step skipped.',
        '3 steps not done.',
      ].join('\n'),
    )
  })
})
