import { describe, expect, test } from 'vitest'
import { faceSeen } from '../../src/catalogue/connectors/face-view.ts'
import { standardCatalogue } from '../../src/resolve/part-index.ts'
import { cavityWords } from '../../src/sheets/cavity-words.ts'

const families = standardCatalogue().flatMap(({ value }) => {
  const part = value()
  return part.kind === 'connector' && part.face ? [{ ...part, face: part.face }] : []
})
const seen = (id: string, half: 'pin' | 'socket', side: 'mating' | 'wire-entry') => {
  const family = families.find((one) => one.id === id)
  if (!family?.face) throw new Error(`no face ${id}`)
  return cavityWords(faceSeen(family.face, half, side))
}

describe('where a cavity is, in words', () => {
  // Numbering: DIN 41652 (pin 1 of the pin half at the left of the wide row), IEC 61076-2-103, IEC 61076-2-101.
  test.each([
    ['dsub-9', 'pin', 'mating', '1', 'wide side up: top row, 1st of 5 from the left'],
    ['dsub-9', 'pin', 'wire-entry', '1', 'wide side up: top row, 5th of 5 from the left'],
    ['dsub-9', 'socket', 'wire-entry', '1', 'wide side up: top row, 1st of 5 from the left'],
    ['dsub-9', 'pin', 'wire-entry', '6', 'wide side up: bottom row, 4th of 4 from the left'],
    ['dsub-hd-15', 'pin', 'mating', '7', 'wide side up: middle row, 2nd of 5 from the left'],
    ['xlr-3', 'pin', 'wire-entry', '3', 'latch up: at 6 o’clock'],
    ['m12-a-5', 'pin', 'mating', '5', 'key up: in the middle'],
    ['screw-terminal-2', 'pin', 'mating', '1', '1st of 2 from the left'],
  ] as const)('%s %s half, %s face, %s: %s', (id, half, side, pin, words) => {
    expect(seen(id, half, side).get(pin)).toBe(words)
  })

  test('no two positions of any standard face share their words', () => {
    for (const family of families)
      for (const side of ['mating', 'wire-entry'] as const) {
        const words = cavityWords(faceSeen(family.face, 'pin', side))
        expect({ id: family.id, count: new Set(words.values()).size }).toEqual({
          id: family.id,
          count: words.size,
        })
      }
  })

  test('every position of a face with rows or on a circle has words', () => {
    const mute = families.filter(({ face, pins }) => pins.length > 2 && cavityWords(face).size < pins.length)
    expect(mute.filter(({ style }) => style !== 'jack').map(({ id }) => id)).toEqual([])
  })

  test('turned over, left is right', () => {
    const [front, back] = [seen('dsub-25', 'pin', 'mating'), seen('dsub-25', 'pin', 'wire-entry')]
    for (const [pin, words] of front) {
      const [, nth, all] = /(\d+)\w\w of (\d+)/.exec(words) ?? []
      const [, turned] = /(\d+)\w\w of/.exec(back.get(pin) ?? '') ?? []
      expect(Number(nth) + Number(turned)).toBe(Number(all) + 1)
    }
  })

  test('positions that words would not tell apart get none', () => {
    const pins = Object.fromEntries(
      Array.from({ length: 12 }, (_, index) => {
        const ring = index < 6 ? 4 : 9
        const turn = (index % 6) * 60 + 15
        return [
          String(index + 1),
          { xMm: ring * Math.sin((turn * Math.PI) / 180), yMm: ring * Math.cos((turn * Math.PI) / 180) },
        ]
      }),
    )
    const words = cavityWords({ of: 'pin', outline: { shape: 'circle', dMm: 22 }, pins })
    expect(new Set(words.values()).size).toBe(words.size)
  })
})
