import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import fc from 'fast-check'
import { type Browser, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { judge, marginText } from '../../src/commission/judge.ts'
import type { Limit } from '../../src/commission/limit.ts'
import { readReading } from '../../src/commission/read-reading.ts'
import { needChromium } from '../setup/chromium.mjs'
import { judged, limits, visit } from './fitted-shop.ts'
import { siteWith } from './site.ts'

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const folder = mkdtempSync(join(tmpdir(), 'record-'))
const urlOf = (path: string) => pathToFileURL(join(folder, path)).href
let browser: Browser

beforeAll(async () => {
  const files = await siteWith([
    ['a.readings.json', visit({ looms: [{ loom: 'main', revision: 'A' }] })],
    [
      'b.readings.json',
      visit({ asset: 'Van 10', date: '2026-02-01', values: [{ limit: 'main.F1/rating', reading: '20 A' }] }),
    ],
    [
      'c.readings.json',
      visit({
        asset: 'Van 9',
        date: '2026-04-01',
        deviations: [{ at: 'main.A2', what: 'Longer' }],
        open: ['Why?'],
      }),
    ],
  ])
  for (const { path, content } of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true })
    writeFileSync(join(folder, path), content)
  }
  browser = await chromium.launch({ executablePath: needChromium(), args: ['--no-sandbox'] })
})
afterAll(async () => {
  await browser?.close()
  rmSync(folder, { recursive: true, force: true })
})

const complaints: string[] = []
async function withPage<T>(
  options: Parameters<Browser['newContext']>[0],
  run: (page: Page) => Promise<T>,
): Promise<T> {
  const context = await browser.newContext(options)
  try {
    const page = await context.newPage()
    page.on('console', (message) => complaints.push(message.text()))
    page.on('pageerror', (error) => complaints.push(String(error)))
    return await run(page)
  } finally {
    await context.close()
  }
}

const PAGES = ['record/van.html', 'asset/van-van-10.html', 'asset/van-van-9.html', 'fleet.html', 'index.html']

test.each([
  { width: 360, colorScheme: 'light' },
  { width: 1280, colorScheme: 'dark' },
] as const)(
  'pages fit, are reachable and readable at $width, $colorScheme',
  async ({ width, colorScheme }) => {
    await withPage({ viewport: { width, height: 800 }, colorScheme, bypassCSP: true }, async (page) => {
      for (const path of PAGES) {
        await page.goto(urlOf(path))
        if (path.startsWith('record')) {
          // Every kind of verdict is looked at.
          await page.fill('[data-limit="radio.J1.1/drop/transmit"] input', '0.4 V')
          await page.fill('[data-limit="radio.J1.1/loop"] input', '90 mΩ')
          await page.fill('[data-limit="battery.POS.1/rest"] input', '12')
        }
        await page.evaluate(axeSource)
        const found = await page.evaluate(async (phone) => {
          // biome-ignore lint/suspicious/noExplicitAny: the browser's globals, seen from a file checked without them.
          const { document, innerWidth, axe, getComputedStyle } = globalThis as any
          const result = await axe.run(document, {
            preload: false,
            runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
          })
          // biome-ignore lint/suspicious/noExplicitAny: as above.
          const all = (selector: string): any[] =>
            [...document.querySelectorAll(selector)].filter((one) => one.getClientRects().length > 0)
          return {
            overflow: document.documentElement.scrollWidth - innerWidth,
            narrow: phone
              ? all('.record input, .record select, .record summary, .record h3 a, .fleet a, button')
                  .filter((one) => one.getBoundingClientRect().height < 43.9)
                  .map((one) => one.outerHTML.slice(0, 80))
              : [],
            small: all('main p, main li, main dd, main label, main td')
              .filter((one) => Number.parseFloat(getComputedStyle(one).fontSize) < 15.99)
              .map((one) => one.outerHTML.slice(0, 80)),
            violations: result.violations.map(
              (one: { id: string; nodes: { html: string }[] }) =>
                `${one.id}: ${one.nodes[0]?.html.slice(0, 120)}`,
            ),
          }
        }, width < 500)
        expect({ path, ...found }).toEqual({ path, overflow: 0, narrow: [], small: [], violations: [] })
      }
    })
  },
)

