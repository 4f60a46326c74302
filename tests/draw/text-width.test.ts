import fc from 'fast-check'
import * as fontkit from 'fontkit'
import { describe, expect, test } from 'vitest'
import { ADVANCES_400, ADVANCES_700 } from '../../src/draw/font/advances.ts'
import { FONT_400, FONT_700 } from '../../src/draw/font/font-data.ts'
import { drawingFontCss } from '../../src/draw/svg-text.ts'
import { hasExactWidth, shorten, textWidth, wrapText } from '../../src/draw/text-width.ts'

const anyText = fc.string({ unit: 'grapheme', maxLength: 60 })

describe('the drawing font', () => {
  test.each([
    ['regular', FONT_400, ADVANCES_400],
    ['bold', FONT_700, ADVANCES_700],
  ] as const)('%s: the table holds the widths that the embedded file draws', (_, data, table) => {
    const font = fontkit.create(Buffer.from(data, 'base64')) as fontkit.Font
    expect(font.unitsPerEm).toBe(1000)
    for (const [width, chars] of table)
      for (const char of chars) {
        const code = char.codePointAt(0) ?? 0
        expect(font.hasGlyphForCodePoint(code), char).toBe(true)
        expect(font.glyphForCodePoint(code).advanceWidth, char).toBe(width)
      }
  })

  test('holds what the trade writes: ohms, micro, degrees, squares, arrows, signs', () => {
    for (const weight of ['regular', 'bold'] as const)
      expect(hasExactWidth('Ω µ μ ° ² → ← ≈ ≤ ≥ + − × – … é Ł', weight)).toBe(true)
  })

  test('both weights together stay under 60 kB', () => {
    expect(drawingFontCss().length).toBeLessThan(60_000)
  })
})

describe('text widths', () => {
  test.each([
    ['A02', (641 + 2 * 600) / 1000],
    ['', 0],
  ])('%s', (text, ems) => {
    // Digits are 600 wide in this font, capital A 641.
    expect(textWidth(text, 10)).toBeCloseTo(10 * ems, 6)
  })

  test('characters the font lacks are given room, wide ones more, combining marks none', () => {
    expect(textWidth('字', 10)).toBeGreaterThan(10)
    expect(textWidth('Ж', 10)).toBeGreaterThan(8)
    expect(textWidth('e\u0301', 10)).toBe(textWidth('e', 10))
  })

  test('never throws and only grows with the text', () => {
    fc.assert(
      fc.property(anyText, anyText, (a, b) => {
        expect(textWidth(a + b, 10)).toBeCloseTo(textWidth(a, 10) + textWidth(b, 10), 6)
      }),
    )
  })

  test('shortened text fits, and is whole where it fits whole', () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 12, max: 400 }), (text, width) => {
        const short = shorten(text, width, 10)
        expect(textWidth(short, 10)).toBeLessThanOrEqual(width)
        if (textWidth(text, 10) <= width) expect(short).toBe(text)
        else expect(short).toMatch(/…$/)
      }),
    )
  })

  test('wrapped lines fit, keep every word in order, and are no more than asked for', () => {
    const words = fc.array(fc.stringMatching(/^[a-zA-Z0-9]{1,8}$/), { minLength: 1, maxLength: 30 })
    fc.assert(
      fc.property(
        words,
        fc.integer({ min: 90, max: 300 }),
        fc.integer({ min: 1, max: 4 }),
        (list, width, most) => {
          const all = wrapText(list.join(' '), width, 10)
          expect(all.join(' ')).toBe(list.join(' '))
          const some = wrapText(list.join(' '), width, 10, most)
          expect(some.length).toBeLessThanOrEqual(most)
          for (const line of [...all, ...some]) expect(textWidth(line, 10)).toBeLessThanOrEqual(width)
        },
      ),
    )
  })
})
