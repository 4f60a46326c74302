import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { type Browser, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { needChromium, which } from '../setup/chromium.mjs'
import { siteOf } from './site-parts.ts'

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const PAGES = [
  'index.html',
  'findings.html',
  'find.html',
  'coverage.html',
  'policy.html',
  'what-if/van-7.html',
  'rules.html',
  'harness/van.html',
  'bench/van.html',
  'installation/van-7.html',
  'equipment/mobile.html',
  'connector/dsub-9-pin.html',
  'rule/wire-fits-contact.html',
  'paper/van-cut-list.html',
  'paper/van-ring-out.html',
  'paper/van-pinout-p2.html',
  'guide/installation-van-7.html',
  'net/installation-van-7.html',
  'paper/van-labels-plain-a4.html',
  'paper/van-change-sheet.html',
]
const SCREENS = [
  { name: 'phone, light', viewport: { width: 360, height: 800 }, colorScheme: 'light' },
  { name: 'phone, dark', viewport: { width: 360, height: 800 }, colorScheme: 'dark' },
  { name: 'desk, light', viewport: { width: 1280, height: 900 }, colorScheme: 'light' },
  { name: 'desk, dark', viewport: { width: 1280, height: 900 }, colorScheme: 'dark' },
] as const

let browser: Browser
const folder = mkdtempSync(join(tmpdir(), 'site-'))
const urlOf = (path: string) => pathToFileURL(join(folder, path)).href

beforeAll(async () => {
  for (const { path, content } of await siteOf()) {
    mkdirSync(dirname(join(folder, path)), { recursive: true })
    writeFileSync(join(folder, path), content)
  }
  browser = await chromium.launch({ executablePath: needChromium(), args: ['--no-sandbox'] })
})
afterAll(async () => {
  await browser?.close()
  rmSync(folder, { recursive: true, force: true })
})

async function withPage<T>(
  options: Parameters<Browser['newContext']>[0],
  run: (page: Page) => Promise<T>,
): Promise<T> {
  const context = await browser.newContext(options)
  try {
    return await run(await context.newPage())
  } finally {
    await context.close()
  }
}

interface Looked {
  readonly overflow: number
  readonly small: readonly string[]
  readonly narrow: readonly string[]
  readonly violations: readonly string[]
}

/** Runs in the page. */
async function look(page: Page, phone: boolean): Promise<Looked> {
  await page.evaluate(axeSource)
  return page.evaluate(async (isPhone) => {
    // The page's own types are not known here.
    // biome-ignore lint/suspicious/noExplicitAny: the browser's globals, seen from a file checked without them.
    const { document, getComputedStyle, innerWidth, axe } = globalThis as any
    const shown = (element: { getClientRects: () => { length: number } }) =>
      element.getClientRects().length > 0
    // biome-ignore lint/suspicious/noExplicitAny: as above.
    const all = (selector: string): any[] => [...document.querySelectorAll(selector)].filter(shown)
    const texts = all('body *').filter(
      (one) =>
        // Labels are drawn in the size they are printed in, and magnified as a whole.
        !one.closest('svg, .label-sheet') &&
        [...one.childNodes].some((node) => node.nodeType === 3 && node.data.trim() !== ''),
    )
    const small = texts.filter((one) => Number.parseFloat(getComputedStyle(one).fontSize) < 15.99)
    const targets = all(
      'header.site a, .jump a, .links > li > a:first-child, .papers a, button, input, summary, .finding .where, .button',
    )
    const narrow = isPhone ? targets.filter((one) => one.getBoundingClientRect().height < 43.9) : []
    const result = await axe.run(document, {
      preload: false,
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    })
    return {
      overflow: document.documentElement.scrollWidth - innerWidth,
      small: small.map((one) => one.outerHTML.slice(0, 80)),
      narrow: narrow.map((one) => one.outerHTML.slice(0, 80)),
      violations: result.violations.map(
        (one: { id: string; nodes: { html: string }[] }) => `${one.id}: ${one.nodes[0]?.html.slice(0, 120)}`,
      ),
    }
  }, phone)
}

describe.each(SCREENS)('on a $name', ({ viewport, colorScheme }) => {
  test('every page is readable, reachable and fits', async () => {
    await withPage({ viewport, colorScheme, bypassCSP: true }, async (page) => {
      for (const path of PAGES) {
        await page.goto(urlOf(path))
        expect({ path, ...(await look(page, viewport.width < 500)) }).toEqual({
          path,
          overflow: 0,
          small: [],
          narrow: [],
          violations: [],
        })
      }
    })
  })
})

test('pages opened from disk have their style, their search, and no complaint on the console', async () => {
  await withPage({ viewport: { width: 360, height: 800 } }, async (page) => {
    const complaints: string[] = []
    page.on('console', (message) => complaints.push(message.text()))
    page.on('pageerror', (error) => complaints.push(String(error)))
    await page.goto(urlOf('index.html'))
    await page.fill('#find-box', 'red 6')
    await page.press('#find-box', 'Enter')
    await page.waitForURL(/find\.html\?q=red/)
    expect(await page.textContent('#find-said')).toMatch(/^[1-9]\d* found/)
    await page.click('#find-results a')
    expect(page.url()).toMatch(/harness\/van\.html#wire-A[12]$/)
    expect(await page.evaluate('getComputedStyle(document.body).margin')).toBe('0px')
    await page.goto(`${urlOf('find.html')}?q=${encodeURIComponent('<img src=x onerror=alert(1)>')}`)
    expect(await page.textContent('#find-said')).toBe('0 found.')
    expect(complaints).toEqual([])
  })
})

test('without scripts the search page still lists everything', async () => {
  await withPage({ javaScriptEnabled: false }, async (page) => {
    await page.goto(urlOf('find.html'))
    expect(await page.locator('a[href="harness/van.html"]').count()).toBe(1)
  })
})

test('a tap on a finding goes to the thing, marked', async () => {
  await withPage({ viewport: { width: 360, height: 800 } }, async (page) => {
    await page.goto(urlOf('findings.html'))
    await page.click('.finding.stop .where')
    expect(page.url()).toMatch(/#pin-P1__1$/)
    expect(await page.locator(':target').isVisible()).toBe(true)
  })
})

test('papers print without the site around them', async () => {
  await withPage({}, async (page) => {
    await page.goto(urlOf('paper/van-ring-out.html'))
    await page.emulateMedia({ media: 'print' })
    expect(await page.locator('header.site').isVisible()).toBe(false)
    expect(await page.locator('tr.running').first().isVisible()).toBe(true)
    expect(await page.locator('tr.running').first().textContent()).toMatch(
      /TS-1.*rev B.*issued.*match \w{4}-\w{4}/,
    )
  })
})

/** Papers and what their margin names: document, title of the paper, subject. */
const PRINTED = [
  ['paper/van-cut-list.html', 'TS-1', 'Cut list'],
  ['paper/van-ring-out.html', 'TS-1', 'Ring-out sheet'],
  ['paper/van-label-list.html', 'TS-1', 'Label list'],
  ['paper/van-pinout-p2.html', 'TS-1', 'Pinout P2'],
  ['paper/van-change-sheet.html', 'TS-1', 'Change sheet'],
  ['harness/van.html', 'TS-1', 'Harness page'],
  ['guide/installation-van-7.html', 'Van 7', 'Install guide'],
] as const

test.skipIf(which('pdftotext') === undefined).each(PRINTED)(
  'every printed page of %s says its number, issue and match code, on A4 and on Letter',
  async (path, id, title) => {
    await withPage({}, async (page) => {
      await page.goto(urlOf(path))
      for (const format of ['A4', 'Letter']) {
        const file = join(folder, 'printed.pdf')
        await page.pdf({ format, path: file })
        const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })
        const sheets = text
          .replace(/[\u2066-\u2069]/g, '')
          .split('\f')
          .slice(0, -1)
        expect(sheets.length).toBeGreaterThan(0)
        sheets.forEach((sheet, index) => {
          expect(sheet, `${format} ${index + 1}`).toContain(`page ${index + 1} of ${sheets.length}`)
          expect(sheet).toMatch(/match \w{4}-\w{4}/)
          expect(sheet).toMatch(/rev B|no revision/)
          expect(sheet).toContain(id)
          expect(sheet).toContain(title)
        })
      }
    })
  },
)

test.skipIf(which('pdftotext') === undefined)(
  'labels print one sheet a page, at their true size',
  async () => {
    await withPage({}, async (page) => {
      for (const [path, size] of [
        ['paper/van-labels-plain-a4.html', /59[45][.\d]* x 84[12]/],
        ['paper/van-labels-plain-letter.html', /612 x 792/],
      ] as const) {
        await page.goto(urlOf(path))
        const sheets = await page.locator('.label-sheet').count()
        const file = join(folder, 'labels.pdf')
        await page.pdf({ path: file, preferCSSPageSize: true })
        const info = execFileSync('pdfinfo', [file], { encoding: 'utf8' })
        expect(info).toMatch(size)
        expect(info).toMatch(new RegExp(`Pages:\\s+${sheets}\\b`))
        const spilled = await page.evaluate(
          "[...document.querySelectorAll('.label')].filter((one) => one.scrollHeight > one.clientHeight + 1 || one.scrollWidth > one.clientWidth + 1).length",
        )
        expect(spilled).toBe(0)
      }
    })
  },
)