test('what is typed is judged, kept over a reload, saved, and taken by the build as it is', async () => {
  await withPage({ acceptDownloads: true, viewport: { width: 360, height: 800 } }, async (page) => {
    await page.goto(urlOf('record/van.html'))
    const at = (id: string) => page.locator(`[data-limit="${id}"]`)
    await page.locator('[data-save]').first().click()
    expect(await page.textContent('#record-said')).toContain('Write the asset and the date first')
    await page.fill('[data-field="asset"]', 'Van <7> “ä”')
    await page.fill('[data-field="date"]', '2026-05-04')
    await page.fill('[data-field="by"]', 'K. Ohm')
    await page.fill('[data-loom="main"] [data-part="serial"]', 'L-7')
    await page.fill('[data-unit="radio"] [data-part="firmware"]', '4.1')
    await at('radio.J1.1/drop/transmit').locator('[data-part="reading"]').fill('0.44 V')
    await at('radio.ANT.centre/frequency').locator('[data-part="reading"]').fill('2.6 ppm')
    await at('radio.ANT.centre/sensitivity').locator('[data-part="reading"]').fill('0.3 µV')
    await at('radio.J1.1/loop').locator('[data-part="reading"]').fill('12 V')
    await at('check/shown').locator('select').selectOption('yes')
    await at('main.F1/rating').locator('[data-part="reading"]').fill('15 A')
    await at('main.F1/rating').locator('[data-part="note"]').fill('blue')
    await page.fill('[data-deviation] [data-part="what"]', 'Longer')
    await page.click('#record-more')
    await page.locator('[data-deviation] [data-part="what"]').nth(1).fill('Shorter')
    await page.fill('#record-open', 'Why?\n\nWho?')
    expect(await at('radio.J1.1/drop/transmit').locator('.verdict').textContent()).toMatch(
      /^✓ Pass, 0\.\d+ V inside$/,
    )
    expect(await at('radio.ANT.centre/frequency').locator('.verdict').textContent()).toBe(
      '■ Fails, 15 Hz outside',
    )
    expect(await at('radio.J1.1/loop').locator('.verdict').textContent()).toMatch(/^○ Write a resistance/)
    expect(await page.textContent('#record-said')).toContain('✓ 4 pass, ■ 1 outside')

    await page.reload()
    expect(await page.textContent('#record-said')).toContain('✓ 4 pass, ■ 1 outside')
    expect(await page.locator('[data-deviation]').count()).toBe(2)

    // A reading that cannot be judged is saved as it was typed; the build says where it stands.
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.locator('[data-save]').last().click(),
    ])
    expect(download.suggestedFilename()).toBe('van-van-7-2026-05-04.readings.json')
    const text = readFileSync(await download.path(), 'utf8')
    const result = judged(['saved.readings.json', JSON.parse(text)])
    expect(result.shape).toEqual([])
    expect(result.findings.map(({ rule }) => rule)).toEqual(['reading-unusable', 'reading-outside-limit'])
    const [record] = result.assets
    expect(record?.counts).toMatchObject({ pass: 4, fail: 1 })
    expect(record?.readings).toMatchObject({
      asset: 'Van <7> “ä”',
      by: 'K. Ohm',
      deviations: [{ what: 'Longer' }, { what: 'Shorter' }],
      open: ['Why?', 'Who?'],
      equipment: [{ unit: 'radio', firmware: '4.1' }],
    })
    expect(record?.looms[0]).toMatchObject({ serial: 'L-7', standing: 'current' })

    page.on('dialog', (dialog) => void dialog.accept())
    await page.click('#record-clear')
    expect(await page.textContent('#record-said')).toContain('✓ 0 pass')
    await page.setInputFiles('#record-file', {
      name: 'x.json',
      mimeType: 'application/json',
      buffer: Buffer.from(text),
    })
    await page.locator('#record-said', { hasText: '4 pass' }).waitFor()
    const [again] = await Promise.all([
      page.waitForEvent('download'),
      page.locator('[data-save]').first().click(),
    ])
    expect(readFileSync(await again.path(), 'utf8')).toBe(text)
    await page.setInputFiles('#record-file', {
      name: 'x.json',
      mimeType: 'application/json',
      buffer: Buffer.from('{"readings": 1, "installation": "<b>other"}'),
    })
    await page.locator('#record-said', { hasText: 'another installation: <b>other' }).waitFor()
  })
})

/** What a hand may write beside a limit: figures round it in any of its units, its own bounds, and nonsense. */
const typedFor = (limit: Limit): fc.Arbitrary<string> => {
  if (limit.kind === 'look') return fc.constantFrom('yes', 'no', 'Pass', 'x', '', '13 V')
  const scale = Math.max(Math.abs(limit.least ?? 0), Math.abs(limit.most ?? 0), 1e-3)
  const units = fc.constantFrom(...Object.keys(limit.measure.units), '', 'furlong', 'v')
  const number = fc.oneof(
    fc
      .double({ min: -3 * scale, max: 3 * scale, noNaN: true })
      .map((value) => String(Number(value.toPrecision(4)))),
    fc.constantFrom(String(limit.least), String(limit.most), '1e309', '-1', '0', '.5', '1,5'),
  )
  return fc.oneof(
    { weight: 8, arbitrary: fc.tuple(number, units).map(([value, unit]) => `${value} ${unit}`) },
    {
      weight: 1,
      arbitrary: fc.constantFrom(
        '40 W / 0.3 W',
        '40 / 9 W',
        '1 W / 2 W',
        'OL',
        'open',
        '',
        '∞',
        '<b>',
        'NaN V',
      ),
    },
  )
}

