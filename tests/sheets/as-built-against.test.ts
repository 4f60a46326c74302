import { describe, expect, test } from 'vitest'
import type { AsBuilt, AsBuiltStep } from '../../src/describe/as-built.ts'
import { asBuiltAgainst } from '../../src/sheets/as-built-against.ts'
import { benchSteps } from '../../src/sheets/bench-steps.ts'
import { firstUse, sample } from './sample-shop.ts'

const { loom, solution } = sample()
const steps = benchSteps(loom, firstUse(loom), solution)

const rows = steps.map(
  ({ id, stage, section, what, ask, min, max }, index): AsBuiltStep => ({
    ...{ id, number: index + 1, stage, section, what, ask, min, max },
    verdict: 'not-done',
  }),
)
const record = (own: AsBuiltStep[], stepCount = own.length): AsBuilt => ({
  ...{ asBuilt: 1, harness: 'van', title: 'Van radio loom', match: 'X', serial: '1' },
  ...{ madeBy: 'A', testedBy: 'B', meter: { kind: 'hand', serial: 'M', leadOhms: 0 } },
  ...{ started: '2026-02-03T13:00:00.000Z', finished: '2026-02-03T14:00:00.000Z', stepCount, steps: own },
})

describe('a record held against the steps of its harness', () => {
  test('as the page writes it, there is nothing to say, nor after a way through JSON', () => {
    expect(asBuiltAgainst(record(rows), steps)).toEqual([])
    expect(asBuiltAgainst(JSON.parse(JSON.stringify(record(rows))), steps)).toEqual([])
  })

  test('an edited limit is told with both figures', () => {
    const at = steps.findIndex(({ what }) => what === 'R1 to P1-1')
    const bent = rows.map((row, index) => (index === at ? { ...row, max: 50 } : row))
    expect(asBuiltAgainst(record(bent), steps)).toEqual([
      expect.stringMatching(
        /^Step \d+, R1 to P1-1, was judged by “at most 50 Ω”; the harness asks for “at most \d+(\.\d+)? mΩ”\.$/,
      ),
    ])
  })

  test('a measurement turned into a tick is told', () => {
    const bent = rows.map((row) => (row.ask === 'ohms' ? { ...row, ask: 'done' as const } : row))
    const lines = asBuiltAgainst(record(bent), steps)
    expect(lines[0]).toMatch(/was judged by “done”/)
    expect(lines.at(-1)).toMatch(/^\d+ more were judged by other limits\.$/)
    expect(lines).toHaveLength(4)
  })

  test('steps left out or added are counted, unless the record owns up to them', () => {
    expect(asBuiltAgainst(record(rows.slice(2)), steps)).toEqual([
      '2 steps of the harness are not in the record.',
    ])
    expect(asBuiltAgainst(record(rows.slice(2), rows.length), steps)).toEqual([])
    const added = [...rows, { ...(rows[0] as AsBuiltStep), id: 'none' }]
    expect(asBuiltAgainst(record(added), steps)).toEqual(['1 step of the record is none of the harness.'])
  })
})
