import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { builtCli } from './built-cli.ts'
import { crossed, tinyShop, wireOf, writeShop } from './tiny-shop.ts'

const cli = builtCli()
const here = { count: 0, dir: '' }
beforeEach(() => {
  here.dir = join(cli.scratch, `case-${here.count++}`)
})
const shop = (files: Readonly<Record<string, unknown>>): string => writeShop(here.dir, files)
const run = (...args: string[]) => cli.run(args, { cwd: here.dir })

describe('check', () => {
  test('a clean shop ends with status 0 and says so', async () => {
    shop({ 'lamp.json': tinyShop() })
    const ran = await run('check', '.')
    expect(ran.out).toMatch(/0 stops, .*Nothing stops the work\.\n$/)
    expect(ran).toMatchObject({ code: 0, err: '' })
    expect(readdirSync(here.dir)).toEqual(['lamp.json'])
  })

  test('without a path it reads the current folder', async () => {
    shop({ 'lamp.json': tinyShop() })
    expect((await run('check')).code).toBe(0)
  })

  test('a stop ends with status 1, at its place, with its source line, and without colour', async () => {
    shop({ 'lamp.json': tinyShop(crossed) })
    const ran = await run('check', '.')
    expect(ran.code).toBe(1)
    expect(ran.out).toMatch(/^STOP [a-z-]+ · .+\n( .*\n)*? {2}lamp\.json:\d+:\d+ · .+\n {4}\d+ │ .+\n +\^\n/m)
    expect(ran.out).toMatch(/Do not build\.\n$/)
    expect(ran.out).not.toContain('\u001b')
  })

  test('warnings alone do not fail, and --level leaves them out but not what was not checked', async () => {
    shop({ 'lamp.json': tinyShop((one) => delete wireOf(one, 1).size) })
    const all = await run('check', '.')
    const stops = await run('check', '.', '--level', 'stop')
    expect([all.code, stops.code]).toEqual([0, 0])
    expect(stops.out).not.toMatch(/^(WARNING|NOTE)/m)
    const open = /Not checked[\s\S]*?\n\n/
    expect(open.exec(all.out)?.[0]).toBeTruthy()
    expect(open.exec(stops.out)?.[0]).toBe(open.exec(all.out)?.[0])
  })

  test('JSON and SARIF hold the same findings as the text, and go to a file when asked', async () => {
    shop({ 'lamp.json': tinyShop(crossed) })
    const json = JSON.parse((await run('check', '.', '--format', 'json')).out)
    const ran = await run('check', '.', '--format=sarif', '--output', 'r/report.sarif')
    expect(ran).toMatchObject({ code: 1, out: '', err: 'wrote r/report.sarif\n' })
    const sarif = JSON.parse(readFileSync(join(here.dir, 'r/report.sarif'), 'utf8'))
    const results = sarif.runs[0].results as { ruleId: string; kind?: string }[]
    expect(json.findings.length).toBeGreaterThan(0)
    expect(results.filter(({ kind }) => kind === undefined).map(({ ruleId }) => ruleId)).toEqual(
      json.findings.map(({ rule }: { rule: string }) => rule),
    )
    expect(json.findings[0].at).toMatchObject({ file: 'lamp.json', line: expect.any(Number) })
  })

  test('a report is not written over a description', async () => {
    const text = JSON.stringify(tinyShop())
    shop({ 'lamp.json': text })
    const ran = await run('check', '.', '--output', './lamp.json')
    expect(ran.code).toBe(2)
    expect(ran.err).toMatch(/is one of the files that were read\n {2}Instead: /)
    expect(readFileSync(join(here.dir, 'lamp.json'), 'utf8')).toBe(text)
  })

  test('a stale citation is a finding at its line in the procedure', async () => {
    const one = tinyShop((made) => Object.assign(made.harnesses[0] ?? {}, { procedures: ['fit.md'] }))
    shop({ 'lamp.json': one, 'fit.md': '# Fit\n\nPush the plug home.\nThen look at [the pin](pin:P1.9).\n' })
    const ran = await run('check', '.')
    expect(ran.out).toMatch(/WARNING stale-citation · [\s\S]*? {2}fit\.md:4:14 · /)
  })
})

