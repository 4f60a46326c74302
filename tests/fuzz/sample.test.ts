import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { Chance } from './chance.ts'
import { demosIn, makeCase, readCorpus } from './corpus.ts'
import { runCase } from './run-case.ts'

/*
 * A sample of the longer run (npm run fuzz). A case that once failed is kept by what it was made of, in the tests of the stage
 * that failed, since a seed means another case as soon as the demo shop changes.
 */

const corpus = await readCorpus(demosIn(fileURLToPath(new URL('../..', import.meta.url))))

async function outcomes(from: number, count: number, draw: boolean): Promise<Record<string, number>> {
  const reached: Record<string, number> = {}
  for (let seed = from; seed < from + count; seed++) {
    const made = makeCase(corpus, new Chance(seed), draw)
    try {
      const how = await runCase(made, draw)
      reached[how] = (reached[how] ?? 0) + 1
    } catch (error) {
      throw new Error(`case ${seed}: ${error instanceof Error ? error.stack : String(error)}`)
    }
  }
  return reached
}

describe('mutated, damaged and mistaken descriptions end as findings or a clear error', () => {
  test('from text to report', async () => {
    const reached = await outcomes(1, 2000, false)
    // Cases that never got past the schema would try nothing beyond it.
    for (const how of ['refused', 'misshapen', 'judged']) expect(reached[how]).toBeGreaterThan(100)
  }, 600_000)

  test('from text to drawings, sheets, guides and pages', async () => {
    const reached = await outcomes(1, 30, true)
    expect(reached.published).toBeGreaterThan(8)
  }, 600_000)
})
