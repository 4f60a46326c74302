import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, test } from 'vitest'
import { demoLooms, wiringSheets } from './demo-sheets.ts'
import { type DrawingFigures, type Inspected, inspectDrawing } from './figures.ts'
import { generatedHarness } from './generated.ts'

/*
 * Crossings and bends of every drawing against those of the last commit. To accept new figures:
 *
 *   FIGURES=write npx vitest run --config tests/vitest.config.ts tests/draw/figures.test.ts
 */
const FILE = fileURLToPath(new URL('figures.json', import.meta.url))
const HOW = 'FIGURES=write npx vitest run --config tests/vitest.config.ts tests/draw/figures.test.ts'

interface Tracked {
  readonly demos: Readonly<Record<string, DrawingFigures>>
  readonly generated: Totals
}

interface Totals {
  readonly drawings: number
  readonly crossings: number
  readonly bends: number
}

/** A drawing may get worse by this much for the good of others; all together by no more than a fiftieth. */
const ONE = { share: 0.15, crossings: 3, bends: 8 }
const ALL_SHARE = 0.02

const writing = process.env['FIGURES'] === 'write'
const tracked: Tracked | undefined = existsSync(FILE) ? JSON.parse(readFileSync(FILE, 'utf8')) : undefined

const demos = new Map<string, Inspected>()
const generated = new Map<number, Inspected>()

/** Mostly small looms, every twentieth as large as a real one. */
const GENERATED = Array.from({ length: 200 }, (_, i) => i + 1)
const wiresOf = (seed: number) => (seed % 20 === 0 ? 12 + ((seed * 7) % 30) : 4 + ((seed * 7) % 11))

beforeAll(async () => {
  for (const [name, model] of wiringSheets(await demoLooms())) {
    demos.set(name, await inspectDrawing(model))
  }
  for (const seed of GENERATED)
    generated.set(seed, await inspectDrawing(generatedHarness(seed, wiresOf(seed))))
  if (!writing) return
  const plain = ({ faults: _, ...figures }: Inspected): DrawingFigures => figures
  const now: Tracked = {
    demos: Object.fromEntries([...demos].map(([name, found]) => [name, plain(found)])),
    generated: totals([...generated.values()]),
  }
  writeFileSync(FILE, `${JSON.stringify(now, null, 2)}\n`)
}, 240_000)

function totals(found: readonly DrawingFigures[]): Totals {
  return {
    drawings: found.length,
    crossings: found.reduce((sum, one) => sum + one.crossings, 0),
    bends: found.reduce((sum, one) => sum + one.bends, 0),
  }
}

/** Says by how much a count is over what is allowed; nothing when it is not. */
function over(what: string, was: number, now: number, allowed: number): string[] {
  if (now <= was + allowed) return []
  return [
    `${what}: ${now} where there were ${was}, ${now - was} more; ${Math.floor(allowed)} are allowed. Accept with ${HOW}`,
  ]
}

describe('the inspector', () => {
  test('finds nothing on any drawing of the shop', () => {
    expect(demos.size).toBeGreaterThan(15)
    expect([...demos].flatMap(([name, { faults }]) => faults.map((fault) => `${name}, ${fault}`))).toEqual([])
  })

  test('finds nothing on 200 generated looms', () => {
    expect(
      [...generated].flatMap(([seed, { faults }]) => faults.map((fault) => `loom ${seed}, ${fault}`)),
    ).toEqual([])
  })
})

describe.skipIf(writing)('against the last commit', () => {
  test('there are figures for most drawings of the shop as they now are', () => {
    const known = [...demos].filter(([name, { model }]) => tracked?.demos[name]?.model === model)
    expect(known.length, `Most descriptions changed since the figures were taken: ${HOW}`).toBeGreaterThan(
      demos.size / 2,
    )
  })

  test('no drawing has many more crossings or bends', () => {
    const worse = [...demos].flatMap(([name, now]) => {
      const was = tracked?.demos[name]
      if (!was || was.model !== now.model) return []
      return [
        ...over(
          `crossings on ${name}`,
          was.crossings,
          now.crossings,
          Math.max(ONE.crossings, ONE.share * was.crossings),
        ),
        ...over(`bends on ${name}`, was.bends, now.bends, Math.max(ONE.bends, ONE.share * was.bends)),
      ]
    })
    expect(worse).toEqual([])
  })

  test('all together have hardly more', () => {
    const same = [...demos].flatMap(([name, now]) => {
      const was = tracked?.demos[name]
      return was && was.model === now.model ? [{ was, now }] : []
    })
    const [demosWas, demosNow] = [totals(same.map(({ was }) => was)), totals(same.map(({ now }) => now))]
    const loomsNow = totals([...generated.values()])
    const loomsWas = tracked?.generated ?? loomsNow
    expect(loomsWas.drawings).toBe(loomsNow.drawings)
    const compare = (where: string, was: Totals, now: Totals) => [
      ...over(`crossings on ${where}`, was.crossings, now.crossings, ALL_SHARE * was.crossings),
      ...over(`bends on ${where}`, was.bends, now.bends, ALL_SHARE * was.bends),
    ]
    expect([
      ...compare('the drawings of the shop', demosWas, demosNow),
      ...compare('the generated looms', loomsWas, loomsNow),
    ]).toEqual([])
  })

  test('a count that is over says by how much', () => {
    expect(over('crossings on x', 10, 13, 3)).toEqual([])
    expect(over('crossings on x', 10, 14, 3).join()).toMatch(/14 where there were 10, 4 more; 3 are allowed/)
  })
})
