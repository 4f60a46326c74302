import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { builtCli } from './built-cli.ts'
import { crossed, tinyShop, wireOf, writeShop } from './tiny-shop.ts'

const cli = builtCli()
const here = { count: 0, dir: '' }
beforeEach(() => {
  here.dir = join(cli.scratch, `case-${here.count++}`)
  mkdirSync(here.dir)
})
const run = (...args: string[]) => cli.run(args, { cwd: here.dir })
const shop = (files: Readonly<Record<string, unknown>>) => writeShop(join(here.dir, 'shop'), files)

/** Every file of a folder with its bytes. */
function contents(folder: string): Record<string, string> {
  const path = join(here.dir, folder)
  const names = readdirSync(path, { recursive: true, encoding: 'utf8' }).sort()
  const files = names.filter((name) => statSync(join(path, name)).isFile())
  return Object.fromEntries(files.map((name) => [name, readFileSync(join(path, name), 'latin1')]))
}

describe('build', () => {
  test('publishes pages, and says what it found and which page to open', async () => {
    shop({ 'lamp.json': tinyShop() })
    const ran = await run('build', 'shop')
    expect(ran).toMatchObject({ code: 0, err: '' })
    expect(ran.out).toMatch(/^Found 0 stops, /)
    expect(ran.out).toMatch(/\nPublished \d+ files into out \(\d+ new or changed\)\.\n/)
    expect(ran.out).toMatch(/\nOpen out\/index\.html\n$/)
    const page = contents('out')['harness/lamp-lead.html'] ?? ''
    expect(page).toContain('<svg')
    expect(page).toContain('A02')
    expect(readdirSync(here.dir).sort()).toEqual(['.loomwright-cache', 'out', 'shop'])
  })

  test('gives the same bytes again, and leaves files that did not change alone', async () => {
    shop({ 'lamp.json': tinyShop() })
    await run('build', 'shop', '--to', 'one')
    await run('build', 'shop', '--to', 'two')
    expect(contents('two')).toEqual(contents('one'))
    expect((await run('build', 'shop', '--to', 'one')).out).toMatch(/\(0 new or changed\)/)
    shop({ 'lamp.json': tinyShop((one) => Object.assign(wireOf(one, 0), { note: 'in the sleeve' })) })
    const changed = /\((\d+) new or changed/.exec((await run('build', 'shop', '--to', 'one')).out)?.[1]
    expect(Number(changed)).toBeGreaterThan(0)
    expect(Number(changed)).toBeLessThan(Object.keys(contents('two')).length / 2)
  })

  test('publishes with stops marked, and ends with status 1 unless they are allowed', async () => {
    shop({ 'lamp.json': tinyShop(crossed) })
    const ran = await run('build', 'shop')
    expect(ran.code).toBe(1)
    expect(ran.out).toMatch(/^Found [1-9]\d* stops?, [\s\S]*\n {4}STOP /)
    expect(contents('out')['installation/van.html']).toMatch(/class="[^"]*\bstop\b/)
    expect((await run('build', 'shop', '--allow-stops')).code).toBe(0)
  })

  test.each([
    ['is not JSON', { 'lamp.json': '{ "loomwright": 1,' }, /^shop\/lamp\.json:1:\d+: /],
    [
      'has an unknown key',
      { 'lamp.json': { ...tinyShop(), harneses: [] } },
      /^shop\/lamp\.json:\d+:3: .*harneses/,
    ],
    ['has gone', {}, /no description was found/],
  ])(
    'when the description %s, the last output stays and nothing is left beside it',
    async (_, files, message) => {
      shop({ 'lamp.json': tinyShop() })
      await run('build', 'shop')
      const before = contents('out')
      rmSync(join(here.dir, 'shop/lamp.json'))
      shop(files)
      const ran = await run('build', 'shop')
      expect(ran).toMatchObject({ code: 2, out: '' })
      expect(ran.err).toMatch(message)
      expect(contents('out')).toEqual(before)
      expect(readdirSync(here.dir).sort()).toEqual(['.loomwright-cache', 'out', 'shop'])
    },
  )

  test('a folder of somebody else is never replaced', async () => {
    shop({ 'lamp.json': tinyShop() })
    const before = contents('shop')
    const ran = await run('build', 'shop', '--to', 'shop')
    expect(ran).toMatchObject({ code: 2, out: '' })
    expect(ran.err).toMatch(/was not made by loomwright\n {2}Fix: /)
    expect(contents('shop')).toEqual(before)
  })

  test('what a shop names cannot lead out of the folder', async () => {
    shop({
      'lamp.json': tinyShop((one) => {
        Object.assign(one.harnesses[0] ?? {}, { title: '../../<script>alert(1)</script>' })
      }),
    })
    await run('build', 'shop')
    for (const [name, text] of Object.entries(contents('out'))) {
      if (name.endsWith('.html')) expect(text).not.toContain('<script>alert')
    }
    expect(readdirSync(cli.scratch).filter((name) => !name.startsWith('case-'))).toEqual([])
  })
})

