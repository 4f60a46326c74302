import { describe, expect, it } from 'vitest'
import type { Finding } from '../../src/base/finding.ts'
import { standardRules } from '../../src/check/standard-rules.ts'
import { checkDocument } from './check-document.ts'
import { sentences } from './rule-sentences.ts'

const brief = ({ subject, what }: Finding) => `${subject}: ${what}`

describe.each(standardRules.map((rule) => [rule.id, rule] as const))('%s', (id, rule) => {
  it('says exactly what its tripping example does wrong', () => {
    const { findings } = checkDocument(rule.examples.trips)
    expect(findings.map((finding) => finding.rule)).toEqual(findings.map(() => id))
    expect(findings.map(brief)).toEqual(sentences[id])
  })

  it('gives each finding a reason, a cure, a place and a fact', () => {
    const { findings } = checkDocument(rule.examples.trips)
    expect(findings.length).toBeGreaterThan(0)
    for (const finding of findings) {
      expect(finding.what).not.toMatch(/undefined|NaN|\.$/)
      expect(finding.why).toMatch(/^\S.*\.$/s)
      expect(finding.why).not.toMatch(/undefined|NaN/)
      expect(finding.fix).toMatch(/^\S.*\.$/s)
      expect(finding.fix).not.toMatch(/undefined|NaN/)
      expect(finding.at.path.length).toBeGreaterThan(0)
      expect(Object.keys(finding.facts).length).toBeGreaterThan(0)
    }
  })

  it('has nothing to say about its passing example', () => {
    const { findings, heldBack, notChecked } = checkDocument(rule.examples.passes)
    expect([...findings, ...heldBack]).toEqual([])
    expect(notChecked.filter((entry) => entry.rule === id)).toEqual([])
  })

  it('is documented', () => {
    expect(id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/)
    for (const text of [rule.title, rule.reason, rule.remedy, rule.needs])
      expect(text.length).toBeGreaterThan(10)
    expect(rule.sources.length).toBeGreaterThan(0)
    expect(rule.covers.length).toBeGreaterThan(0)
  })
})

const others = standardRules.flatMap((rule) =>
  (rule.others ?? []).map((other) => [rule.id, other.covers, rule, other] as const),
)

it.each(others)('%s has an example of its own for %s', (id, covers, rule, { trips, passes }) => {
  expect(rule.covers).toContain(covers)
  const found = checkDocument(trips).findings
  expect(found.map((finding) => finding.rule)).toEqual([id])
  expect(checkDocument(passes).findings).toEqual([])
})

it('names every rule once', () => {
  const ids = standardRules.map((rule) => rule.id)
  expect(new Set(ids).size).toBe(ids.length)
})

it('has sentences for rules that exist and no others', () => {
  expect(Object.keys(sentences).sort()).toEqual(standardRules.map((rule) => rule.id).sort())
})
