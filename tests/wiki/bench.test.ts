import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { parse } from 'csv-parse/sync'
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import {
  type AsBuilt,
  type AsBuiltStep,
  asBuiltGaps,
  judgeStep,
  type MeterKind,
  readAsBuilt,
} from '../../src/describe/as-built.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { benchSteps } from '../../src/sheets/bench-steps.ts'
import { needChromium } from '../setup/chromium.mjs'
import { firstUse, sample, vanRadio } from '../sheets/sample-shop.ts'
import { siteOf } from './site-parts.ts'

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const PHONE = { width: 360, height: 800 }
const DESK = { width: 1280, height: 900 }
const CHROMIUM = { executablePath: needChromium(), args: ['--no-sandbox'] }

const folder = mkdtempSync(join(tmpdir(), 'bench-'))
const urlIn = (site: string) => pathToFileURL(join(folder, site, 'bench/van.html')).href
const { loom, solution } = sample()
const wanted = benchSteps(loom, firstUse(loom), solution)

/** The van with another wire length: the same harness, another match code. */
const changed: DocumentInput = JSON.parse(JSON.stringify(vanRadio).replace('"5.6 m"', '"4.6 m"'))

async function writeSite(name: string, data: DocumentInput): Promise<void> {
  for (const { path, content } of await siteOf(data)) {
    mkdirSync(dirname(join(folder, name, path)), { recursive: true })
    writeFileSync(join(folder, name, path), content)
  }
}

let browser: Browser
beforeAll(async () => {
  await writeSite('now', vanRadio)
  await writeSite('later', changed)
  browser = await chromium.launch(CHROMIUM)
})
afterAll(async () => {
  await browser?.close()
  rmSync(folder, { recursive: true, force: true })
})

async function withBench<T>(
  options: Parameters<Browser['newContext']>[0],
  run: (page: Page, complaints: string[]) => Promise<T>,
): Promise<T> {
  const context = await browser.newContext(options)
  try {
    const page = await context.newPage()
    return await run(page, await openBench(page))
  } finally {
    await context.close()
  }
}

/** Opens the page and gathers whatever it complains of. */
async function openBench(page: Page, site = 'now'): Promise<string[]> {
  const complaints: string[] = []
  page.on('console', (message) => complaints.push(message.text()))
  page.on('pageerror', (error) => complaints.push(String(error)))
  await page.goto(urlIn(site))
  return complaints
}

async function download(page: Page, button: string): Promise<{ name: string; text: string }> {
  const [file] = await Promise.all([page.waitForEvent('download'), page.click(button)])
  return { name: file.suggestedFilename(), text: readFileSync(await file.path(), 'utf8') }
}

function recordOf(text: string): AsBuilt {
  const read = readAsBuilt(JSON.parse(text))
  if (!read.ok) throw new Error(read.problem)
  expect(read.value.overruled).toEqual([])
  return read.value.record
}

const title = (page: Page) => page.textContent('#bench-title')
const verdict = (page: Page) => page.textContent('#bench-verdict')

/** Goes straight to the first step whose heading matches. */
async function goTo(page: Page, what: RegExp): Promise<void> {
  await page.click('#bench-all')
  const number = wanted.findIndex((step) => what.test(step.what)) + 1
  await page.click(`role=button[name="Go to step ${number}"]`)
}

const begin = (page: Page) => page.click('#bench-start button[type="submit"]')

