import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { needChromium } from '../setup/chromium.mjs'
import { siteOf } from './site-parts.ts'
import { twoLooms } from './two-looms.ts'

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const HOSTILE = '</b><img src=x onerror=alert(1)>'
/** Nothing a name may hold that a link or a selector would trip over is left out. */
const HOSTILE_WIRE = 'A%4&=[x]\\/?é'
const DESK = { viewport: { width: 1280, height: 900 } }
const PHONE = { viewport: { width: 360, height: 800 }, hasTouch: true, isMobile: true }

let browser: Browser
const folder = mkdtempSync(join(tmpdir(), 'paths-'))
/** A path with what follows the first `#` as it stands. */
function urlOf(address: string): string {
  const [path = '', ...hash] = address.split('#')
  return [pathToFileURL(join(folder, path)).href, ...hash].join('#')
}

async function publish(name: string, data: ReturnType<typeof twoLooms>) {
  for (const { path, content } of await siteOf(data)) {
    const file = join(folder, name, path)
    mkdirSync(dirname(file), { recursive: true })
    writeFileSync(file, content)
  }
}

beforeAll(async () => {
  await publish('plain', twoLooms())
  await publish('hostile', twoLooms(HOSTILE, HOSTILE_WIRE))
  browser = await chromium.launch({ executablePath: needChromium(), args: ['--no-sandbox'] })
})
afterAll(async () => {
  await browser?.close()
  rmSync(folder, { recursive: true, force: true })
})

/** Opens a page from disk and, when the test is over, wants nothing said on the console. */
async function withPage(options: BrowserContextOptions, path: string, run: (page: Page) => Promise<void>) {
  const context = await browser.newContext(options)
  try {
    const page = await context.newPage()
    const complaints: string[] = []
    page.on('console', (message) => complaints.push(message.text()))
    page.on('pageerror', (error) => complaints.push(String(error)))
    page.on('dialog', (dialog) => complaints.push(dialog.message()))
    await page.goto(urlOf(path))
    await run(page)
    expect(complaints).toEqual([])
  } finally {
    await context.close()
  }
}

const trail = (page: Page) => page.locator('.trail')

/** What is lit, by what it is and which address it has. */
const lit = (page: Page, mark: 'lw-way' | 'lw-same' | 'lw-picked' = 'lw-way'): Promise<string[]> =>
  page.evaluate(`[...new Set([...document.querySelectorAll('.${mark}')].map((one) => {
    const { id, at, block, pin } = one.dataset
    return (one.tagName === 'TR' ? 'row' : one.classList[0]) + ' ' + (at ?? id ?? block ?? pin)
  }))].sort()`)

interface Style {
  readonly strokeWidth: number
  readonly opacity: number
}

const styleOf = (page: Page, selector: string): Promise<Style> =>
  page.evaluate(`(() => {
    const { strokeWidth, opacity } = getComputedStyle(document.querySelector(${JSON.stringify(selector)}))
    return { strokeWidth: parseFloat(strokeWidth), opacity: Number(opacity) }
  })()`)

const SPEAKER_WAY = [
  'lw-cond one.A4',
  'lw-cond two.B1',
  'lw-label one.A4',
  'lw-label two.B1',
  'lw-pin horn.T.1',
]