test('the page and the build come to the same verdict and margin, whatever is typed', async () => {
  const all = limits().limits
  const cases = all.flatMap((limit) =>
    fc.sample(typedFor(limit), { numRuns: 60, seed: 11 }).map((typed) => ({ limit, typed })),
  )
  expect(cases.length).toBeGreaterThan(1000)
  const core = cases.map(({ limit, typed }) => {
    const read = readReading(typed, limit)
    if (typed.trim() === '' || !read.ok) return { id: limit.id, typed, verdict: 'not measured' }
    return { id: limit.id, typed, ...judge(limit, read.value) }
  })
  const seen = await withPage({}, async (page) => {
    await page.goto(urlOf('record/van.html'))
    return page.evaluate((list) => {
      const { judgeReading } = globalThis as unknown as {
        judgeReading: (id: string, typed: string) => object
      }
      return list.map(({ id, typed }) => ({ id, typed, ...judgeReading(id, typed), problem: null }))
    }, core)
  })
  expect(seen).toEqual(core.map((one) => ({ ...one, problem: null })))
  const verdicts = new Set(core.map(({ verdict }) => verdict))
  expect(verdicts).toEqual(new Set(['pass', 'fail', 'not measured']))
})

test('the page words a margin as the papers do', async () => {
  const { figure } = limits()
  await withPage({}, async (page) => {
    await page.goto(urlOf('record/van.html'))
    for (const [id, typed] of [
      ['radio.J1.1/volts/transmit', '13.1 V'],
      ['radio.ANT.centre/vswr', '1.2:1'],
      ['radio.ANT.centre/vswr', '10 dB'],
      ['radio.ANT.centre/sensitivity', '-119.5 dBm'],
      ['radio.ANT.centre/frequency', '-400 Hz'],
      ['battery.POS.1/standing', '49.7 mA'],
      ['radio.J1.1/loop', '1 Ω'],
    ] as const) {
      const limit = figure(id)
      const read = readReading(typed, limit)
      if (!read.ok) throw new Error(read.problem)
      const line = { limit, reading: typed, ...judge(limit, read.value) }
      await page.fill(`[data-limit="${id}"] [data-part="reading"]`, typed)
      expect(await page.textContent(`[data-limit="${id}"] .verdict`)).toBe(
        `${line.verdict === 'pass' ? '✓ Pass' : '■ Fails'}, ${marginText(line)}`,
      )
    }
  })
})

test('the fleet can be put in other orders', async () => {
  await withPage({ viewport: { width: 360, height: 800 } }, async (page) => {
    await page.goto(urlOf('fleet.html'))
    const order = () =>
      page
        .locator('[data-asset]')
        .evaluateAll((all) =>
          all.map((one) => (one as unknown as { dataset: { asset: string } }).dataset.asset),
        )
    expect(await order()).toEqual(['Van 10', 'Van 1', 'Van 9'])
    await page.click('[data-order="asset"]')
    expect(await order()).toEqual(['Van 1', 'Van 9', 'Van 10'])
    expect(await page.getAttribute('[data-order="asset"]', 'aria-pressed')).toBe('true')
    await page.click('[data-order="date"]')
    expect(await order()).toEqual(['Van 9', 'Van 1', 'Van 10'])
  })
})

test('the record prints with its issue on every page of readings, and its sums', async () => {
  await withPage({}, async (page) => {
    await page.goto(urlOf('record/van.html'))
    await page.emulateMedia({ media: 'print' })
    expect(await page.locator('.record-bar').isVisible()).toBe(false)
    expect(await page.locator('.record-running').first().textContent()).toMatch(/match \w{4}-\w{4}/)
    expect(await page.locator('.record-running').first().isVisible()).toBe(true)
    expect((await page.pdf({ format: 'A4' })).subarray(0, 5).toString()).toBe('%PDF-')
  })
})

test('without scripts the record still says every limit', async () => {
  await withPage({ javaScriptEnabled: false }, async (page) => {
    await page.goto(urlOf('record/van.html'))
    expect(await page.locator('[data-limit="radio.ANT.centre/frequency"] dd').first().textContent()).toBe(
      'within ±375 Hz',
    )
    expect(await page.locator('#fleet-order').count()).toBe(0)
  })
})

test('nothing complained on the console', () => {
  expect(complaints).toEqual([])
})
