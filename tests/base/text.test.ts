import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  csvRecord,
  escapeAttribute,
  escapeCsvField,
  escapeHtml,
  escapeMarkdown,
  escapeSvgText,
  escapeTerminal,
  jsonForScript,
} from '../../src/base/escape.ts'
import { formatTimes } from '../../src/base/format-quantity.ts'
import { hashCode, hashText, matchCode } from '../../src/base/hash.ts'
import { naturalOrder, sortNaturally } from '../../src/base/natural-order.ts'
import { slug, uniqueSlugs } from '../../src/base/slug.ts'
import { didYouMean, editDistance, suggest } from '../../src/base/suggest.ts'

const anyText = fc.string({ unit: 'binary' })

describe('natural order', () => {
  test('numbers within names are compared as numbers', () => {
    const sorted = ['1', '2', '10', 'A1', 'A2', 'A02', 'A10', 'A10a', 'b1', 'J1-2', 'J1-10', 'J2-1']
    expect(sortNaturally([...sorted].reverse(), (name) => name)).toEqual([
      '1',
      '2',
      '10',
      'A1',
      'A02',
      'A2',
      'A10',
      'A10a',
      'b1',
      'J1-2',
      'J1-10',
      'J2-1',
    ])
  })
  test('digits beyond what a number holds are still in order', () => {
    expect(naturalOrder('9007199254740993', '9007199254740992')).toBeGreaterThan(0)
  })
  test('it is a total order that only equal texts share a place in', () => {
    const name = fc.stringMatching(/^[aA0-9-]{0,6}$/)
    fc.assert(
      fc.property(name, name, name, (a, b, c) => {
        expect(Math.sign(naturalOrder(a, b))).toBe(-Math.sign(naturalOrder(b, a)) + 0)
        expect(naturalOrder(a, b) === 0).toBe(a === b)
        if (naturalOrder(a, b) <= 0 && naturalOrder(b, c) <= 0)
          expect(naturalOrder(a, c)).toBeLessThanOrEqual(0)
      }),
    )
  })
})

describe('suggestions', () => {
  test.each([
    ['kitten', 'sitting', 3],
    ['ab', 'ba', 1],
    ['', 'abc', 3],
    ['abc', 'abc', 0],
    ['abcdefghij', 'z', 6],
  ])('from %s to %s takes %d slips', (a, b, slips) => {
    expect(editDistance(a, b)).toBe(slips)
  })
  test('the nearest names come first and far ones not at all', () => {
    expect(suggest('j1', ['J1', 'J2', 'K7'])).toEqual(['J1'])
    expect(suggest('speeker', ['battery', 'speaker', 'fuse'])).toEqual(['speaker'])
    expect(suggest('xyz', ['battery', 'fuse'])).toEqual([])
    expect(didYouMean('J1l', ['J11', 'J1'])).toBe(' Did you mean “J11” or “J1”?')
    expect(didYouMean('nothing', [])).toBe('')
  })
  test('a megabyte of text is not compared', () => {
    expect(suggest('x'.repeat(1e6), ['x', 'y'.repeat(1e6)])).toEqual([])
    expect(editDistance('x'.repeat(1e6), 'y'.repeat(1e6))).toBe(6)
  })
})

