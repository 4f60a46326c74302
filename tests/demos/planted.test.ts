import { describe, expect, it } from 'vitest'
import { standardRules } from '../../src/check/standard-rules.ts'
import { allFindings, type Job, job, words } from './demo-shop.ts'
import { PLANTED, type Planted, REMAINING } from './planted.ts'

/** The 28 faults to find first; the planted ones among them are in the table, the rest have examples of their own. */
const FIRST = [
  ...['M1', 'M2', 'M3', 'M5', 'P1', 'P5', 'P6', 'P8', 'P9', 'W1', 'W3', 'W10', 'W11', 'W14', 'W15'],
  ...['L1', 'L2', 'L3', 'L6', 'A1', 'A3', 'A14', 'C1', 'C4', 'D1', 'D5', 'G2', 'X2'],
]

const rulesFor = (code: string) =>
  standardRules.filter(({ covers }) => covers.includes(code)).map(({ id }) => id)

const matches = (one: Job, { code, at, says }: Planted) =>
  allFindings(one).filter(
    (finding) =>
      rulesFor(code).includes(finding.rule) &&
      at.test(finding.subject) &&
      says.every((text) => text.test(words(finding))),
  )

const rows = PLANTED.map((each) => [each.job, each.code, each.fault, each] as const)

it('there is a rule for each of the 28', () => {
  expect(FIRST).toHaveLength(28)
  expect(FIRST.filter((code) => rulesFor(code).length === 0)).toEqual([])
})

describe('planted faults', () => {
  it.each(rows)('%s as planned: %s, %s', (id, code, _, planted) => {
    const planned = job(`${id}-planned`)
    // On failure the diff shows what that rule did find.
    const near = allFindings(planned).filter(({ rule }) => rulesFor(code).includes(rule))
    expect(
      matches(planned, planted).length,
      near.map((f) => `${f.subject}: ${words(f)}`).join('\n\n'),
    ).toBeGreaterThan(0)
  })

  it.each(rows)('%s as mended: no %s, %s', (id, _code, _fault, planted) => {
    expect(matches(job(id), { ...planted, says: [] }).map(({ what }) => what)).toEqual([])
  })
})

describe('the mended jobs', () => {
  it.each(Object.keys(REMAINING))('%s has no stop', (id) => {
    const stops = job(id).result.findings.filter(({ level }) => level === 'stop')
    expect(stops.map(({ rule, what }) => `${rule}: ${what}`)).toEqual([])
  })

  it.each(Object.entries(REMAINING))('%s keeps only warnings that are right', (id, right) => {
    const left = job(id).result.findings.map(({ rule, subject }) => `${rule} ${subject}`)
    expect(left.sort()).toEqual(Object.keys(right).sort())
  })
})