describe('on the page of the job', () => {
  const PAGE = 'plain/installation/van.html'

  test('pointing at a conductor lights the way through both looms, pointing elsewhere ends it', async () => {
    await withPage(DESK, PAGE, async (page) => {
      expect(await trail(page).isVisible()).toBe(false)
      await page.locator('.lw-label[data-id="one.A4"]').hover()
      expect(await lit(page)).toEqual(expect.arrayContaining(SPEAKER_WAY))
      expect(await lit(page)).not.toContain('lw-cond one.A5')
      expect(await trail(page).textContent()).toContain(
        'radio J1/one P1 pin 3 (SPK+) → one A4 · WHBU white and blue · 0.75 mm² (≈18 AWG) · 1.2 m → one X2A/two X2B pin 1 → two B1',
      )
      await page.locator('h1').hover()
      expect(await lit(page)).toEqual([])
      expect(await trail(page).isVisible()).toBe(false)
    })
  })

  test('the way goes on through a fuse to what feeds it', async () => {
    await withPage(DESK, PAGE, async (page) => {
      await page.locator('.lw-label[data-id="one.A2"]').hover()
      expect(await lit(page)).toEqual(
        expect.arrayContaining(['lw-block one.F1', 'lw-cond one.A1', 'lw-cond one.A2']),
      )
      expect(await trail(page).textContent()).toMatch(
        /BAT\+.*through fuse F1.*one A2.*radio J1 pin 1 \(DC\+\)/,
      )
    })
  })

  test('it says so without colour: what is lit is wider and framed, the rest is dimmed; paper shows none of it', async () => {
    await withPage(DESK, PAGE, async (page) => {
      await page.locator('.lw-label[data-id="one.A4"]').click()
      const look = (selector: string) => styleOf(page, selector)
      const edge = (id: string) => look(`.lw-cond[data-id="${id}"] .lw-edge`)
      expect((await edge('one.A4')).strokeWidth).toBeGreaterThan((await edge('one.A5')).strokeWidth * 1.8)
      expect((await look('.lw-cond[data-id="one.A5"]')).opacity).toBeLessThan(0.5)
      expect(await page.locator('.lw-pin.lw-way > rect.lw-spot').count()).toBeGreaterThan(1)
      await page.emulateMedia({ media: 'print' })
      expect((await edge('one.A4')).strokeWidth).toBe((await edge('one.A5')).strokeWidth)
      expect((await look('.lw-cond[data-id="one.A5"]')).opacity).toBe(1)
      expect(await trail(page).isVisible()).toBe(false)
      expect(await page.evaluate(`getComputedStyle(document.querySelector('.lw-spot')).stroke`)).toBe('none')
    })
  })

  test('the keyboard walks the conductors, keeps a way with Enter and drops it with Escape', async () => {
    await withPage(DESK, PAGE, async (page) => {
      const focused = () => page.evaluate('document.activeElement.dataset.id')
      await page.locator('.lw-cond[tabindex="0"]').first().focus()
      expect(await focused()).toBe('one.A1')
      await page.keyboard.press('ArrowDown')
      expect(await focused()).toBe('one.A2')
      await page.keyboard.press('End')
      await page.keyboard.press('Home')
      for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowDown')
      expect(await focused()).toBe('one.A4')
      await page.keyboard.press('ArrowRight')
      expect(await focused()).toBe('two.B1')
      await page.keyboard.press('ArrowLeft')
      expect(await focused()).toBe('one.A4')
      await page.keyboard.press('Enter')
      expect(await page.getAttribute('.lw-cond[data-id="one.A4"]', 'aria-pressed')).toBe('true')
      await page.keyboard.press('Tab')
      expect(await lit(page)).toEqual(expect.arrayContaining(SPEAKER_WAY))
      await page.keyboard.press('Escape')
      expect(await lit(page)).toEqual([])
      expect(await page.getAttribute('.lw-cond[data-id="one.A4"]', 'aria-pressed')).toBe('false')
      expect(await page.locator('.lw-cond[tabindex="0"]').count()).toBe(1)
    })
  })

  test('a net opens by its name, other branches of it less strongly than the way', async () => {
    await withPage(DESK, `${PAGE}#pin=radio.J1.2`, async (page) => {
      expect(await lit(page)).toContain('lw-cond one.A3')
    })
    await withPage(DESK, `${PAGE}#net=SPK%2B`, async (page) => {
      expect(await lit(page)).toEqual(expect.arrayContaining(SPEAKER_WAY))
    })
  })
})