describe('a whole session', () => {
  test('by keyboard alone, to a record that reads back with every step passed', async () => {
    await withBench({ viewport: DESK }, async (page, complaints) => {
      await page.focus('#bench-serial')
      await page.keyboard.type('0042')
      await page.keyboard.press('Tab')
      await page.keyboard.type('A. Maker')
      await page.keyboard.press('Enter')
      for (const step of wanted) {
        if (step.stage === 'continuity' && (await page.isVisible('#bench-test'))) await fillTester(page)
        expect(await title(page)).toBe(step.what)
        await doByKey(page, step)
      }
      expect(await title(page)).toBe('The record')
      const { name, text } = await download(page, '#bench-json')
      expect(name).toMatch(/^as-built-van-\w{4}-\w{4}-0042\.json$/)
      const record = recordOf(text)
      expect(asBuiltGaps(record, record.match)).toEqual([])
      expect(record).toMatchObject({ harness: 'van', revision: 'B', serial: '0042', madeBy: 'A. Maker' })
      expect(record.steps.map(({ id }) => id)).toEqual(wanted.map(({ id }) => id))
      expect(record.steps.map(({ by }) => by)).toEqual(
        wanted.map(({ stage }) =>
          ['continuity', 'open', 'look'].includes(stage) ? 'B. Tester' : 'A. Maker',
        ),
      )
      const csv = await download(page, '#bench-csv')
      const rows: string[][] = parse(csv.text, { bom: true })
      expect(rows.length).toBe(wanted.length + 1)
      expect(rows[1]).toContain(wanted[0]?.what)
      expect(complaints).toEqual([])
    })
  })

  test('with a thumb at 360 px: big targets, nothing wider than the screen, a failed reading kept beside the good one', async () => {
    await withBench({ viewport: PHONE, hasTouch: true, isMobile: true }, async (page, complaints) => {
      await page.tap('#bench-start button[type="submit"]')
      await page.tap('#bench-done')
      expect(await page.textContent('#bench-place')).toBe(`Step 2 of ${wanted.length}`)
      await page.tap('#bench-back')
      expect(await verdict(page)).toMatch(/Done/)
      await goTo(page, /^R1 to P1-1$/)
      await page.fill('#bench-leads', '0.2')
      await page.tap('#bench-test button[type="submit"]')
      await page.fill('#bench-reading', '12')
      await page.tap('#bench-done')
      expect(await verdict(page)).toMatch(/FAIL: 12 Ω less 200 mΩ of leads is 11\.8 Ω: more than 0\.5 Ω/)
      expect(await title(page)).toBe('R1 to P1-1')
      await page.fill('#bench-reading', '0.3')
      await page.tap('#bench-done')
      expect(await verdict(page)).toMatch(/PASS: 0\.3 Ω less 200 mΩ of leads is 100 mΩ: closed/)
      expect(await smallTargets(page)).toEqual([])
      expect(await page.evaluate('document.documentElement.scrollWidth - innerWidth')).toBe(0)
      await page.tap('#bench-done')
      expect(await title(page)).not.toBe('R1 to P1-1')
      const kept = await endRecord(page)
      const [step] = kept.steps.filter(({ what }) => what === 'R1 to P1-1')
      expect(step).toMatchObject({
        verdict: 'pass',
        typed: '0.3 Ω',
        earlier: [{ verdict: 'fail', typed: '12 Ω' }],
      })
      expect(step?.reading).toBeCloseTo(0.1)
      expect(asBuiltGaps(kept).join(' ')).toMatch(/no serial number.*steps not done/)
      expect(complaints).toEqual([])
    })
  })
})

async function fillTester(page: Page): Promise<void> {
  await page.fill('#bench-tester', 'a. maker')
  expect(await page.isVisible('#bench-same')).toBe(true)
  await page.fill('#bench-tester', 'B. Tester')
  expect(await page.isVisible('#bench-same')).toBe(false)
  await page.fill('#bench-meter-serial', 'M-7')
  await page.selectOption('#bench-meter', 'four-wire')
  await page.focus('#bench-meter-serial')
  await page.keyboard.press('Enter')
}

/** What a person with a good loom types. */
async function doByKey(page: Page, step: (typeof wanted)[number]): Promise<void> {
  if (step.ask === 'done' || step.ask === 'look') return page.keyboard.press('d')
  if (step.stage === 'open') {
    await page.keyboard.press('o')
    return page.keyboard.press('Enter')
  }
  const good = step.min === undefined ? (step.max ?? 0) / 2 : step.max === undefined ? step.min + 1 : step.min
  await page.keyboard.type(String(Number(good.toPrecision(6))))
  await page.keyboard.press('Enter')
  expect(await verdict(page)).toMatch(/PASS/)
  return page.keyboard.press('Enter')
}

async function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    // biome-ignore lint/suspicious/noExplicitAny: the browser's globals, seen from a file checked without them.
    const { document } = globalThis as any
    return [...document.querySelectorAll('.bench button, .bench input, .bench select, .bench a')]
      .filter((one) => one.getClientRects().length > 0)
      .map((one) => ({ one, box: one.getBoundingClientRect() }))
      .filter(({ box }) => box.height < 63.9 || box.width < 63.9)
      .map(({ one }) => one.outerHTML.slice(0, 80))
  })
}

