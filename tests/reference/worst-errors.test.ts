import { describe, expect, test } from 'vitest'
import { errorOf, TABLE_ERRORS, WORKED_CHECKS } from './worst-errors.ts'

const percent = (share: number): string => `${(100 * share).toPrecision(2)} %`

describe('what is computed, against what is published', () => {
  test.each(TABLE_ERRORS.map((one) => [one.table, one] as const))('%s', (_, { worst, most, cells }) => {
    expect(cells).toBeGreaterThan(2)
    expect(worst).toBeLessThanOrEqual(most)
  })

  test('the list of it, and of the worked checks', () => {
    const ids = new Set(WORKED_CHECKS.map(([id]) => id.replace(/b$/, '')))
    const lines = TABLE_ERRORS.map(
      ({ table, cells, worst, why }) => `  ${table}: ${cells} cells, worst ${percent(worst)} (${why})`,
    )
    const worstChecks = [...WORKED_CHECKS]
      .sort((a, b) => errorOf(b) - errorOf(a))
      .slice(0, 5)
      .map((check) => `  ${check[0]} ${check[1]}: ${check[2]}: ${percent(errorOf(check))}`)
    console.info(
      [
        `${ids.size} worked checks from ${new Set(WORKED_CHECKS.map(([, source]) => source)).size} sources; furthest from their print:`,
        ...worstChecks,
        'Published tables:',
        ...lines,
      ].join('\n'),
    )
    expect(ids.size).toBeGreaterThanOrEqual(80)
    expect(TABLE_ERRORS.reduce((sum, { cells }) => sum + cells, 0)).toBeGreaterThan(250)
  })
})
