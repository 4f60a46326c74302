import { expect, test } from 'vitest'
import { judged, visit } from './fitted-shop.ts'

const step = (more: object) => ({
  id: 's',
  number: 1,
  stage: 'continuity',
  section: 'Continuity',
  what: 'P1-1 to R1',
  ask: 'ohms',
  unit: 'Ω',
  max: 0.05,
  reading: 0.03,
  verdict: 'pass',
  ...more,
})

const built = (more: object = {}, steps: readonly object[] = [step({})]) => ({
  asBuilt: 1,
  harness: 'lead',
  title: 'Power and feeder',
  revision: 'B',
  match: 'AAAA-AAAA',
  serial: 'L-7',
  madeBy: 'A',
  testedBy: 'B',
  meter: { kind: 'four-wire', serial: '12', leadOhms: 0 },
  started: '2026-02-20T08:00:00Z',
  finished: '2026-02-20T11:00:00Z',
  stepCount: steps.length,
  steps,
  ...more,
})
const fitted = visit({ looms: [{ loom: 'main', serial: 'L-7' }] })
const ringOut = (record: object) => {
  const { assets, findings } = judged(['a.readings.json', fitted], ['l-7.json', record])
  const line = assets[0]?.lines.find(({ limit }) => limit.id === 'main/ring-out')
  return {
    verdict: line?.verdict,
    reading: line?.reading,
    rules: findings.map(({ rule }) => rule),
    loom: assets[0]?.looms[0],
  }
}

test('an as-built record of the serial answers the ring-out line, and says which issue was fitted', () => {
  const { verdict, reading, loom, rules } = ringOut(built())
  expect(verdict).toBe('pass')
  expect(reading).toContain('1 passed, 0 failed, 0 not done')
  expect(loom).toMatchObject({ fitted: { revision: 'B', match: 'AAAA-AAAA' }, standing: 'changed', gaps: [] })
  expect(rules).toEqual(['record-stale'])
})

test('a verdict that the file carries is not believed; its reading is', () => {
  const { verdict, rules } = ringOut(built({}, [step({ reading: 0.4 })]))
  expect(verdict).toBe('fail')
  expect(rules).toContain('reading-outside-limit')
  expect(rules).toContain('as-built-open')
})

test('steps nobody came to leave it not measured', () => {
  expect(ringOut(built({ stepCount: 9 })).verdict).toBe('not measured')
  expect(ringOut(built({}, [step({ verdict: 'not-done' })])).verdict).toBe('not measured')
})

test('a loom that its maker tested alone is not proven', () => {
  expect(ringOut(built({ testedBy: 'A' })).verdict).toBe('not measured')
})

test('a loom that its maker tested alone is told of', () => {
  const { findings } = judged(['l-7.json', built({ testedBy: 'a' })])
  expect(findings).toMatchObject([{ rule: 'as-built-open', what: expect.stringContaining('same person') }])
})

test('a record of a harness that is not described, and one that is damaged, are told of', () => {
  const { findings } = judged(['x.json', built({ harness: 'leed' })], ['y.json', { asBuilt: 1, steps: 3 }])
  expect(findings.map(({ rule, fix }) => [rule, fix])).toEqual([
    ['record-shape', 'Download it again.'],
    ['record-place', 'Did you mean “lead”?'],
  ])
})

test('a record of the present issue is held against the steps of its harness', () => {
  const match = ringOut(built()).loom?.now.match
  const { rules, loom } = ringOut(built({ match }))
  expect(rules).toEqual(['as-built-open'])
  expect(loom?.gaps).toEqual([
    expect.stringMatching(/^\d+ steps of the harness are not in the record\.$/),
    '1 step of the record is none of the harness.',
  ])
})