/** The record as it stands. */
async function endRecord(page: Page): Promise<AsBuilt> {
  await page.click('#bench-finish')
  return recordOf((await download(page, '#bench-json')).text)
}

describe('what is kept', () => {
  const profile = join(folder, 'profile')
  const inProfile = async <T>(run: (page: Page, context: BrowserContext) => Promise<T>): Promise<T> => {
    const context = await chromium.launchPersistentContext(profile, { ...CHROMIUM, viewport: PHONE })
    try {
      return await run(await context.newPage(), context)
    } finally {
      await context.close()
    }
  }

  test('a closed browser goes on where it was; another description starts anew, says so, and hands the old record out', async () => {
    await inProfile(async (page) => {
      await openBench(page)
      await page.fill('#bench-maker', 'A. Maker')
      await begin(page)
      for (let step = 0; step < 3; step++) await page.click('#bench-done')
    })
    await inProfile(async (page) => {
      await openBench(page)
      expect(await page.textContent('#bench-place')).toBe(`Step 4 of ${wanted.length}`)
      expect(await title(page)).toBe(wanted[3]?.what)
      expect(await page.textContent('#bench-said')).toMatch(/Continued on this device\. 3 of/)
      expect(await page.isVisible('#bench-old')).toBe(false)
    })
    await inProfile(async (page) => {
      await openBench(page, 'later')
      expect(await page.isVisible('#bench-start')).toBe(true)
      expect(await page.inputValue('#bench-maker')).toBe('A. Maker')
      expect(await page.textContent('#bench-old-words')).toMatch(
        /The description has changed.*rev B, match (\w{4}-\w{4}); now match (?!\1)\w{4}-\w{4}.*new session.*3 of \d+ steps/,
      )
      const old = recordOf((await download(page, '#bench-old-save')).text)
      expect(old.steps.map(({ id }) => id)).toEqual(wanted.slice(0, 3).map(({ id }) => id))
      expect(asBuiltGaps(old).join(' ')).toContain(`${wanted.length - 3} steps not done`)
      await page.click('#bench-old-drop')
      expect(await page.isVisible('#bench-old')).toBe(false)
      await page.reload()
      expect(await page.isVisible('#bench-old')).toBe(false)
    })
  })

  test('where nothing can be kept, the page says so and works on', async () => {
    await withBench({ viewport: PHONE }, async (page) => {
      await page.addInitScript(
        'Object.defineProperty(window, "localStorage", { get() { throw new Error("barred") } })',
      )
      await page.reload()
      expect(await page.isVisible('#bench-unkept')).toBe(true)
      await begin(page)
      await page.click('#bench-done')
      expect(await page.textContent('#bench-place')).toBe(`Step 2 of ${wanted.length}`)
    })
  })

  test('the next loom starts empty, and only after the question', async () => {
    await withBench({ viewport: PHONE }, async (page) => {
      await begin(page)
      await page.click('#bench-done')
      await page.click('#bench-finish')
      await page.click('#bench-again')
      expect(await page.isVisible('#bench-end')).toBe(true)
      expect(await page.isVisible('#bench-again-ask')).toBe(true)
      await page.click('#bench-again')
      expect(await page.isVisible('#bench-start')).toBe(true)
      expect(await page.textContent('#bench-place')).toMatch(/^0 of/)
    })
  })

  test('a note that would be a formula is none in the table, and skipping asks for a reason', async () => {
    await withBench({ viewport: DESK }, async (page) => {
      await page.fill('#bench-serial', '+1')
      await begin(page)
      await page.click('#bench-extra button[type="submit"]')
      expect(await verdict(page)).toMatch(/Write why/)
      await page.fill('#bench-note', '=HYPERLINK("http://x")')
      await page.click('#bench-extra button[type="submit"]')
      await page.click('#bench-finish')
      const rows: Record<string, string>[] = parse((await download(page, '#bench-csv')).text, {
        bom: true,
        columns: true,
      })
      expect(rows[0]).toMatchObject({ Verdict: 'skipped', Note: '\'=HYPERLINK("http://x")' })
      expect(rows[1]).toMatchObject({ Verdict: 'not-done' })
    })
  })
})

