import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { makeTemplates } from '../../src/sheets/templates.ts'
import { publishSite } from '../../src/wiki/publish-site.ts'
import { siteInput, templateSources } from '../wiki/site-parts.ts'
import { builtCli } from './built-cli.ts'
import { tinyShop } from './tiny-shop.ts'

/** Templates of papers and pages made by other commands than build. */
const NOT_OF_BUILD = /^compare/

const own = (name: string, text: string) => ({ [name]: { file: `shop/templates/${name}.hbs`, text } })

describe('a shop’s own templates', () => {
  test('each takes the place of ours, and its slips are told by file and line while ours is used', async () => {
    // Pictures are not made by templates.
    const none = { harness: () => [], installation: () => [], faces: () => [] }
    const input = { ...(await siteInput()), pictures: none }
    const names = Object.keys(templateSources).filter((name) => !NOT_OF_BUILD.test(name))
    const plain = publishSite({ ...input, templates: makeTemplates(templateSources) })
    const said = (templates: ReturnType<typeof makeTemplates>) =>
      templates.troubles().map(({ file, line, problem }) => `${file}:${line} ${problem}`)
    expect(names.length).toBeGreaterThan(20)
    for (const name of names) {
      const file = `shop/templates/${name}.hbs`
      // Ours with a line before it: used on every page ours is on, and nowhere else.
      const marked = makeTemplates(templateSources, own(name, `\n<!-- ours -->\n${templateSources[name]}`))
      const pages = publishSite({ ...input, templates: marked })
      expect(said(marked), name).toEqual([])
      const used = pages.some(({ content }) => content.includes('<!-- ours -->'))
      // A misspelt field on its third line: told once, and the pages are ours to the letter.
      const slip = makeTemplates(templateSources, own(name, `<p>x</p>\n<p>y</p>\n{{misspelt}}`))
      expect(publishSite({ ...input, templates: slip })).toEqual(plain)
      expect(said(slip).length, name).toBe(used ? 1 : 0)
      if (used) expect(said(slip)[0]).toMatch(new RegExp(`^${file}:3 .*misspelt`))
    }
  }, 120_000)

  test.each([
    ['a block that is not closed', '<p>\n{{#if x}}\n</p>', /:(3|4) Parse error/],
    ['a part that is not there', '<p>\n{{> nowhere}}', /:2 there is no template \{\{> nowhere\}\}/],
    ['text that would not be escaped', '<p>\n\n{{{title}}}', /:3 three braces would print/],
    ['the same with an ampersand', '{{&title}}', /:1 three braces would print/],
    [
      'a part given too little',
      '<h1>x</h1>\n{{> counts}}',
      /:2 \{\{> counts\}\} does not find what it needs here/,
    ],
    ['a part that uses itself', '{{> uses}}', /./],
    ['an unknown helper', '\n{{shout title}}', /:2 .*shout/],
  ])('%s: ours is used, and the line is named', async (_, text, told) => {
    const templates = makeTemplates(templateSources, own('uses', text))
    const ours = makeTemplates(templateSources)
    const data = { uses: [{ text: 'Van', href: '', detail: '' }] }
    expect(templates.render('uses', data)).toBe(ours.render('uses', data))
    const [trouble] = templates.troubles()
    expect(`:${trouble?.line} ${trouble?.problem}`).toMatch(told)
    expect(trouble?.file).toBe('shop/templates/uses.hbs')
  })
})

describe('build', () => {
  const cli = builtCli()
  const here = { dir: '', count: 0 }
  beforeEach(() => {
    here.dir = join(cli.scratch, `own-${here.count++}`)
    mkdirSync(join(here.dir, 'shop/templates'), { recursive: true })
    writeFileSync(join(here.dir, 'shop/a.json'), JSON.stringify(tinyShop()))
  })
  const put = (name: string, text: string) => writeFileSync(join(here.dir, 'shop/templates', name), text)
  const build = (...more: string[]) => cli.run(['build', 'shop', '--allow-stops', ...more], { cwd: here.dir })
  const page = (path: string) => readFileSync(join(here.dir, 'out', path), 'utf8')

  test('uses what is whole, says what is not, with file and line, and publishes all the same', async () => {
    put('rules.hbs', '<h1>Our rules</h1>')
    put('rule.hbs', '<h1>{{title}}</h1>\n{{oops}}')
    put('harnes.hbs', 'x')
    const ran = await build()
    expect(ran.code).toBe(0)
    expect(ran.out).toMatch(/WARNING shop\/templates\/rule\.hbs:2:1 the template .*oops/)
    expect(ran.out).toMatch(
      /harnes\.hbs:1:1 .*nothing is made with a template of this name; did you mean “harness\.hbs”/,
    )
    expect(page('rules.html')).toContain('<h1>Our rules</h1>')
    expect(page('findings.html')).toContain('shop/templates/rule.hbs:2')
    expect(readdirSync(join(here.dir, 'out/rule')).length).toBeGreaterThan(20)
  })

  test('takes none of a stranger, and follows no link', async () => {
    put('rules.hbs', '<h1>Our rules</h1>')
    const strange = await build('--untrusted')
    expect(strange.out).toMatch(/rules\.hbs:1:1 .*templates of a stranger are not used/)
    expect(page('rules.html')).not.toContain('Our rules')
    symlinkSync('rules.hbs', join(here.dir, 'shop/templates/rule.hbs'))
    expect((await build()).out).toMatch(/rule\.hbs:1:1 .*links are not followed/)
  })
})

describe('procedures that are named', () => {
  const cli = builtCli()
  test('and missing, or found twice, are findings at the line that names them', async () => {
    const dir = join(cli.scratch, 'named')
    for (const folder of ['one', 'two']) mkdirSync(join(dir, 'shop', folder), { recursive: true })
    const shop = tinyShop((made) => {
      Object.assign((made.harnesses ?? [])[0] ?? {}, { procedures: ['fit.md', 'route.md'] })
    })
    const text = JSON.stringify(shop, undefined, 1)
    writeFileSync(join(dir, 'shop/a.json'), text)
    for (const folder of ['one', 'two']) writeFileSync(join(dir, 'shop', folder, 'fit.md'), '# Fit\n')
    writeFileSync(join(dir, 'shop/one/rute.md'), '# Route\n')
    const { out } = await cli.run(['check', 'shop', '--format', 'json'], { cwd: dir })
    const { findings } = JSON.parse(out) as {
      findings: { what: string; fix: string; place?: { line?: number }; at?: unknown }[]
    }
    const told = findings.filter(({ what }) => /names the procedure/.test(what))
    expect(told.map(({ what }) => what)).toEqual([
      expect.stringMatching(/“fit\.md”, which 2 files could be: “one\/fit\.md”, “two\/fit\.md”/),
      expect.stringMatching(/“route\.md”, and there is no such file/),
    ])
    const line = text.split('\n').findIndex((one) => one.includes('"route.md"')) + 1
    expect(JSON.stringify(told[1])).toContain(`"line":${line}`)
  })
})
