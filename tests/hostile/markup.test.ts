import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { parse } from 'csv-parse/sync'
import { type Browser, chromium } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { drawTargets } from '../../src/cli/draw-targets.ts'
import { drawings, type Judged, pages } from '../../src/cli/pipeline.ts'
import { document } from '../../src/describe/document.ts'
import { demosIn, readCorpus } from '../fuzz/corpus.ts'
import { at, type Json, pathsOf } from '../fuzz/mutate.ts'
import { judgeText, quiet, reportOf } from '../fuzz/run-case.ts'
import { needChromium } from '../setup/chromium.mjs'

const top = fileURLToPath(new URL('../..', import.meta.url))

/** What each text is given, in turn; short ones for fields that hold little. */
const PAYLOADS = [
  `"'><script>window.__x=1</script>`,
  `</script><script>window.__x=2</script>`,
  `</text></svg><img src=x onerror=window.__x=3>`,
  `=HYPERLINK("http://x.invalid","y")`,
  `{{constructor}}{{{lookup this "x"}}}`,
  `<i onclick=window.__x=4>`,
  `" onload="window.__x=5`,
  `]]><!--`,
  `@SUM(1)`,
  `<q>`,
]

const PROCEDURE = `# <script>window.__x=6</script> Fit {{constructor}}

[one](javascript:window.__x=7) [two](data:text/html,<script>x</script>) [three](vbscript:x) [four](  JaVaScRiPt:x)
[five][ref] <javascript:window.__x=8> ![six](javascript:window.__x=9) ![seven](x" onerror="window.__x=10)

<img src=x onerror=window.__x=11><iframe srcdoc="<script>parent.__x=12</script>"></iframe>

<div onclick=window.__x=13>raw</div> [eight](pin:P1.<script>) [nine](wire:"><script>window.__x=14</script>)

Seat the plug home.

[ref]: javascript:window.__x=15
`

/** Asked in the page: what ran, and what is there that nobody of us put there. */
const LOOK = `(() => {
  const all = [...document.querySelectorAll('*')]
  const links = [...document.querySelectorAll('[href],[src]')].map((each) => each.getAttribute('href') ?? each.getAttribute('src'))
  return {
    ran: window.__x ?? 'nothing',
    elements: document.querySelectorAll('q,iframe,object,embed,base,img[src="x"],i[onclick]').length,
    handlers: all.flatMap(({ attributes }) => [...attributes].map(({ name }) => name)).filter((name) => /^on/i.test(name)),
    scripts: [...document.scripts].filter(({ textContent, type }) => type !== 'application/json' && /^window.__x/.test(textContent)).length,
    links: links.filter((link) => /^\\s*(javascript|data|vbscript):/i.test(link) && !/^data:image/.test(link)),
  }
})()`
const LOOK_AT_SVG = `(text) => {
  const parsed = new DOMParser().parseFromString(text, 'image/svg+xml')
  return {
    broken: parsed.querySelectorAll('parsererror').length,
    strange: parsed.querySelectorAll('script,img,i,q,foreignObject,image,iframe').length,
    handlers: [...parsed.querySelectorAll('*')].flatMap(({ attributes }) => [...attributes]).filter(({ name }) => /^on/i.test(name)).length,
  }
}`

type Path = (string | number)[]

function put(doc: Json, path: Path, value: Json): Json {
  const copy = structuredClone(doc)
  const holder = at(copy, path.slice(0, -1)) as Record<string, Json>
  holder[String(path.at(-1))] = value
  return copy
}

/** A copy in which every text that the schema lets be any text is one of the payloads, whole and behind what was there. */
function poisoned(doc: Json): { doc: Json; count: number } {
  let made = doc
  let count = 0
  for (const [index, path] of pathsOf(doc).entries()) {
    const old = at(doc, path)
    if (typeof old !== 'string') continue
    for (let turn = 0; turn < PAYLOADS.length; turn++) {
      const payload = PAYLOADS[(index + turn) % PAYLOADS.length] ?? ''
      const whole = put(made, path, index % 2 === 0 ? payload : `${old}${payload}`)
      // A name that others mention is left: the schema may allow it, but then nothing would be drawn.
      if (/^(id|of|fits|from|to|part|family|unit|half|at|a|b)$/.test(String(path.at(-1)))) break
      if (!document.safeParse(whole).success) continue
      made = whole
      count++
      break
    }
  }
  return { doc: made, count }
}

