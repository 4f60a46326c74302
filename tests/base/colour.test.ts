import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  COLOUR_CODES,
  COLOURS,
  type Colour,
  colourLabel,
  joinColours,
  parseColour,
} from '../../src/base/colour.ts'
import {
  DIN_47100,
  din47100Core,
  T568A,
  T568B,
  TIA_568_PAIRS,
  twentyFivePair,
} from '../../src/base/core-scheme.ts'

describe('a colour of IEC 60757', () => {
  test.each([
    ['RD', 'red', 'RD'],
    ['GNYE', 'green and yellow', 'GNYE'],
    ['RDBU', 'red and blue', 'RDBU'],
    ['WHBU', 'white and blue', 'BUWH'],
    ['GYRD', 'grey and red', 'RDGY'],
  ])('%s is %s, by the standard %s', (code, words, canonical) => {
    const read = parseColour(code)
    expect(read.ok && [read.value.words, read.value.canonical]).toEqual([words, canonical])
  })

  test.each([
    ['rd', /write “RD” \(red\)/],
    ['red', /write “RD” \(red\)/],
    ['Slate', /write “GY” \(grey\)/],
    ['BL', /“BK” \(black\) or “BU” \(blue\)/],
    ['WH/BU', /write “WHBU”/],
    ['white/blue', /write “WHBU”/],
    ['green-yellow', /write “GNYE”/],
    ['YEGN', /always written “GNYE”/],
    ['RDRD', /write “RD” \(red\)/],
    ['XX', /such as “RD”/],
    ['', /not a colour code/],
    ['constructor', /not a colour code/],
  ])('%s is refused', (text, problem) => {
    const read = parseColour(text)
    expect(read.ok ? '' : read.problem).toMatch(problem)
  })

  test('every single and double code is read, and its canonical form is read as itself', () => {
    for (const first of COLOUR_CODES) {
      for (const second of ['', ...COLOUR_CODES]) {
        if (first === second || first + second === 'YEGN') continue
        const read = parseColour(first + second)
        expect(read.ok, first + second).toBe(true)
        const again = parseColour(read.ok ? read.value.canonical : '')
        expect(again.ok && again.value.canonical).toBe(read.ok && read.value.canonical)
      }
    }
  })

  test('a misspelt colour does not compile', () => {
    // @ts-expect-error there is no RE
    const slip: Colour = 'RE'
    // @ts-expect-error the same colour twice is one colour
    const twice: Colour = 'RDRD'
    // @ts-expect-error protective earth has one spelling
    const earth: Colour = 'YEGN'
    expect([slip, twice, earth]).toHaveLength(3)
  })

  test('cores of a cable are joined as the standard does', () => {
    expect(joinColours(['BK', 'BK', 'BN', 'BU', 'GNYE'])).toBe('BK+BK+BN+BU+GNYE')
  })

  test('the label has code and words; an unknown code stands as it is', () => {
    expect(colourLabel('GNYE')).toBe('GNYE green and yellow')
    expect(colourLabel('ZZ')).toBe('ZZ ZZ')
  })

  test('no text makes it throw', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary' }), (text) => typeof parseColour(text).ok === 'boolean'))
  })

  test('every screen colour reaches 4.5 : 1 against its ink (WCAG 2.2)', () => {
    const light = (hex: string) => {
      const part = (start: number) => {
        const share = Number.parseInt(hex.slice(start, start + 2), 16) / 255
        return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
      }
      return 0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    }
    for (const code of COLOUR_CODES) {
      const { hex, ink } = COLOURS[code]
      const contrast = ink === 'black' ? (light(hex) + 0.05) / 0.05 : 1.05 / (light(hex) + 0.05)
      expect(contrast, `${code} ${hex}`).toBeGreaterThanOrEqual(4.5)
    }
  })
})

describe('core schemes', () => {
  test('DIN 47100 has 44 different cores, all of them colours', () => {
    expect(new Set(DIN_47100).size).toBe(44)
    expect(din47100Core(12, 44)).toBe('RDBU')
    expect(din47100Core(39, 44)).toBe('GYRD')
    expect(din47100Core(45, 50)).toBe('WH')
    expect(din47100Core(2, 4)).toBe('YE')
    expect(din47100Core(5, 4)).toBeUndefined()
    for (const colour of DIN_47100) expect(parseColour(colour).ok, colour).toBe(true)
  })

  test('TIA-568 schemes differ by exchanging pairs 2 and 3 only, and a pair is a colour and white with it', () => {
    for (const [scheme, pins] of [
      [T568A, TIA_568_PAIRS.T568A],
      [T568B, TIA_568_PAIRS.T568B],
    ] as const) {
      for (const pair of [1, 2, 3, 4] as const) {
        const [tip, ring] = pins[pair]
        expect(scheme[tip - 1]).toBe(`WH${scheme[ring - 1]}`)
      }
    }
    expect([T568B[2], T568B[5]]).toEqual(['WHGN', 'GN'])
    expect([1, 2, 3, 6].map((pin) => T568A[pin - 1])).toEqual([3, 6, 1, 2].map((pin) => T568B[pin - 1]))
  })

  test.each([
    [1, 'WH', 'BU'],
    [9, 'RD', 'BN'],
    [13, 'BK', 'GN'],
    [14, 'BK', 'BN'],
    [25, 'VT', 'GY'],
  ])('pair %d of 25 is %s with %s', (pair, tip, ring) => {
    expect(twentyFivePair(pair)).toMatchObject({ tipGroup: tip, ringGroup: ring })
  })

  test('there are 25 pairs and no more', () => {
    expect(new Set(Array.from({ length: 25 }, (_, index) => twentyFivePair(index + 1)?.tip)).size).toBe(25)
    for (const pair of [0, -1, 26, 1.5, Number.NaN]) expect(twentyFivePair(pair)).toBeUndefined()
  })
})
