import { describe, expect, test } from 'vitest'
import { electricalRules } from '../../src/check/electrical-rules.ts'
import { BOUNDARIES, type Boundary } from './boundaries.ts'
import { checkDocuments } from './check-document.ts'

/** Half a per cent: well under any tolerance of the trade, well over rounding. */
const STEP = 0.005

function trips({ rule, make }: Boundary, value: number): boolean {
  const { findings, heldBack } = checkDocuments(make(value))
  return [...findings, ...heldBack].some((finding) => finding.rule === rule)
}

describe('just below, on and just above the limit', () => {
  test.each(BOUNDARIES.map((boundary) => [`${boundary.rule}: ${boundary.of}`, boundary] as const))(
    '%s',
    (_, boundary) => {
      const { limit, bad, on, by = STEP, source } = boundary
      expect(limit, source).toBeGreaterThan(0)
      expect({ below: trips(boundary, limit * (1 - by)), above: trips(boundary, limit * (1 + by)) }).toEqual({
        below: bad === 'below',
        above: bad === 'above',
      })
      if (on) expect(trips(boundary, limit), 'on the limit').toBe(on === 'trips')
    },
  )

  test('at least 25 rules have their limits tried', () => {
    const rules = new Set(BOUNDARIES.map(({ rule }) => rule))
    expect(rules.size).toBeGreaterThanOrEqual(25)
    const electrical = electricalRules.filter(({ id }) => rules.has(id))
    expect(electrical.length).toBeGreaterThan(12)
  })
})
