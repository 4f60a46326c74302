import { beforeAll, describe, expect, test } from 'vitest'
import type { DocumentInput } from '../../src/describe/document.ts'
import { makeTemplates, TemplateError } from '../../src/sheets/templates.ts'
import { anchor } from '../../src/wiki/anchor.ts'
import { publishSite } from '../../src/wiki/publish-site.ts'
import type { SiteFile, SiteInput } from '../../src/wiki/site-input.ts'
import { vanRadio } from '../sheets/sample-shop.ts'
import { brokenLinks, htmlProblems, injected, pagesOf } from './site-checks.ts'
import { siteInput, siteOf, templateSources } from './site-parts.ts'

/** Text as a spiteful or unlucky user types it, 60 characters and more. */
const WILD = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onmouseover='alert(1)",
  '{{constructor}} ${x} &amp; &lt;',
  '=cmd|calc!A1',
  '\u202egnp.exe \u2066 مرحبا 🚒🧯 日本',
  'L'.repeat(60),
]
const wild = WILD.join(' ').slice(0, 78)

/** Puts wild text into every place of a description that takes prose. */
function spoil<T>(value: T, text: (max: number) => string): T {
  const limits: Readonly<Record<string, number>> = {
    title: 78,
    note: 78,
    label: 60,
    name: 40,
    drawnBy: 60,
    by: 60,
    what: 78,
    document: 32,
    asset: 60,
  }
  if (Array.isArray(value)) return value.map((item) => spoil(item, text)) as T
  if (value === null || typeof value !== 'object') return value
  return Object.fromEntries(
    Object.entries(value).map(([key, item]) => {
      const limit = limits[key]
      return [key, limit !== undefined && typeof item === 'string' ? text(limit) : spoil(item, text)]
    }),
  ) as T
}

let input: SiteInput
let files: SiteFile[]
beforeAll(async () => {
  input = await siteInput()
  files = publishSite(input)
})

describe('the site', () => {
  test('has a page for everything, and nothing twice', () => {
    const paths = files.map((file) => file.path)
    expect(new Set(paths).size).toBe(paths.length)
    for (const path of [
      'index.html',
      'findings.html',
      'find.html',
      'rules.html',
      'harness/van.html',
      'installation/van-7.html',
      'equipment/mobile.html',
      'connector/dsub-9-pin.html',
      'guide/installation-van-7.html',
      'guide/installation-van-7.md',
      'paper/van-cut-list.csv',
      'paper/van-ring-out.html',
      'paper/van-pinout-p2.html',
      'assets/site.css',
      'net/installation-van-7.html',
    ])
      expect(paths).toContain(path)
    expect(paths.every((path) => /^[a-z0-9./-]+$/.test(path))).toBe(true)
  })

  test('every link of every page leads somewhere', () => {
    expect(brokenLinks(files)).toEqual([])
  })

  test('a finding leads to the thing at fault, and every report ends with what was not checked', () => {
    const findings = files.find((file) => file.path === 'findings.html')?.content ?? ''
    expect(findings).toContain('href="harness/van.html#pin-P1__1"')
    for (const path of ['findings.html', 'harness/van.html', 'installation/van-7.html'])
      expect(files.find((file) => file.path === path)?.content).toMatch(/Not checked/)
  })

  test('is the same bytes each time', async () => {
    expect(await siteOf()).toEqual(files)
  })

  test('is valid HTML', async () => {
    expect(await htmlProblems(pagesOf(files))).toEqual([])
  })

  test('an empty shop still has its pages', () => {
    const pages = publishSite({
      ...input,
      looms: [],
      shop: { ...input.shop, equipment: [], harnesses: [], installations: [] },
    })
    expect(brokenLinks(pages)).toEqual([])
    expect(pages.find((file) => file.path === 'index.html')?.content).toContain('No installation or harness')
  })
})

