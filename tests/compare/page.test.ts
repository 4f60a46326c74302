import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { type Browser, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { comparePage } from '../../src/cli/compare-html.ts'
import { compare } from '../../src/compare/compare.ts'
import { needChromium } from '../setup/chromium.mjs'
import { demoDocuments, revisionOf } from './revisions.ts'

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const folder = mkdtempSync(join(tmpdir(), 'review-'))
const url = pathToFileURL(join(folder, 'review.html')).href
/** What a page's global object has and these sources are not typed with. */
interface Styled {
  readonly getComputedStyle: (element: unknown) => { readonly getPropertyValue: (name: string) => string }
}
let browser: Browser
let html = ''

beforeAll(async () => {
  const [before, after] = await Promise.all(
    ['pickup/mended.ts', 'pickup/planned.ts'].map(async (file) => revisionOf(await demoDocuments(file))),
  )
  if (!before || !after) throw new Error('no demo')
  const side = (name: string, revision: typeof before) => ({
    name,
    revision,
    locate: ({ doc }: { doc: string }) => ({ file: doc, line: 1, column: 1 }),
    inputs: [],
  })
  const quiet = { say: () => undefined, done: () => undefined }
  const io = {
    out: () => undefined,
    err: () => undefined,
    progress: quiet,
    cwd: folder,
    width: 80,
    colour: false,
    errColour: false,
    debug: false,
  }
  html = await comparePage(compare(before, after), side('mended', before), side('planned', after), io)
  writeFileSync(join(folder, 'review.html'), html)
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
    const page = await context.newPage()
    const troubles: string[] = []
    page.on('console', (message) => message.type() === 'error' && troubles.push(message.text()))
    page.on('pageerror', (error) => troubles.push(error.message))
    page.on('request', (request) => request.url() !== url && troubles.push(request.url()))
    await page.goto(url)
    const result = await run(page)
    expect(troubles.filter((text) => !text.startsWith('data:'))).toEqual([])
    return result
  } finally {
    await context.close()
  }
}

const SCREENS = [
  { name: 'phone, light', viewport: { width: 360, height: 800 }, colorScheme: 'light' },
  { name: 'phone, dark', viewport: { width: 360, height: 800 }, colorScheme: 'dark' },
  { name: 'desk, light', viewport: { width: 1280, height: 900 }, colorScheme: 'light' },
] as const

describe('the page of a review', () => {
  test.each(SCREENS)('is within reach of everybody: $name', async ({ viewport, colorScheme }) => {
    await withPage({ viewport, colorScheme }, async (page) => {
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(viewport.width)
      await page.evaluate(axeSource)
      const found = (await page.evaluate('axe.run()')) as {
        violations: { id: string; nodes: { html: string }[] }[]
      }
      expect(found.violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html.slice(0, 120)}`)).toEqual([])
    })
  })

  test('says first whether it may be built, and what is new', async () => {
    await withPage({}, async (page) => {
      const text = (await page.textContent('main')) ?? ''
      expect(text.indexOf('do not build it')).toBeGreaterThan(0)
      expect(text.indexOf('New findings')).toBeLessThan(text.indexOf('Drawings'))
    })
  })

  test('shows old, new and both laid over each other, told apart by line and by word', async () => {
    await withPage({}, async (page) => {
      const shown = async () =>
        await page.locator('.pane:visible').evaluateAll((panes) => panes.map((pane) => pane.className))
      expect(new Set(await shown())).toEqual(new Set(['pane pane-over']))
      await page.locator('label', { hasText: /^Old$/ }).first().click()
      expect(new Set(await shown())).toEqual(new Set(['pane pane-over', 'pane pane-old']))
      // Colour is taken out of the question: width, dashes and words alone must tell.
      const style = async (mark: string, property: string) =>
        await page
          .locator(`.pane-over .lw-cond.${mark} .lw-edge`)
          .first()
          .evaluate((line, name) => {
            const window = globalThis as unknown as Styled
            return window.getComputedStyle(line).getPropertyValue(name)
          }, property)
      const width = async (mark: string) => Number.parseFloat(await style(mark, 'stroke-width'))
      expect(await style('lw-was', 'stroke-dasharray')).not.toBe('none')
      expect(await style('lw-moved', 'stroke-dasharray')).toBe('none')
      expect(await width('lw-moved')).toBeGreaterThan(2 * (await width('lw-was')))
      const words = await page.locator('.pane-over').allTextContents()
      for (const word of ['MOVED', 'WAS HERE', 'REMOVED', 'NEW', 'CHANGED'])
        expect(words.join(' ')).toContain(word)
    })
  })

  test('keeps the ticks of this review on the device, and works without', async () => {
    await withPage({}, async (page) => {
      const total = await page.locator('input[data-tick]').count()
      expect(total).toBeGreaterThan(20)
      await page.locator('input[data-tick]').first().check()
      expect(await page.textContent('#count')).toBe(`1 of ${total} looked at`)
      await page.reload()
      expect(await page.locator('input[data-tick]').first().isChecked()).toBe(true)
      expect(await page.textContent('#count')).toBe(`1 of ${total} looked at`)
    })
    await withPage({ javaScriptEnabled: false }, async (page) => {
      expect(await page.locator('.pane-over:visible').count()).toBeGreaterThan(0)
    })
  })

  test('asks nothing of any other file', () => {
    expect(html).not.toMatch(/<(link|img|iframe)\b|@import|url\((?!data:)/)
  })
})