describe('escapes', () => {
  test('HTML and attributes cannot be left, by any text', () => {
    expect(escapeHtml('<b title="x">&\'</b>')).toBe('&lt;b title=&quot;x&quot;&gt;&amp;&#39;&lt;/b&gt;')
    expect(escapeAttribute('a\n"b`')).toBe('a&#10;&quot;b&#96;')
    fc.assert(
      fc.property(anyText, (text) => {
        for (const out of [escapeHtml(text), escapeAttribute(text), escapeSvgText(text)]) {
          expect(out).not.toMatch(/[<>"']|&(?!amp;|lt;|gt;|quot;|#\d+;)/)
          expect(out).not.toMatch(/\p{Cs}/u)
        }
      }),
    )
  })
  test('SVG text loses what XML forbids and what turns the reading direction round', () => {
    expect(escapeSvgText('a\u0000\u001b[1m\u202eb\n\ud800 c')).toBe('a[1mb c')
  })
  test('JSON within a script element cannot end it', () => {
    const out = jsonForScript({ note: '</script><!--\u2028' })
    expect(out).not.toMatch(/[<>\u2028]/)
    expect(JSON.parse(out)).toEqual({ note: '</script><!--\u2028' })
    expect(jsonForScript(undefined)).toBe('null')
  })
  test('Markdown is inert', () => {
    expect(escapeMarkdown('a|b *c* [d](e)\n# f <g>')).toBe('a\\|b \\*c\\* \\[d\\]\\(e\\) \\# f &lt;g\\>')
  })
  test('a terminal gets neither sequences nor control characters', () => {
    expect(escapeTerminal('a\u001b[31mred\u001b]8;;http://x\u0007b\u202ec\nd')).toBe('aredbc d')
    fc.assert(
      fc.property(anyText, (text) => {
        for (const character of escapeTerminal(text)) {
          const code = character.codePointAt(0) ?? 0
          expect(code >= 0x20 && !(code >= 0x7f && code < 0xa0 && code !== 0x85)).toBe(true)
        }
      }),
    )
  })
})

describe('CSV of RFC 4180', () => {
  test.each([
    ['=1+1', "'=1+1"],
    ['+cmd|x', "'+cmd|x"],
    ['@sum', "'@sum"],
    ['-2+3', "'-2+3"],
    ['\t=1', '"\'\t=1"'],
    ['\r=1', '"\'\r=1"'],
    [' =1', "' =1"],
    ['-12.5', '-12.5'],
    ['-10 dBV', '-10 dBV'],
    ['+4 dBu', '+4 dBu'],
    ['a,b', '"a,b"'],
    ['a"b', '"a""b"'],
  ])('%j is written %j', (text, field) => {
    expect(escapeCsvField(text)).toBe(field)
  })
  test('any record is read back by another parser, but for the guard', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'grapheme' }), { minLength: 2, maxLength: 5 }), (fields) => {
        const [back] = parse(csvRecord(fields), { relax_column_count: true }) as string[][]
        expect(back).toHaveLength(fields.length)
        back?.forEach((field, index) => {
          const original = fields[index] ?? ''
          expect([original, `'${original}`]).toContain(field)
          expect(field).not.toMatch(/^[=@]/)
        })
      }),
    )
  })
})

describe('slugs', () => {
  test.each([
    ['Radio 1 — head unit', 'radio-1-head-unit'],
    ['Überkabel Nº 5', 'uberkabel-no-5'],
    ['../../etc/passwd', 'etc-passwd'],
    ['..', /^n-[0-9a-z]{8}$/],
    ['CON', /^con-[0-9a-z]{4}$/],
    ['com1', /^com1-[0-9a-z]{4}$/],
    ['無線', /^n-[0-9a-z]{8}$/],
  ])('%s', (text, expected) => {
    expect(slug(text)).toMatch(expected instanceof RegExp ? expected : new RegExp(`^${expected}$`))
  })
  test('any text gives a safe name, and different texts different names in any order', () => {
    fc.assert(
      fc.property(fc.uniqueArray(anyText), (texts) => {
        const slugs = uniqueSlugs(texts)
        expect(new Set(slugs.values()).size).toBe(texts.length)
        for (const name of slugs.values()) {
          expect(name).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/)
          expect(name.length).toBeLessThanOrEqual(72)
        }
        expect([...uniqueSlugs([...texts].reverse())].sort()).toEqual([...slugs].sort())
      }),
    )
  })
  test('clashing names do not depend on their order', () => {
    const slugs = uniqueSlugs(['A b', 'a-b', 'A  B'])
    expect(slugs.get('a-b')).toBe('a-b')
    expect(slugs.get('A b')).toMatch(/^a-b-[0-9a-z]{8}$/)
  })
})

describe('hashes', () => {
  test('the same text gives the same code for ever, so printed codes keep matching', () => {
    expect(hashText('')).toBe(3338908027751811)
    expect(hashText('a')).toBe(7929297801672961)
    expect(matchCode('loom')).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$/)
    expect(hashCode('x', 99)).toHaveLength(10)
  })
  test('a hundred thousand neighbouring texts give different hashes', () => {
    const seen = new Set(Array.from({ length: 100_000 }, (_, index) => hashText(`W${index}`)))
    expect(seen.size).toBe(100_000)
  })
})

test.each([
  [1.5, 2, '1.50'],
  [999_999, 0, '999999'],
  [1e6, 1, 'more than a million'],
  [Number.POSITIVE_INFINITY, 2, 'more than a million'],
])('%d times with %d decimals is %s', (ratio, decimals, words) => {
  expect(formatTimes(ratio, decimals)).toBe(words)
})