describe('on the page of a harness', () => {
  test('a link opens it with the way lit: drawing, both tables, faces', async () => {
    await withPage(DESK, 'plain/harness/front.html#pin=P1.3', async (page) => {
      const found = await lit(page)
      for (const one of [
        'lw-cond one.A4',
        'lw-pin one.P1.3',
        'lw-facepin 3',
        'row one.A4',
        'row one.P1.3',
        'row one.X2A.1',
      ])
        expect(found).toContain(one)
      expect(await lit(page, 'lw-picked')).toEqual(['lw-facepin 3', 'lw-pin one.P1.3', 'row one.P1.3'])
    })
  })

  test('the way is followed to the other loom and to the job', async () => {
    await withPage(DESK, 'plain/harness/front.html#wire=A4', async (page) => {
      await trail(page).getByRole('link', { name: 'two B1' }).click()
      await page.waitForURL(/harness\/rear\.html#wire=B1$/)
      expect(await lit(page)).toContain('row two.B1')
      await trail(page).getByRole('link', { name: 'Whole way in Van' }).click()
      await page.waitForURL(/installation\/van\.html#wire=two\.B1$/)
      expect(await lit(page)).toEqual(expect.arrayContaining(SPEAKER_WAY))
    })
  })

  test('a finger keeps a way and lets go of it, beside the line too', async () => {
    await withPage(PHONE, 'plain/harness/front.html', async (page) => {
      const label = page.locator('.lw-label[data-id="one.A4"]').first()
      await label.scrollIntoViewIfNeeded()
      await label.tap()
      expect(await lit(page, 'lw-picked')).toContain('lw-cond one.A4')
      expect((await trail(page).boundingBox())?.height).toBeLessThan(800 * 0.35)
      await page.getByRole('button', { name: 'Clear' }).tap()
      expect(await lit(page)).toEqual([])
      // Where the line is level, five pixels below it: half a finger beside what is 2 px wide.
      const [x, y]: [number, number] = await page.evaluate(`(() => {
        const line = document.querySelector('.lw-cond[data-id="one.A5"] .lw-edge')
        line.scrollIntoView({ block: 'center', inline: 'center' })
        const at = line.getPointAtLength(4).matrixTransform(line.getScreenCTM())
        return [at.x, at.y + 5]
      })()`)
      await page.touchscreen.tap(x, y)
      expect(await lit(page, 'lw-picked')).toContain('lw-cond one.A5')
      await page.locator('tr[data-at="one.A2"] td').first().tap()
      expect(await lit(page, 'lw-picked')).toEqual(['lw-cond one.A2', 'lw-label one.A2', 'row one.A2'])
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(360)
    })
  })

  test.each(['light', 'dark'] as const)(
    'passes the accessibility checks with a way lit, %s',
    async (colorScheme) => {
      await withPage(
        { ...PHONE, colorScheme, bypassCSP: true },
        'plain/harness/front.html#wire=A4',
        async (page) => {
          await page.evaluate(axeSource)
          const violations: string[] = await page.evaluate(`axe.run(document, {
          preload: false,
          runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
        }).then(({ violations }) => violations.map((one) => one.id + ': ' + one.nodes[0].html.slice(0, 160)))`)
          expect(violations).toEqual([])
        },
      )
    },
  )

  test('without scripts nothing is missing and nothing is in the way', async () => {
    await withPage(
      { ...DESK, javaScriptEnabled: false },
      'plain/harness/front.html#wire=A4',
      async (page) => {
        expect(await page.locator('.lw-pin').first().isVisible()).toBe(true)
        expect(await page.locator('.trail').count()).toBe(0)
        expect(await page.locator('#path-data').isVisible()).toBe(false)
      },
    )
  })
})

test('hostile names light up, are shown as they were typed, and run nothing', async () => {
  const hash = encodeURIComponent(HOSTILE_WIRE)
  await withPage(DESK, `hostile/harness/front.html#wire=${hash}`, async (page) => {
    expect(await lit(page, 'lw-picked')).toContain(`lw-cond one.${HOSTILE_WIRE}`)
    expect(await trail(page).textContent()).toContain(HOSTILE)
    expect(await page.locator('img').count()).toBe(0)
    await trail(page).getByRole('link', { name: 'two B1' }).click()
    await page.waitForURL(/rear/)
    await trail(page).getByRole('link', { name: HOSTILE_WIRE }).click()
    await page.waitForURL(/front/)
    expect(await lit(page, 'lw-picked')).toContain(`lw-cond one.${HOSTILE_WIRE}`)
  })
  for (const bad of ['%', '%E0%A4%A', '__proto__', 'constructor', '"><img src=x onerror=alert(1)>', ''])
    await withPage(DESK, `hostile/harness/front.html#pin=${bad}`, async (page) => {
      expect(await lit(page)).toEqual([])
      expect(await page.locator('img').count()).toBe(0)
    })
})
