import { posix } from 'node:path'
import { HtmlValidate } from 'html-validate'
import { beforeAll, describe, expect, test } from 'vitest'
import type { SiteFile } from '../../src/wiki/site-input.ts'
import { visit } from './fitted-shop.ts'
import { siteWith } from './site.ts'

const WILD = '<script>alert(1)</script>"><img src=x onerror=alert(1)> =cmd|calc!A1 \u202egnp'

const RECORDS = [
  ['van-1.readings.json', visit({ looms: [{ loom: 'main', revision: 'A', serial: '7' }] })],
  [
    'van-2.readings.json',
    visit({
      asset: 'Van 2',
      values: [
        { limit: 'radio.J1.1/drop/transmit', reading: '0.9 V', note: 'warm' },
        { limit: 'main.F1/rating', reading: '15 A' },
      ],
      deviations: [{ at: 'main.A2', what: 'Longer by half a metre', why: 'Rack', by: 'K' }],
      open: ['Where does the rack go?'],
    }),
  ],
  ['van-2-before.readings.json', visit({ asset: 'Van 2', date: '2026-02-01' })],
  [
    'wild.readings.json',
    visit({
      asset: WILD.slice(0, 60),
      by: WILD.slice(0, 60),
      deviations: [{ at: WILD, what: WILD }],
      open: [WILD],
      values: [{ limit: 'main.F1/rating', reading: '15 A', note: WILD }],
      equipment: [{ unit: 'radio', serial: WILD.slice(0, 60), firmware: WILD.slice(0, 60) }],
    }),
  ],
] as const

let files: SiteFile[]
const page = (path: string): string => files.find((file) => file.path === path)?.content ?? ''
beforeAll(async () => {
  files = await siteWith(RECORDS)
})

describe('pages of records', () => {
  test('there is one for each asset and visit, the record itself, and the fleet', () => {
    const paths = files.map((file) => file.path)
    for (const path of [
      'record/van.html',
      'record/van.md',
      'record/van.csv',
      'asset/van-van-1.html',
      'asset/van-van-2.html',
      'asset/van-van-2-2026-02-01.html',
      'asset/van-van-2.md',
      'fleet.html',
      'fleet.csv',
    ])
      expect(paths).toContain(path)
    expect(new Set(paths).size).toBe(paths.length)
  })

  test('the fleet puts what failed first, then what is stale, and says what to rework', () => {
    const fleet = page('fleet.html')
    const order = [...fleet.matchAll(/data-asset="(Van \d)"/g)].map(([, name]) => name)
    expect(order).toEqual(['Van 2', 'Van 1'])
    expect(fleet).toContain('main, rev B: Return from 1.5 to 6 mm².')
    expect(fleet).toMatch(/■ Volts lost on the way to radio J1-1.*<b>0\.9 V<\/b>, 0\.\d+ V outside/)
    expect(page('fleet.csv').split('\r\n')[1]).toMatch(/^Van 2,Reading outside its limit,Van,2026-03-01/)
    expect(page('index.html')).toContain('href="fleet.html"')
    expect(page('installation/van.html')).toContain('href="../asset/van-van-2.html"')
  })

  test('an as-fitted record tells deviations, open questions, verdicts and other visits', () => {
    const asset = page('asset/van-van-2.html')
    expect(asset).toContain('Longer by half a metre')
    expect(asset).toContain('Where does the rack go?')
    expect(asset).toContain('href="../harness/van.html#wire-A2"'.replace('van.html', 'lead.html'))
    expect(asset).toMatch(/■ Fails, 0\.\d+ V outside/)
    expect(asset).toContain('href="van-van-2-2026-02-01.html"'.replace('van-van', '../asset/van-van'))
    expect(page('asset/van-van-2-2026-02-01.html')).toContain('An older visit')
    expect(page('asset/van-van-2.md')).toContain('| Fuse F1 | 15 A | 15 A | Pass |')
  })

  test('an asset fitted to an older revision does not carry the match code of today', () => {
    const asset = page('asset/van-van-1.html')
    expect(asset).toMatch(/Match code <b>not stated<\/b>/)
    expect(asset).toContain('rev A')
    expect(asset).toContain('To be reworked on main')
  })

  test('assets are found by name and by the serials in them', () => {
    const index = page('assets/find-data.js')
    expect(index).toContain('["asset/van-van-2.html","Van 2"]')
    expect(index).toContain('"Van van 7"')
  })

  test('the record is a table for machines too: numbers in a unit of their own column', () => {
    const [head = '', ...rows] = page('record/van.csv').split('\r\n')
    expect(head).toMatch(/^Part,Name,Measure,How,Unit,Least,Most,Expected,/)
    expect(rows.find((row) => row.includes('radio.J1.1/volts/transmit'))).toMatch(/,V,10\.8,15\.6,13\.3,/)
    expect(page('record/van.md')).toContain('Nobody nearer than')
  })

  test('every link leads somewhere', () => {
    const pages = files.filter(({ path }) => path.endsWith('.html'))
    const ids = new Map(
      pages.map(({ path, content }) => [
        path,
        new Set([...content.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id)),
      ]),
    )
    const known = new Set(files.map(({ path }) => path))
    const broken = pages.flatMap(({ path, content }) =>
      [...content.matchAll(/\s(?:href|src)="([^"]*)"/g)].flatMap(([, link = '']) => {
        const [file = '', hash] = link.split('#')
        const target = file === '' ? path : posix.normalize(posix.join(posix.dirname(path), file))
        const good = known.has(target) && (hash === undefined || ids.get(target)?.has(hash))
        return good ? [] : [`${path}: ${link}`]
      }),
    )
    expect(broken).toEqual([])
  })

  test('what was typed stays text', () => {
    for (const { path, content } of files) {
      if (!/^(record|asset|fleet|index|find)/.test(path)) continue
      if (path.endsWith('.html')) {
        const tags = (content.match(/<[A-Za-z][^>]*>/g) ?? []).map((tag) => tag.replace(/"[^"]*"/g, '""'))
        expect(
          tags.filter((tag) => /\son\w+\s*=|<(?:img|iframe)\b/i.test(tag)),
          path,
        ).toEqual([])
        expect(content).not.toMatch(/<script>/)
      }
      if (path.endsWith('.csv')) expect(content, path).not.toMatch(/(^|[,"])=cmd/m)
      if (path.endsWith('.md')) expect(content, path).not.toMatch(/(?<!\\)<(script|img)/)
    }
    expect(page('fleet.html')).toContain('&lt;script&gt;')
  })

  test('are valid HTML', async () => {
    const validator = new HtmlValidate({
      extends: ['html-validate:recommended'],
      rules: {
        'no-inline-style': 'off',
        'long-title': 'off',
        'no-trailing-whitespace': 'off',
        'prefer-native-element': 'off',
      },
    })
    const problems: string[] = []
    for (const { path, content } of files.filter(({ path: one }) =>
      /^(record|asset|fleet|index).*html$/.test(one),
    )) {
      const plain = content.replace(/<svg[\s\S]*?<\/svg>/g, '<span>picture</span>')
      const report = await validator.validateString(plain, path)
      for (const result of report.results)
        problems.push(...result.messages.map((one) => `${path}:${one.line} ${one.ruleId} ${one.message}`))
    }
    expect(problems).toEqual([])
  })
})
