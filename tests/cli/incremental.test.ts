import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeEach, describe, expect, test } from 'vitest'
import { ContentStore } from '../../src/cache/content-store.ts'
import { runRules } from '../../src/check/run-rules.ts'
import { standardRules } from '../../src/check/standard-rules.ts'
import type { Io } from '../../src/cli/io.ts'
import { judge, publish } from '../../src/cli/pipeline.ts'
import { makePaths } from '../../src/solve/paths.ts'
import { solve } from '../../src/solve/solve.ts'
import { shopFiles } from '../bench/make-shop.mjs'
import { resolved } from '../demos/demo-shop.ts'

const scratch = mkdtempSync(join(tmpdir(), 'loomwright-incremental-'))
afterAll(() => rmSync(scratch, { recursive: true, force: true }))
const here = { count: 0, dir: '' }
beforeEach(() => {
  here.dir = join(scratch, String(here.count++))
  mkdirSync(here.dir)
})

/** A store that tells what it gave and what it was given. */
class CountingStore extends ContentStore {
  readonly met = { kept: 0, made: 0 }

  override get(kind: string, key: string): string | undefined {
    const found = super.get(kind, key)
    if (found !== undefined) this.met.kept++
    return found
  }

  override put(kind: string, key: string, content: string): void {
    this.met.made++
    super.put(kind, key, content)
  }
}

async function pagesOf(store: ContentStore | undefined) {
  const quiet: Io = {
    out: () => undefined,
    err: () => undefined,
    progress: { say: () => undefined, done: () => undefined },
    cwd: here.dir,
    width: 110,
    colour: false,
    errColour: false,
    debug: false,
  }
  const keeping = store && { store, tool: 'this' }
  const judged = await judge(['.'], quiet, 'own', true, keeping)
  const { files, count } = await publish(judged, quiet, keeping ? { desk: { keeping } } : {})
  return { files, count, findings: judged.result.findings }
}

async function expectSame(what: string): Promise<CountingStore['met'] & { readonly drawn: number }> {
  const store = new CountingStore(join(here.dir, '.cache'))
  const [kept, anew] = [await pagesOf(store), await pagesOf(undefined)]
  expect([...kept.files.keys()], what).toEqual([...anew.files.keys()])
  for (const [name, content] of anew.files)
    expect(kept.files.get(name) === content, `${what}: ${name}`).toBe(true)
  expect(kept.findings, what).toEqual(JSON.parse(JSON.stringify(anew.findings)))
  return { ...store.met, drawn: kept.count.drawn }
}

const write = (name: string, text: string) => writeFileSync(join(here.dir, name), text)

function replace(name: string, what: RegExp, by: string): void {
  const before = readFileSync(join(here.dir, name), 'utf8')
  const after = before.replace(what, by)
  expect(after).not.toBe(before)
  write(name, after)
}

describe('after a change pages are those of a build that knows nothing', () => {
  test('in JSON, edit by edit, and only what depends on it is made', { timeout: 240_000 }, async () => {
    const files = new Map(shopFiles(4))
    for (const [name, text] of files) write(name, text)
    expect((await expectSame('the first build')).drawn).toBe(12)
    expect(await expectSame('nothing')).toMatchObject({ made: 0, drawn: 0 })
    replace('loom-0002.json', /"length": "0.2 m"/, '"length": "0.3 m"')
    const one = await expectSame('a wire is longer')
    // Its rules, its papers, its three parts of the site, and those of its three drawings that show it.
    expect(one.drawn).toBeLessThanOrEqual(3)
    expect(one.kept).toBeGreaterThan(3 * one.made)
    replace('loom-0003.json', /"title": "Vehicle 3"/g, '"title": "Van"')
    await expectSame('a vehicle is called otherwise')
    replace('loom-0001.json', /loom-0001/g, 'loom-zero')
    await expectSame('a loom is called otherwise')
    replace('equipment.json', /Mobile radio/, 'Base radio')
    await expectSame('equipment is called otherwise')
    rmSync(join(here.dir, 'loom-0004.json'))
    await expectSame('a loom goes')
    write('aa.json', files.get('loom-0002.json') ?? '')
    await expectSame('a loom comes, of a name there is')
    const policy = { shop: 'Test & Sons', rules: { 'pinout-view-stated': 'off' } }
    write('policy.json', JSON.stringify({ loomwright: 1, policy }))
    await expectSame('the shop decides')
    replace('loom-0003.json', /\n/g, '\n\n')
    await expectSame('lines move')
  })

  test('in TypeScript, where files import each other', { timeout: 120_000 }, async () => {
    write(
      'ends.ts',
      `import { connector } from 'loomwright'\nexport const A = connector('A', 'rect-2', 'pin')\n`,
    )
    const lead = (name: string) =>
      `import { connector, harness, wire } from 'loomwright'\nimport { A } from './ends.ts'\nconst B = connector('B', 'rect-2', 'socket')\nexport const ${name} = harness('${name}', { title: 'Lead', wires: [wire('W1', A.pin('1'), B.pin('1'), { length: '1 m' })] })\n`
    write('one.ts', lead('one'))
    write('two.ts', lead('two'))
    await expectSame('the first build')
    replace('one.ts', /1 m/, '2 m')
    expect((await expectSame('a wire is longer')).drawn).toBeLessThanOrEqual(1)
    replace('ends.ts', /rect-2/, 'rect-4')
    await expectSame('what both import is another')
  })
})

test('what rules say is plain data, so that it can be kept', () => {
  for (const loom of resolved.looms) {
    const raw = runRules({ loom, solution: solve(loom), paths: makePaths(loom) }, standardRules)
    expect(JSON.parse(JSON.stringify(raw))).toEqual(raw)
  }
})