describe('draw', () => {
  beforeEach(() => shop({ 'lamp.json': tinyShop() }))

  test('writes a drawing for each installation and each harness, under the issue code of its page', async () => {
    const ran = await run('draw', 'shop')
    expect(ran).toMatchObject({ code: 0, err: '' })
    expect(ran.out).toMatch(
      /Drew 2 files into drawings:\n {2}installation-van\.svg\n {2}harness-lamp-lead\.svg\n$/,
    )
    await run('build', 'shop')
    const code = (text: string | undefined) => /[0-9A-Z]{4}-[0-9A-Z]{4}/.exec(text ?? '')?.[0] ?? 'none'
    const [drawn, pages] = [contents('drawings'), contents('out')]
    expect(code(drawn['harness-lamp-lead.svg'])).toBe(code(pages['harness/lamp-lead.html']))
    expect(code(drawn['installation-van.svg'])).toBe(code(pages['installation/van.html']))
  })

  test('one harness by itself, and faces of connectors', async () => {
    await run('draw', 'shop', '--harness', 'lamp-lead', '--to', 'one')
    expect(Object.keys(contents('one'))).toContain('harness-lamp-lead.svg')
    await run('draw', 'shop', '--installation', 'van', '--face', '--to', 'faces')
    const faces = contents('faces')
    expect(Object.keys(faces)).toContain('installation-van-lead-p1.svg')
    expect(faces['installation-van-lead-p1.svg']).toMatch(/MATING FACE[\s\S]*WIRE-ENTRY FACE/)
  })

  test.each([
    [
      ['--harness', 'lamp-led'],
      /no harness is called “lamp-led”: there is lamp-lead\n {2}Instead: --harness lamp-lead/,
    ],
    [
      ['--installation', 'ship'],
      /no installation is called “ship”: there is van\n {2}Instead: name one of them/,
    ],
    [['--installation', 'van', '--harness', 'lamp-lead'], /cannot be given together/],
  ])('%j says what to give instead', async (args, message) => {
    const ran = await run('draw', 'shop', ...args)
    expect(ran).toMatchObject({ code: 2, out: '' })
    expect(ran.err).toMatch(message)
    expect(existsSync(join(here.dir, 'drawings'))).toBe(false)
  })
})

describe('build --watch', () => {
  /** Reads what the process says until a pattern turns up; what came before it is then forgotten. */
  function listener(child: ChildProcess): (pattern: RegExp) => Promise<string> {
    const state: { text: string; ended: boolean; wake: () => void } = {
      text: '',
      ended: false,
      wake: () => undefined,
    }
    for (const stream of [child.stdout, child.stderr])
      stream?.setEncoding('utf8').on('data', (text: string) => {
        state.text += text
        state.wake()
      })
    child.on('exit', () => {
      state.ended = true
      state.wake()
    })
    return async (pattern) => {
      for (;;) {
        const found = pattern.exec(state.text)
        if (found) {
          const before = state.text.slice(0, found.index + found[0].length)
          state.text = state.text.slice(before.length)
          return before
        }
        if (state.ended) throw new Error(`the watching process ended after saying: ${state.text}`)
        await new Promise<void>((wake) => {
          state.wake = wake
        })
      }
    }
  }

  test('builds again on a change, survives broken input with the last output kept, and ends when told', async () => {
    shop({ 'lamp.json': tinyShop() })
    const child = spawn(process.execPath, [cli.main, 'build', 'shop', '--watch'], { cwd: here.dir })
    try {
      const heard = listener(child)
      expect(await heard(/ built; waiting for a change/)).toContain('Open out/index.html')
      const first = contents('out')

      writeFileSync(join(here.dir, 'shop/lamp.json'), '{ "loomwright": 1, oops')
      const broken = await heard(/ not built; out is as it was/)
      expect(broken).toMatch(/shop\/lamp\.json:1:\d+: /)
      expect(contents('out')).toEqual(first)

      // A new file in a new folder is noticed too, and so is the mend.
      shop({
        'lamp.json': tinyShop((one) => delete wireOf(one, 0).length),
        'deep/policy.json': { loomwright: 1, policy: { shop: 'Quay Street Workshop' } },
      })
      for (;;) {
        await heard(/ built; waiting for a change/)
        if ((contents('out')['index.html'] ?? '').includes('Quay Street Workshop')) break
      }
      expect(contents('out')).not.toEqual(first)
      expect(child.exitCode).toBeNull()
    } finally {
      child.kill('SIGINT')
      if (child.exitCode === null && child.signalCode === null) await once(child, 'exit')
    }
    expect(readdirSync(here.dir).sort()).toEqual(['.loomwright-cache', 'out', 'shop'])
  })
})
