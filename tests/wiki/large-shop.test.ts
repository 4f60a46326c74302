import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { type Browser, chromium } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { publishSite } from '../../src/wiki/publish-site.ts'
import type { SiteFile, SiteInput } from '../../src/wiki/site-input.ts'
import { needChromium } from '../setup/chromium.mjs'
import { vanRadio } from '../sheets/sample-shop.ts'
import { largeShop } from './large-shop.ts'
import { brokenLinks, htmlProblems, injected, pagesOf } from './site-checks.ts'
import { siteInput } from './site-parts.ts'

/** A small cut of what a shop of hundreds is like. */
const LOOMS = 7

let input: SiteInput
let files: SiteFile[]
let browser: Browser
const folder = mkdtempSync(join(tmpdir(), 'large-'))
const urlOf = (path: string) => pathToFileURL(join(folder, path)).href

beforeAll(async () => {
  input = await siteInput(largeShop(vanRadio, LOOMS))
  files = publishSite(input)
  for (const { path, content } of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true })
    writeFileSync(join(folder, path), content)
  }
  browser = await chromium.launch({ executablePath: needChromium(), args: ['--no-sandbox'] })
}, 120_000)
afterAll(async () => {
  await browser?.close()
  rmSync(folder, { recursive: true, force: true })
})

/** One page of each kind of each loom would be the same thing often: some of all kinds. */
const sampled = (step: number) => pagesOf(files).filter((_, index) => index % step === 0)

describe('a shop with everything people type', () => {
  test('has a page of its own for each loom, whatever it is called', () => {
    const paths = files.map(({ path }) => path.toLowerCase())
    expect(new Set(paths).size).toBe(paths.length)
    expect(paths.filter((path) => /^harness\//.test(path)).length).toBe(LOOMS)
    expect(paths.every((path) => /^[a-z0-9./-]+$/.test(path) && !path.includes('..'))).toBe(true)
  })

  test('has no link that leads nowhere, and nothing on a page that was typed as HTML', () => {
    expect(brokenLinks(files)).toEqual([])
    expect(files.flatMap(injected)).toEqual([])
  })

  test('is valid HTML', async () => {
    expect(await htmlProblems(sampled(3))).toEqual([])
  }, 60_000)

  test('has looms without findings of their own words, with missing figures, and with many findings', () => {
    const counts = input.looms.map(({ findings }) => findings.length)
    expect(Math.max(...counts)).toBeGreaterThan(Math.min(...counts) + 5)
    expect(input.looms.some(({ notChecked }) => notChecked.length > 0)).toBe(true)
  })

  test('fits a phone, runs nothing that was typed, and keeps names from turning the words around them', async () => {
    const page = await browser.newPage({ viewport: { width: 360, height: 800 } })
    const alarms: string[] = []
    page.on('dialog', (dialog) => {
      alarms.push(dialog.message())
      void dialog.dismiss()
    })
    page.on('pageerror', (error) => alarms.push(String(error)))
    for (const { path } of sampled(6)) {
      await page.goto(urlOf(path))
      const wide = await page.evaluate('document.documentElement.scrollWidth - innerWidth')
      expect({ path, wide }).toEqual({ path, wide: 0 })
    }
    const rtl = pagesOf(files).find(
      ({ path, content }) => path.startsWith('harness/') && /<h1>[^<]*لوحة/.test(content),
    )
    await page.goto(urlOf(rtl?.path ?? ''))
    expect(await page.evaluate("getComputedStyle(document.querySelector('h1')).unicodeBidi")).toBe(
      'plaintext',
    )
    expect(alarms).toEqual([])
    await page.close()
  }, 60_000)

  test('has pages that a screen reader gets along with', async () => {
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
    const context = await browser.newContext({ viewport: { width: 360, height: 800 }, bypassCSP: true })
    const page = await context.newPage()
    const kinds = ['harness/', 'net/', 'installation/', 'paper/', 'findings.html', 'find.html']
    for (const kind of kinds) {
      const path =
        pagesOf(files)
          .filter((file) => file.path.startsWith(kind))
          .at(-1)?.path ?? ''
      await page.goto(urlOf(path))
      await page.evaluate(axe)
      const found = await page.evaluate(
        "axe.run(document, { preload: false, runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'] }).then(({ violations }) => violations.map(({ id, nodes }) => id + ' ' + nodes[0].html.slice(0, 100)))",
      )
      expect({ path, found }).toEqual({ path, found: [] })
    }
    await context.close()
  }, 60_000)
})

test.each([
  ['a pin', 'P2.5', /^P2-5/, 'pin'],
  ['a colour', 'red 6 mm', /^A[12], /, 'wire'],
  ['a colour in code', 'VT', /^B[56], /, 'wire'],
  ['a label', 'RADIO FEED', /^R1/, 'plug or socket'],
  ['a fuse by its rating', 'fuse 20 A', /^F1/, 'fuse'],
  ['a net', 'SPK+', /^SPK\+/, 'net'],
  ['a name in another script', 'لوحة', /لوحة/, ''],
  ['letters without their accents', 'grosse lange', /^Größe/, ''],
])('search finds %s first', async (_, query, title, kind) => {
  const page = await browser.newPage({ viewport: { width: 360, height: 800 } })
  await page.goto(`${urlOf('find.html')}?q=${encodeURIComponent(query)}`)
  const rows = await page.locator('#find-results li').allTextContents()
  expect(rows.length, query).toBeGreaterThan(0)
  expect(await page.locator('#find-results a').first().textContent()).toMatch(title)
  expect(rows.slice(0, 3).join(' ')).toContain(kind)
  expect(await page.evaluate('document.documentElement.scrollWidth - innerWidth')).toBe(0)
  await page.close()
})

test('search finds what is wrong by what is noticed', async () => {
  const page = await browser.newPage()
  for (const symptom of ['hum', 'fire', 'transmit']) {
    await page.goto(`${urlOf('find.html')}?q=${symptom}`)
    expect(await page.textContent('#find-said'), symptom).toMatch(/^[1-9]/)
  }
  await page.close()
})
