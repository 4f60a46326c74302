import { describe, expect, test } from 'vitest'
import { COLOUR_AND_AUDIO_CHECKS } from './checks-colour-and-audio.ts'
import { RADIO_AND_MECHANICS_CHECKS } from './checks-radio-and-mechanics.ts'
import { WIRE_AND_POWER_CHECKS } from './checks-wire-and-power.ts'

const CHECKS = [WIRE_AND_POWER_CHECKS, COLOUR_AND_AUDIO_CHECKS, RADIO_AND_MECHANICS_CHECKS].flat()

describe('published worked checks', () => {
  for (const [id, source, question, answer, printed, within = 0] of CHECKS) {
    test(`${id} (${source}): ${question}`, () => {
      expect(answer).toHaveLength(printed.length)
      printed.forEach((wanted, index) => {
        const got = answer[index]
        if (typeof wanted !== 'number' || typeof got !== 'number') expect(got).toBe(wanted)
        else expect(Math.abs(got - wanted), `${got} for ${wanted}`).toBeLessThanOrEqual(within)
      })
    })
  }

  test('at least 90 different ones are covered', () => {
    expect(new Set(CHECKS.map(([id]) => id.replace(/b$/, ''))).size).toBeGreaterThanOrEqual(90)
  })
})
