import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { onlyFrom } from '../../src/report/check-report.ts'
import { sourceExcerpt } from '../../src/report/source-excerpt.ts'
import { printText, type TextOptions } from '../../src/report/text.ts'
import { cells, wrap } from '../../src/report/text-layout.ts'
import { printTroubles } from '../../src/report/trouble-text.ts'
import { EMPTY, finding, locate, SAMPLE, sourceLine } from './sample-report.ts'

const options: TextOptions = { width: 90, colour: false, locate, sourceLine }

describe('the report for people', () => {
  test('reads as a technician needs it, whole', () => {
    expect(printText(SAMPLE, options)).toBe(`── pickup-17 ── 1 stop, 0 warnings, 1 note

STOP voltage-at-load · 1.30 V lost in transmit, limit 0.5 V
  pickup.json:3:7 · pickup-17/radio.J1.1
    3 │ { "id": "A03", "size": "1.5 mm²" }
          ^
  Why      return A03 is 74 mΩ of the 108 mΩ loop at 12 A
  Fix      A03 to 6 mm² (10 AWG) gives 0.62 V
  Assumed  2 mΩ per joint; 20 °C
  See      the limit is set here (policy.json:3:6)

NOTE spare-pins · no spare pin
  pickup.json:3:7 · pickup-17/main.P1
    3 │ { "id": "A03", "size": "1.5 mm²" }
          ^
  Why      return A03 is 74 mΩ of the 108 mΩ loop at 12 A
  Fix      A03 to 6 mm² (10 AWG) gives 0.62 V

── launch ── 0 stops, 1 warning, 0 notes

WARNING mirrored-connector · 1.30 V lost in transmit, limit 0.5 V
  pickup.json:3:7 · launch/main.P1
    3 │ { "id": "A03", "size": "1.5 mm²" }
          ^
  Why      return A03 is 74 mΩ of the 108 mΩ loop at 12 A
  Fix      A03 to 6 mm² (10 AWG) gives 0.62 V

Accepted in the shop's policy (1):
  - STOP fuse-near-source · pickup-17/main.F2: 600 mm from the battery. Accepted by R.
    Alder, 2025-03-01: in conduit all the way

Not checked, for want of a fact (3 times; this is no pass):
  - standing-drain: needs the current it draws when off, for launch/plotter.J1.2,
    launch/radio.J1.1
  - fuse-near-source: needs its length from the battery, for launch/main.F1

1 stop, 1 warning, 1 note, 1 accepted, 3 not checked. Do not build.
`)
  })

  test('a clean report says so, and says no more than it knows', () => {
    expect(printText(EMPTY, options)).toBe('0 stops, 0 warnings, 0 notes. Nothing stops the work.\n')
  })

  test('a report cut to its stops still counts everything, and says that it is cut', () => {
    const text = printText(onlyFrom(SAMPLE, 'stop'), options)
    expect(text).not.toMatch(/^(WARNING|NOTE)/m)
    expect(text).toMatch(
      /\n1 stop, 1 warning, 1 note, 1 accepted, 3 not checked\. 2 of them not shown\. Do not build\.\n$/,
    )
  })

  test('colour adds escapes and changes no word; without it there is none', () => {
    const painted = printText(SAMPLE, { ...options, colour: true })
    const stripped = painted.replace(/\u001b\[[\d;]*m/g, '')
    expect(painted).toContain('\u001b[1;31mSTOP')
    expect(stripped).toBe(printText(SAMPLE, options))
  })

  test('what a user typed cannot steer the terminal', () => {
    const evil = 'a\u001b[2Jb\u001b]0;title\u0007c\u202ed\re\u009b31mf\u0000\nSTOP forged'
    const report = {
      findings: [
        finding({
          what: evil,
          why: evil,
          fix: evil,
          assumed: [evil],
          subject: evil,
          notes: [{ text: evil }],
        }),
      ],
      notChecked: [{ rule: 'r', subject: evil, needs: evil }],
      waived: [{ finding: finding({}), waiver: { rule: 'r', at: evil, reason: evil, by: evil, date: evil } }],
    }
    const text = printText(report, { ...options, sourceLine: () => evil })
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/)
    expect(text).not.toMatch(/^STOP forged/m)
  })
})

describe('source excerpts', () => {
  test.each([
    ['a tab counts as its cells', '\tx = "é日"; y', 12, '3 │ x = "é日"; y', 'y'],
    ['an indent is dropped', '        wire(1)', 9, '3 │ wire(1)', 'w'],
  ])('%s', (_, raw, column, shown, under) => {
    const [text, caret] = sourceExcerpt({ file: 'f', line: 3, column }, () => raw, 80) ?? ['', '']
    expect(text).toBe(shown)
    const upTo = [...text].map((_, i, all) => all.slice(0, i + 1).join(''))
    expect(upTo.find((head) => cells(head) >= cells(caret))?.at(-1)).toBe(under)
  })

  test('one line of a megabyte is cut to the column', () => {
    const raw = `${'x'.repeat(500_000)}HERE${'y'.repeat(500_000)}`
    const [text = '', caret = ''] =
      sourceExcerpt({ file: 'f', line: 1, column: 500_001 }, () => raw, 80) ?? []
    expect(cells(text)).toBeLessThanOrEqual(120)
    expect(text.slice(caret.length - 1).startsWith('HERE')).toBe(true)
  })

  test('a column past the end, an unknown line and an empty one do no harm', () => {
    expect(sourceExcerpt({ file: 'f', line: 1, column: 99 }, () => 'ab', 80)).toEqual(['1 │ ab', '      ^'])
    expect(sourceExcerpt({ file: 'f', line: 1, column: 1 }, () => undefined, 80)).toBeUndefined()
    expect(sourceExcerpt({ file: 'f', line: 1, column: 1 }, () => '  ', 80)).toBeUndefined()
  })
})

test('wrapping loses no word and keeps to the width', () => {
  const word = fc.string({ minLength: 1, maxLength: 12 }).filter((w) => !/\s/u.test(w))
  fc.assert(
    fc.property(
      fc.array(word, { minLength: 1, maxLength: 40 }),
      fc.integer({ min: 12, max: 80 }),
      (words, width) => {
        const lines = wrap(words.join(' '), width)
        expect(lines.join(' ')).toBe(words.join(' '))
        for (const line of lines) if (line.includes(' ')) expect(cells(line)).toBeLessThanOrEqual(width)
      },
    ),
  )
})

test('troubles are printed at their place, and no more than a screen of them', () => {
  const trouble = { what: 'expected “,”', fix: 'add a comma', place: { file: 'a.json', line: 3, column: 7 } }
  expect(printTroubles([trouble], sourceLine, 80)).toBe(
    'a.json:3:7: expected “,”\n  3 │ { "id": "A03", "size": "1.5 mm²" }\n        ^\n  Fix: add a comma\n',
  )
  expect(printTroubles(Array(25).fill(trouble), sourceLine, 80)).toMatch(/and 5 more; mend these first\n$/)
})
