import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import rehypeStringify from 'rehype-stringify'
import remarkGfm from 'remark-gfm'
import remarkParse from 'remark-parse'
import remarkRehype from 'remark-rehype'
import { unified } from 'unified'
import { describe, expect, test } from 'vitest'
import { toCsv } from '../../src/sheets/csv.ts'
import { toMarkdown } from '../../src/sheets/markdown.ts'
import { markdownText } from '../../src/sheets/markdown-text.ts'
import { CSV_PAPERS, papersOf } from '../../src/sheets/papers.ts'
import { cellOf, columnTitle, type Sheet } from '../../src/sheets/sheet.ts'
import { makeTemplates, markup, TemplateError } from '../../src/sheets/templates.ts'
import { firstUse, sample } from './sample-shop.ts'

const { loom, solution } = sample()
const papers = papersOf(loom, firstUse(loom), solution)

function sheetOf(texts: readonly string[]): Sheet {
  const [first] = papers
  if (!first) throw new Error('no paper')
  return {
    ...first,
    columns: texts.map((_, index) => ({ key: String(index), heading: `C${index}` })),
    sections: [{ rows: [{ cells: Object.fromEntries(texts.map((text, index) => [String(index), text])) }] }],
  }
}

const anyText = fc.string({ unit: 'grapheme', maxLength: 40 })
const spiteful = fc.oneof(
  anyText,
  fc.constantFrom('=1+1', '+SUM(A1)', '-2+3', '@x', '"', 'a,b', 'a\nb', '\r\n', "'", ';', '\t=1', ' = 2', ''),
)

describe('CSV (RFC 4180)', () => {
  test.each(papers.filter((sheet) => CSV_PAPERS.has(sheet.id)).map((sheet) => [sheet.id, sheet] as const))(
    '%s reads back cell for cell',
    (_, sheet) => {
      const rows = parse(toCsv(sheet), { record_delimiter: '\r\n' }) as string[][]
      const wanted = sheet.sections.flatMap((one) =>
        one.rows.map((row) => sheet.columns.map((c) => cellOf(row, c))),
      )
      expect(rows.length - 1).toBe(wanted.length)
      const skip = (rows[0]?.length ?? 0) - sheet.columns.length - 3
      expect(rows[0]?.slice(skip, -3)).toEqual(sheet.columns.map(columnTitle))
      // A guard is one apostrophe in front of what a spreadsheet would run.
      const unguarded = (text: string) => text.replace(/^'(?=\s*[=+\-@])/, '')
      rows.slice(1).forEach((row, index) => {
        expect(row.slice(skip, -3).map(unguarded)).toEqual(wanted[index])
        expect(row.slice(-3)).toEqual(['TS-1', 'B', sheet.head.match])
      })
    },
  )

  test('any text comes back, and none begins a formula', () => {
    fc.assert(
      fc.property(fc.array(spiteful, { minLength: 1, maxLength: 6 }), (texts) => {
        const [, row] = parse(toCsv(sheetOf(texts)), { record_delimiter: '\r\n' }) as string[][]
        texts.forEach((text, index) => {
          const back = row?.[index] ?? ''
          expect([text, `'${text}`]).toContain(back)
          if (/^\s*[=@]/.test(back)) throw new Error(`a formula: ${back}`)
        })
      }),
    )
  })
})

describe('Markdown', () => {
  const toHtml = unified().use(remarkParse).use(remarkGfm).use(remarkRehype).use(rehypeStringify)
  const named: Readonly<Record<string, string>> = { lt: '<', gt: '>', quot: '"', amp: '&' }
  const read = (html: string) =>
    html
      .replace(/<[^>]+>/g, '')
      .replace(/&(?:#x([0-9a-f]+)|(\w+));/gi, (all, hex: string | undefined, name: string | undefined) =>
        hex ? String.fromCodePoint(Number.parseInt(hex, 16)) : (named[name ?? ''] ?? all),
      )

  test('any text stays text: no markup, no link, no HTML', () => {
    const marks = fc.constantFrom(
      '*a*',
      '[x](javascript:1)',
      '<b>',
      '`c`',
      '| d',
      '&lt;',
      '# h',
      '1. x',
      '~~s~~',
      '![i](j)',
      'www.a.org',
      'a@b.org',
      '\\',
      '- x',
      '> q',
    )
    const texts = fc
      .array(fc.oneof(marks, fc.string({ maxLength: 12 })), { maxLength: 4 })
      .map((all) => all.join(' '))
    fc.assert(
      fc.property(texts, (text) => {
        const flat = text.replace(/\s+/g, ' ').trim()
        const html = String(toHtml.processSync(markdownText(text)))
        // A bare address may link to itself and to nothing else.
        const plain = html.replace(/<a href="(?:mailto:|http:\/\/)([^"]+)">\1<\/a>/g, '$1')
        expect(plain).not.toMatch(/<(?!\/?p>)/)
        expect(read(html).trim()).toBe(flat)
      }),
    )
  })

  test('ordinary words and figures are left as they are', () => {
    for (const text of [
      'RD red',
      '3.5 m (11 ft 5.8 in)',
      'P2-7',
      '−0 / +150',
      '0.34 mm² (≈22 AWG)',
      'at most 30.6 mΩ',
    ])
      expect(markdownText(text)).toBe(text)
  })

  test.each(papers.map((sheet) => [sheet.id, sheet] as const))(
    '%s has its head, its rows and its boxes',
    (_, sheet) => {
      const text = toMarkdown(sheet)
      expect(text).toContain(`- Match code: ${sheet.head.match}`)
      const rows = text.split('\n').filter((line) => line.startsWith('| '))
      const wanted = sheet.sections.reduce(
        (sum, section) => sum + (section.rows.length > 0 ? section.rows.length + 2 : 0),
        0,
      )
      expect(rows).toHaveLength(wanted)
    },
  )
})

describe('templates', () => {
  test('escape everything but what this program made', () => {
    const { render } = makeTemplates({ a: '{{x}}|{{y}}' })
    expect(render('a', { x: '<script>"\'', y: markup('<b>ok</b>') })).toBe(
      '&lt;script&gt;&quot;&#x27;|<b>ok</b>',
    )
  })

  test.each([
    ['a broken tag', { page: 'one\ntwo {{#if x}}\nthree' }, 'page', 3],
    ['a misspelt field', { page: 'one\n{{title}}\n{{titel}}' }, 'page', 3],
    ['a misspelt field in a shared piece', { page: '{{> part}}', part: 'x\n{{nothing}}' }, 'part', 2],
  ])('%s names its file and line', (_, sources, file, line) => {
    const run = () => makeTemplates(sources as Record<string, string>).render('page', { title: 't' })
    expect(run).toThrow(TemplateError)
    try {
      run()
    } catch (error) {
      expect(error).toMatchObject({ file: `${file}.hbs`, line })
    }
  })

  test('a template that is not there is named', () => {
    expect(() => makeTemplates({}).render('gone', {})).toThrow('gone.hbs')
  })
})
