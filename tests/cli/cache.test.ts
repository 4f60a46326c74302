import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { shopFiles } from '../bench/make-shop.mjs'
import { importsOf } from '../setup/scan-source.ts'
import { builtCli, root } from './built-cli.ts'
import { tinyShop, wireOf, writeShop } from './tiny-shop.ts'

const cli = builtCli()
const here = { count: 0, dir: '' }
beforeEach(() => {
  here.dir = join(cli.scratch, `case-${here.count++}`)
  mkdirSync(join(here.dir, 'shop'), { recursive: true })
})
const run = (...args: string[]) => cli.run(args, { cwd: here.dir })
const shop = (files: Readonly<Record<string, unknown>>) => writeShop(join(here.dir, 'shop'), files)

function namesIn(folder: string): string[] {
  const names = readdirSync(join(here.dir, folder), { recursive: true, encoding: 'utf8' }).sort()
  return names.filter((name) => statSync(join(here.dir, folder, name)).isFile())
}

/** Every file of a folder with its bytes. */
const contents = (folder: string): Record<string, string> =>
  Object.fromEntries(
    namesIn(folder).map((name) => [name, readFileSync(join(here.dir, folder, name), 'latin1')]),
  )

async function pagesAnew(): Promise<Record<string, string>> {
  rmSync(join(here.dir, 'anew'), { recursive: true, force: true })
  const ran = await run('build', 'shop', '--to', 'anew', '--no-cache', '--allow-stops')
  expect(ran.code).toBe(0)
  return contents('anew')
}

/** A stamp is not kept while files are as young as the build. */
const settle = () => new Promise((done) => setTimeout(done, 60))
const stamps = (): number => namesIn('.loomwright-cache').filter((name) => name.includes('stamp')).length

describe('where nothing has changed', () => {
  test('the next build says the same and touches nothing, until something does', async () => {
    shop({ 'lamp.json': tinyShop() })
    await settle()
    const first = await run('build', 'shop')
    const index = join(here.dir, 'out/index.html')
    const written = statSync(index).mtimeMs
    const second = await run('build', 'shop')
    expect(second.out).toBe(first.out.replace(/\(\d+ new or changed\)/, '(0 new or changed)'))
    expect(second.code).toBe(0)
    expect(statSync(index).mtimeMs).toBe(written)
    shop({ 'lamp.json': tinyShop((one) => Object.assign(wireOf(one, 0), { note: 'in the sleeve' })) })
    expect((await run('build', 'shop')).out).not.toContain('(0 new')
    expect(contents('out')).toEqual({ '.loomwright-output': expect.anything(), ...(await pagesAnew()) })
  })

  test('nothing of the phases is loaded', () => {
    const met = new Set<string>()
    const outside = new Set<string>()
    const follow = (path: string): void => {
      if (met.has(path)) return
      met.add(path)
      const text = readFileSync(join(root, path), 'utf8')
      const lines = text.split('\n')
      for (const { from, typeOnly, line } of importsOf(text)) {
        if (typeOnly || lines[line - 1]?.includes('import(')) continue
        if (from.startsWith('.')) follow(join(path, '..', from))
        else outside.add(from)
      }
    }
    follow('src/cli/build-command.ts')
    expect([...outside].filter((name) => !name.startsWith('node:'))).toEqual([])
    expect([...met].filter((path) => !/^src\/(cli|cache|base)\//.test(path))).toEqual([])
    expect(met.size).toBeLessThan(20)
  })

  test.each<readonly [string, () => void]>([
    ['an output file was changed', () => writeFileSync(join(here.dir, 'out/index.html'), 'mine')],
    [
      'all of the cache was damaged',
      () => {
        for (const name of namesIn('.loomwright-cache'))
          writeFileSync(join(here.dir, '.loomwright-cache', name), 'damaged')
      },
    ],
  ])('pages are right again after %s', async (_, spoil) => {
    shop({ 'lamp.json': tinyShop() })
    await settle()
    await run('build', 'shop')
    const before = contents('out')
    spoil()
    expect((await run('build', 'shop')).code).toBe(0)
    expect(contents('out')).toEqual(before)
  })

  test('a description that asks for the clock is run each time', async () => {
    const lead = (ending: string) =>
      `import { connector, harness, wire } from 'loomwright'
const A = connector('A', 'rect-2', 'pin')
const B = connector('B', 'rect-2', 'socket')
export const lead = harness('lead', { title: 'Lead${ending}, wires: [wire('W1', A.pin('1'), B.pin('1'))] })\n`
    writeFileSync(join(here.dir, 'shop/lead.ts'), lead("'"))
    await settle()
    await run('build', 'shop')
    expect(stamps()).toBe(1)
    rmSync(join(here.dir, '.loomwright-cache'), { recursive: true })
    writeFileSync(join(here.dir, 'shop/lead.ts'), lead("' + new Date().getFullYear()"))
    await settle()
    await run('build', 'shop')
    expect(stamps()).toBe(0)
  })
})

describe('shards', () => {
  test('merged are the same pages as one build', { timeout: 120_000 }, async () => {
    for (const [name, text] of shopFiles(1)) writeFileSync(join(here.dir, 'shop', name), text)
    for (const number of [1, 2, 3]) {
      const ran = await run(
        'build',
        'shop',
        '--shard',
        `${number}/3`,
        '--cache',
        `shards/${number}`,
        '--allow-stops',
      )
      expect(ran.out).toMatch(new RegExp(`Shard ${number} of 3: 1 drawings made, 0 there already, 2 left`))
    }
    expect(readdirSync(here.dir).sort()).toEqual(['shards', 'shop'])
    const merged = await run('build', 'shop', '--merge', 'shards', '--allow-stops')
    expect(merged.code).toBe(0)
    expect(contents('out')).toEqual(await pagesAnew())
    rmSync(join(here.dir, 'shards/2'), { recursive: true })
    const without = await run('build', 'shop', '--merge', 'shards', '--to', 'other')
    expect(without).toMatchObject({ code: 2, err: expect.stringContaining('of 3 shards 2 is missing') })
  })

  test.each([
    [['--jobs', '0'], '--jobs takes a number of threads'],
    [['--shard', '0/3', '--cache', 'c'], '--shard takes its number and how many'],
    [['--shard', '4/3', '--cache', 'c'], '--shard takes its number and how many'],
    [['--shard', 'two', '--cache', 'c'], '--shard takes its number and how many'],
    [['--shard', '1/3'], '--shard needs a folder'],
    [['--merge', 'nowhere'], 'there are no shards in'],
    [['--merge', 'x', '--no-cache'], 'shards are handed over in a cache folder'],
  ])('%j is refused with what to type', async (options, words) => {
    shop({ 'lamp.json': tinyShop() })
    const ran = await run('build', 'shop', ...options)
    expect(ran).toMatchObject({ code: 2, out: '' })
    expect(ran.err).toContain(words)
  })
})

test('two builds at once into one cache both end well', async () => {
  shop({ 'lamp.json': tinyShop() })
  const both = await Promise.all(
    ['one', 'two'].map((to) => run('build', 'shop', '--to', to, '--cache', 'kept')),
  )
  expect(both.map(({ code }) => code)).toEqual([0, 0])
  expect(contents('one')).toEqual(contents('two'))
})