describe('a face', () => {
  test('is seen from the wire side, marks its cavity by shape and words, and turns over', async () => {
    await withBench({ viewport: PHONE }, async (page) => {
      await begin(page)
      await goTo(page, /into P2 cavity 5$/)
      const figure = page.locator('#bench-faces figure')
      expect(await figure.locator('figcaption').textContent()).toMatch(
        /^P2-5 .*Wire-entry face: the side your hands see\. Wide side up: top row, 1st of 5 from the left$/,
      )
      expect(await figure.locator('svg').first().getAttribute('aria-label')).toBe(
        'P2, Wire-entry face: the side your hands see, marked: P2-5',
      )
      const ringAt = () => figure.locator('svg').first().locator('.bench-ring').getAttribute('cx')
      const discAt = () =>
        figure.locator('svg').first().locator('[data-pin="5"] path').first().getAttribute('d')
      const before = Number(await ringAt())
      expect(Math.abs(Number(/^M(-?[\d.]+) /.exec((await discAt()) ?? '')?.[1]) - before)).toBeLessThan(20)
      await page.keyboard.press('t')
      expect(await figure.locator('figcaption').textContent()).toMatch(
        /Mating face: the end that plugs in\. Wide side up: top row, 5th of 5 from the left$/,
      )
      expect(Number(await ringAt())).toBeGreaterThan(before)
      expect(await page.textContent('#bench-said')).toBe('Turned over: mating face, the end that plugs in.')
    })
  })

  test('of a ring-out shows both probes, lettered, and on a desk both sides of each', async () => {
    await withBench({ viewport: DESK }, async (page) => {
      await begin(page)
      await goTo(page, /^P2-1 to S1-1$/)
      await page.click('#bench-test button[type="submit"]')
      const captions = await page.locator('#bench-faces figure:visible figcaption b').allTextContents()
      expect(captions).toEqual(['Probe A: P2-1', 'Probe A: P2-1', 'Probe B: S1-1', 'Probe B: S1-1'])
      expect(await page.locator('#bench-faces svg .bench-letter').first().textContent()).toBe('A')
      await page.setViewportSize(PHONE)
      await expect
        .poll(() => page.locator('#bench-faces figure:visible figcaption').first().textContent())
        .toMatch(/^Probe A: P2-1 .*Mating face: the end that plugs in/)
      await expect.poll(() => page.locator('#bench-faces figure:visible').count()).toBe(2)
    })
  })
})

describe('the page judges as the record is judged', () => {
  const limits = [
    { ask: 'ohms', max: 0.04 },
    { ask: 'ohms', max: 1.2 },
    { ask: 'ohms', min: 1e6 },
    { ask: 'ohms', min: 108, max: 132 },
    { ask: 'ohms', min: 0.09, max: 0.11 },
    { ask: 'force', min: 89 },
  ] as const
  const values = [0, 0.03, 0.1, 0.45, 0.5, 0.51, 1.2, 1.21, 89, 95, 110, 133, 1e5, 1e6, 2e6, undefined]

  test('every limit, reading and meter', async () => {
    await withBench({}, async (page) => {
      for (const kind of ['hand', 'four-wire'] as const)
        for (const limit of limits)
          for (const value of values) {
            if (limit.ask === 'force' && value === undefined) continue
            expect({ kind, limit, value, verdict: await judged(page, limit, value, kind) }).toEqual({
              kind,
              limit,
              value,
              verdict: judgeStep(stepOf(limit, value), kind),
            })
          }
    })
  })

  const stepOf = (limit: (typeof limits)[number], value: number | undefined): AsBuiltStep => ({
    ...{ id: 'x', number: 1, stage: 'continuity', section: '', what: '', verdict: 'pass' },
    ...limit,
    ...(value === undefined ? { overRange: true } : { reading: value }),
  })

  const judged = (page: Page, limit: object, value: number | undefined, kind: MeterKind) =>
    page.evaluate(
      ([step, figure, meter]) =>
        // biome-ignore lint/suspicious/noExplicitAny: the page's own script, seen from outside.
        (globalThis as any).loomBench.judge(step, figure, meter).verdict as string,
      [
        limit,
        value === undefined ? { overRange: true, typed: 'OL' } : { value, typed: String(value) },
        { kind, leadOhms: 0 },
      ] as const,
    )

  const FIGURES: [text: string, unit: string, ask: string, figure: object][] = [
    ['0.3', 'Ω', 'ohms', { value: 0.3, typed: '0.3 Ω' }],
    ['0,3', 'Ω', 'ohms', { value: 0.3 }],
    ['12m', 'Ω', 'ohms', { value: 0.012, typed: '12 mΩ' }],
    ['12 M', 'Ω', 'ohms', { value: 12e6 }],
    ['1.2k', '', 'ohms', { value: 1200 }],
    ['OL', '', 'ohms', { overRange: true }],
    ['2', '', 'ohms', { problem: expect.stringContaining('Choose the unit') }],
    ['', 'Ω', 'ohms', { problem: expect.stringContaining('Type what the meter shows') }],
    ['-1', 'Ω', 'ohms', { problem: expect.stringContaining('not a reading') }],
    ['1e99', 'Ω', 'ohms', { problem: expect.any(String) }],
    ['constructor', 'Ω', 'ohms', { problem: expect.any(String) }],
    ['5 constructor', 'Ω', 'ohms', { problem: expect.any(String) }],
    ['20', 'lbf', 'force', { value: expect.closeTo(88.96, 1) }],
    ['90 ohm', 'N', 'force', { problem: expect.stringContaining('not one of N') }],
  ]

  test('figures as people type them', async () => {
    await withBench({}, async (page) => {
      for (const [text, unit, ask, figure] of FIGURES) {
        const read = await page.evaluate(
          // biome-ignore lint/suspicious/noExplicitAny: the page's own script, seen from outside.
          ([a, b, c]) => (globalThis as any).loomBench.readFigure(a, b, c) as object,
          [text, unit, ask] as const,
        )
        expect({ text, ...read }).toMatchObject({ text, ...figure })
      }
    })
  })
})