interface Made {
  readonly judged: Judged
  readonly site: ReadonlyMap<string, string | Uint8Array>
  readonly count: number
}
const made: Made[] = []
const folder = mkdtempSync(join(tmpdir(), 'loomwright-markup-'))
const state: { browser?: Browser } = {}

beforeAll(async () => {
  const corpus = await readCorpus(demosIn(top))
  for (const base of corpus.documents.slice(0, 2)) {
    const { doc, count } = poisoned(base)
    const named = structuredClone(doc) as { harnesses: { procedures?: string[] }[] }
    for (const harness of named.harnesses) harness.procedures = ['evil.md']
    const judged = judgeText(JSON.stringify(named), [{ file: 'evil.md', text: PROCEDURE }])
    expect(judged.misshapen).toEqual([])
    made.push({ judged, count, site: await pages(judged, quiet) })
  }
  for (const [index, { site }] of made.entries())
    for (const [name, content] of site) {
      const path = join(folder, `${index}`, name)
      mkdirSync(dirname(path), { recursive: true })
      writeFileSync(path, content)
    }
  state.browser = await chromium.launch({ executablePath: needChromium(), args: ['--no-sandbox'] })
}, 300_000)
afterAll(async () => {
  await state.browser?.close()
  rmSync(folder, { recursive: true, force: true })
})

describe('markup, scripts, templates and formulas in every text', () => {
  test('are taken by the schema, so that this tries something', () => {
    for (const { count } of made) expect(count).toBeGreaterThan(15)
    const all = made.flatMap(({ site }) => [...site.values()]).join('\n')
    for (const seen of ['&lt;script&gt;', '{{constructor}}', '=HYPERLINK', 'Seat the plug home'])
      expect(all).toContain(seen)
  })

  test('run nowhere in a browser, add no element, and lead nowhere by a link', async () => {
    const page = await state.browser?.newPage()
    if (!page) throw new Error('no browser')
    let seen = 0
    for (const [index, { site }] of made.entries())
      for (const name of [...site.keys()].filter((each) => each.endsWith('.html'))) {
        await page.goto(pathToFileURL(join(folder, `${index}`, name)).href)
        const found = await page.evaluate(LOOK)
        expect([name, found]).toEqual([
          name,
          { ran: 'nothing', elements: 0, handlers: [], scripts: 0, links: [] },
        ])
        seen++
      }
    expect(seen).toBeGreaterThan(100)
  }, 300_000)

  test('leave every drawing well-formed, with no element that is not ours', async () => {
    const page = await state.browser?.newPage()
    if (!page) throw new Error('no browser')
    let seen = 0
    for (const { judged } of made)
      for (const what of ['wiring', 'face'] as const)
        for (const [name, svg] of await drawings(
          judged,
          drawTargets(judged.looms),
          { what, paper: 'a4', pdf: false },
          quiet,
        )) {
          const found = await page.evaluate(`(${LOOK_AT_SVG})(${JSON.stringify(String(svg))})`)
          expect([name, found]).toEqual([name, { broken: 0, strange: 0, handlers: 0 }])
          seen++
        }
    expect(seen).toBeGreaterThan(5)
  }, 300_000)

  test('are no formula in any table', () => {
    let cells = 0
    for (const { site } of made)
      for (const [name, content] of site) {
        if (!name.endsWith('.csv')) continue
        for (const row of parse(String(content), { relax_column_count: true }) as string[][])
          for (const cell of row) {
            cells++
            if (/^\s*[=+\-@]/.test(cell))
              expect([name, cell]).toEqual([name, expect.stringMatching(/^[+-]?\d+(\.\d+)?( ?\S+)?$/)])
          }
      }
    expect(cells).toBeGreaterThan(100)
  })

  test('are shown as they are, never filled in by a template', () => {
    for (const { site } of made)
      for (const [name, content] of site)
        if (name.endsWith('.html'))
          expect([name, /function Object|\[native code\]/.test(String(content))]).toEqual([name, false])
  })
})

describe('control characters', () => {
  const controls = '\u001b[2J\u001b]0;owned\u0007\u0008\u009b31m\u202e\u2066\u0000'
  test('never reach a terminal: refused, or taken out', async () => {
    const [tiny] = (await readCorpus(demosIn(top))).documents
    for (const path of pathsOf(tiny ?? null)) {
      if (typeof at(tiny ?? null, path) !== 'string') continue
      const judged = judgeText(JSON.stringify(put(tiny ?? null, path, `a${controls}b`)), [])
      expect(reportOf(judged)).not.toMatch(
        /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/,
      )
    }
  })
})