test('hundreds of findings stay on the pages of their jobs; the list of all shows the worst of each', () => {
  const [first] = input.looms
  const [finding] = first?.findings ?? []
  if (!first || !finding) throw new Error('the sample has no finding')
  const many = Array.from({ length: 400 }, (_, index) => ({ ...finding, what: `finding ${index}` }))
  const pages = publishSite({ ...input, looms: [{ ...first, findings: many }] })
  const content = (path: string) => pages.find((file) => file.path === path)?.content ?? ''
  expect(content('findings.html').match(/<li class="finding /g)?.length).toBe(3)
  expect(content('findings.html')).toContain('397 more findings')
  expect(content('installation/van-7.html')).toContain('finding 399')
  expect(brokenLinks(pages)).toEqual([])
})

describe('hostile text', () => {
  const data: DocumentInput = spoil(vanRadio, (max) => wild.slice(0, max))

  test('stays text on every page and in every file', async () => {
    const all = await siteOf(data)
    for (const { path, content } of all) {
      if (path.startsWith('assets/') && path !== 'assets/find-data.js') continue
      expect(injected({ path, content })).toEqual([])
      if (path.endsWith('.js')) expect(content, path).not.toMatch(/<\/?script/i)
      if (path.endsWith('.csv')) expect(content, path).not.toMatch(/(^|[,"])=cmd/m)
      if (path.endsWith('.md')) expect(content, path).not.toMatch(/(?<!\\)<(script|img)/)
    }
    expect(brokenLinks(all)).toEqual([])
  })

  test('is shown as it was typed', async () => {
    const page = (await siteOf(data)).find((file) => file.path === 'harness/van.html')?.content ?? ''
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;')
  })

  test('names that fold into one file name keep pages of their own', async () => {
    const [equipment] = vanRadio.equipment ?? []
    if (!equipment) throw new Error('no equipment')
    const twins = ['Mikrofon-Ä', 'mikrofon-a', 'MIKROFON-A', '日本', '本日'].map((id) => ({
      ...equipment,
      id,
    }))
    const all = await siteOf({ ...vanRadio, equipment: [...(vanRadio.equipment ?? []), ...twins] })
    const paths = all.map((file) => file.path.toLowerCase())
    expect(new Set(paths).size).toBe(paths.length)
    expect(brokenLinks(all)).toEqual([])
  })
})

test('anchors of different names differ, and need no escaping', () => {
  const names = [
    '+',
    '-',
    '−',
    'J1.1',
    'J1-1',
    'J1__1',
    'J1_2e_1',
    'a b',
    'a_20_b',
    'A',
    'a',
    'Ä',
    '_',
    '__',
    '🚒',
  ]
  const anchors = names.map((name) => anchor('pin', name))
  expect(new Set(anchors).size).toBe(names.length)
  expect(anchors.every((one) => /^[A-Za-z0-9_-]+$/.test(one))).toBe(true)
})

test('with an address of its own, codes open the page they are printed on, and labels that of the harness', async () => {
  const site = 'https://wiring.example.org/wiki/'
  const all = await siteOf({ ...vanRadio, policy: { ...vanRadio.policy, site } })
  const csv = all.find(({ path }) => path === 'paper/van-labels.csv')?.content ?? ''
  expect(csv).toContain('https://wiring.example.org/wiki/harness/van.html')
  const plain = files.find(({ path }) => path === 'paper/van-labels.csv')?.content ?? ''
  expect(plain).toMatch(/TS-1 rev B match \w{4}-\w{4}/)
})

test('a shop’s own template replaces ours, and a slip in it is told by file and line', () => {
  const mine = makeTemplates({ ...templateSources, rules: '<h1>Our rules</h1>' })
  const page = publishSite({ ...input, templates: mine }).find((file) => file.path === 'rules.html')
  expect(page?.content).toContain('<h1>Our rules</h1>')
  const wrong = makeTemplates({ ...templateSources, finding: 'x', rules: '<h1>Rules</h1>\n{{nonsense}}' })
  expect(() => publishSite({ ...input, templates: wrong })).toThrow(TemplateError)
  expect(() => publishSite({ ...input, templates: wrong })).toThrow('rules.hbs:2')
})