describe('for everybody', () => {
  test.each([
    ['phone, light', PHONE, 'light'],
    ['phone, dark', PHONE, 'dark'],
    ['desk, dark', DESK, 'dark'],
  ] as const)('no violation in any view on a %s', async (_, viewport, colorScheme) => {
    await withBench({ viewport, colorScheme, bypassCSP: true }, async (page) => {
      const found: Record<string, string[]> = {}
      const look = async (name: string) => {
        found[name] = await violations(page)
      }
      await look('start')
      await begin(page)
      await goTo(page, /into P2 cavity 3$/)
      await look('insert')
      await goTo(page, /^R1 to P1-1$/)
      await look('test')
      await page.click('#bench-test button[type="submit"]')
      await page.fill('#bench-reading', '9')
      await page.click('#bench-done')
      await look('failed')
      await goTo(page, /^P2-3 and P2-4/)
      await look('look')
      await page.click('#bench-all')
      await look('list')
      await page.click('#bench-all')
      await page.click('#bench-finish')
      await look('end')
      expect(found).toEqual(Object.fromEntries(Object.keys(found).map((name) => [name, []])))
    })
  })

  test('the heading of a step is focused and its place is said', async () => {
    await withBench({}, async (page) => {
      await begin(page)
      await page.keyboard.press('n')
      expect(await page.evaluate('document.activeElement.id')).toBe('bench-title')
      expect(await page.textContent('#bench-said')).toBe(`Step 2 of ${wanted.length}. 0 have a result.`)
    })
  })

  test('single keys can be turned off', async () => {
    await withBench({}, async (page) => {
      await page.uncheck('#bench-keys')
      await begin(page)
      await page.keyboard.press('n')
      expect(await page.textContent('#bench-place')).toBe(`Step 1 of ${wanted.length}`)
    })
  })

  test('without scripts, and on paper, every step stands as a list', async () => {
    await withBench({ javaScriptEnabled: false }, async (page) => {
      expect(await page.locator('#bench-list li:visible').count()).toBe(wanted.length)
      expect(await page.isVisible('#bench')).toBe(false)
    })
    await withBench({}, async (page) => {
      await begin(page)
      expect(await page.locator('#bench-list li:visible').count()).toBe(0)
      await page.emulateMedia({ media: 'print' })
      expect(await page.locator('#bench-list li:visible').count()).toBe(wanted.length)
      expect(await page.isVisible('#bench-nav')).toBe(false)
    })
  })
})

async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axeSource)
  return page.evaluate(async () => {
    // biome-ignore lint/suspicious/noExplicitAny: the browser's globals, seen from a file checked without them.
    const { document, axe } = globalThis as any
    const result = await axe.run(document, {
      preload: false,
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    })
    return result.violations.map(
      (one: { id: string; nodes: { html: string }[] }) => `${one.id}: ${one.nodes[0]?.html.slice(0, 160)}`,
    )
  })
}