describe('bad input ends with one clear error at a place, no stack trace, and nothing written', () => {
  const bad: readonly [kind: string, files: Record<string, unknown>, code: number, message: RegExp][] = [
    ['not JSON', { 'a.json': '{ "loomwright": 1,\n  parts: [] }' }, 2, /^a\.json:2:3: /m],
    ['cut off', { 'a.json': '{ "loomwright": 1, "parts": [' }, 2, /^a\.json:1:\d+: /m],
    ['empty', { 'a.json': '' }, 2, /^a\.json:1:1: the file is empty/m],
    ['binary', { 'a.json': new Uint8Array([0x7f, 0x45, 0x4c, 0x46, 0, 0, 1]) }, 2, /^a\.json:1:1: .*binary/m],
    ['a list', { 'a.json': [] }, 1, /a\.json:1:1/],
    ['a wrong type', { 'a.json': { loomwright: 1, harnesses: 'none' } }, 1, /a\.json:3:3/],
    [
      'an unknown key',
      { 'a.json': tinyShop((s) => Object.assign(s, { harneses: [] })) },
      1,
      /a\.json:\d+:3[\s\S]*harnesses/,
    ],
    [
      'a bare number',
      { 'a.json': tinyShop((s) => Object.assign(wireOf(s, 0), { length: 3 })) },
      1,
      /no unit[\s\S]*a\.json:\d+:\d+/,
    ],
    [
      'an absurd number',
      { 'a.json': tinyShop((s) => Object.assign(wireOf(s, 0), { length: '1e300 m' })) },
      1,
      /a\.json:\d+:\d+/,
    ],
    [
      'a circular reference',
      {
        'a.ts':
          "import { harness } from 'loomwright'\nconst notes: any = []\nnotes.push(notes)\nexport const h = harness('h', { title: 'h', connectors: [], notes })\n",
      },
      2,
      /^a\.ts:\d+:\d+: .*contains itself/m,
    ],
    [
      'TypeScript that does not parse',
      { 'a.ts': "import { wire } from 'loomwright'\nexport const a = (\n" },
      2,
      /^a\.ts:\d+:\d+: /m,
    ],
    [
      'TypeScript that throws',
      { 'a.ts': "import { wire } from 'loomwright'\nexport const a = wire\nthrow new Error('no luck')\n" },
      2,
      /^a\.ts:3:\d+: .*no luck/m,
    ],
    [
      'nested without end',
      { 'a.json': `{"loomwright":1,"parts":${'['.repeat(5000)}${']'.repeat(5000)}}` },
      2,
      /^a\.json:1:\d+: .*deep/m,
    ],
    ['an empty folder', { 'notes.txt': 'nothing here' }, 2, /no description was found/],
    ['control characters', { 'a.json': `{ "loomwright": "\\u001b[2Jx\\u202e" }` }, 1, /a\.json:1:\d+/],
  ]
  test.each(bad)('%s', async (_, files, code, message) => {
    shop(files)
    const before = readdirSync(here.dir)
    const ran = await run('check', '.')
    const said = ran.out + ran.err
    expect(said).toMatch(message)
    expect(ran.code).toBe(code)
    expect(said).not.toMatch(/^\s+at .*:\d+:\d+\)?$/m)
    expect(said).not.toMatch(/fault of loomwright/)
    expect(said).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/)
    if (code === 1) expect(said.match(/^STOP /gm)).toHaveLength(1)
    expect(readdirSync(here.dir)).toEqual(before)
  })

  test('a missing file, with the name that was meant', async () => {
    shop({ 'lamp.json': tinyShop() })
    const ran = await run('check', 'lmap.json')
    expect(ran).toMatchObject({ code: 2, out: '' })
    expect(ran.err).toMatch(/no file or folder “lmap\.json”[\s\S]*Did you mean “lamp\.json”/)
  })

  test('fifty megabytes', async () => {
    shop({ 'a.json': `{"loomwright":1,"parts":[${'"x",'.repeat(13_000_000)}"x"]}` })
    const ran = await run('check', '.')
    expect(ran).toMatchObject({ code: 2, out: '' })
    expect(ran.err).toMatch(/^a\.json:1:1: the file has 50 MB, more than the 20 MB/)
  })
})
