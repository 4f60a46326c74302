import { describe, expect, test } from 'vitest'
import { standardRules } from '../../src/check/standard-rules.ts'
import { ruleExamples } from '../../src/wiki/rule-example.ts'

const exampleOf = ruleExamples()

describe('the examples on the pages of rules', () => {
  test.each(standardRules.map(({ id }) => id))(
    '%s: says what it finds and what makes the difference',
    (id) => {
      const example = exampleOf(id)
      expect(example?.says.length).toBeGreaterThan(0)
      expect(example?.changes.length).toBeGreaterThan(0)
      for (const { place, trips, passes } of example?.changes ?? []) {
        expect(place).not.toBe('')
        expect(trips).not.toBe(passes)
      }
    },
  )

  test('names things and not positions, and both values', () => {
    expect(exampleOf('feeder-drop')?.changes[0]).toEqual({
      place: 'harnesses › lead › wires › B01 › size',
      trips: '"10 mm²"',
      passes: '"25 mm²"',
    })
  })

  test('says what one of the two does not state', () => {
    const { changes } = exampleOf('empty-cavities-plugged') ?? { changes: [] }
    expect(changes).toEqual([
      { place: 'harnesses › lead › connectors › P1 › plugEmpty', trips: 'false', passes: 'true' },
    ])
  })

  test('is none for rules without examples', () => {
    expect(exampleOf('name-not-found')).toBeUndefined()
  })
})
