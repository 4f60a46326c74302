import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { beforeEach, describe, expect, test } from 'vitest'
import { commands } from '../../src/cli/commands.ts'
import { ruleList } from '../../src/report/rule-list.ts'
import { builtCli, root } from './built-cli.ts'
import { tinyShop, writeShop } from './tiny-shop.ts'

const cli = builtCli()
const here = { count: 0, dir: '' }
beforeEach(() => {
  here.dir = join(cli.scratch, `case-${here.count++}`)
  mkdirSync(here.dir)
})
const run = (...args: string[]) => cli.run(args, { cwd: here.dir })

describe('help and usage', () => {
  test.each([['--help'], ['-h'], ['help']])('%s prints the first page', async (word) => {
    const ran = await run(word)
    expect(ran).toMatchObject({ code: 0, err: '' })
    for (const { name } of commands) expect(ran.out).toContain(`\n  ${name} `)
  })

  test('--version prints the version of the package', async () => {
    const manifest: unknown = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
    expect(await run('--version')).toEqual({ code: 0, err: '', out: `${Object(manifest).version}\n` })
  })

  test.each(commands.map(({ name }) => [name]))('%s --help and help %s are the same page', async (name) => {
    const [one, two] = await Promise.all([run(name, '--help'), run('help', name)])
    expect(one).toMatchObject({ code: 0, err: '' })
    expect(one.out).toContain(`Usage: loomwright ${name}`)
    expect(two).toEqual(one)
  })

  test.each([
    [[], 2, /^loomwright [\s\S]*Commands/, 'out'],
    [['chekc'], 2, /no command “chekc”\n {2}Instead: loomwright check\n$/, 'err'],
    [['validate'], 2, /no command “validate”\n {2}Instead: loomwright check\n$/, 'err'],
    [['help', 'bild'], 2, /Instead: loomwright build\n$/, 'err'],
    [['--format', 'json'], 2, /no option “--format” before a command/, 'err'],
    [['check', '--fromat', 'json'], 2, /no option “--fromat”\n {2}Instead: --format\n$/, 'err'],
    [['explain', 'name-not-fund'], 2, /Instead: loomwright explain name-not-found\n$/, 'err'],
    [['explain', '\u001b[31m'], 2, /^loomwright: there is no rule “/, 'err'],
  ] as const)('%j ends with status %i', async (args, code, message, stream) => {
    const ran = await run(...args)
    expect(ran.code).toBe(code)
    expect(ran[stream]).toMatch(message)
    expect(ran.out + ran.err).not.toContain('\u001b')
  })

  test('a reader that stops early is no fault', async () => {
    const child = spawn('sh', ['-c', `"${process.execPath}" "${cli.main}" schema | head -c 100; exit 0`])
    const errors: string[] = []
    child.stderr.on('data', (text) => errors.push(String(text)))
    await once(child, 'close')
    expect(errors).toEqual([])
  })
})

describe('explain', () => {
  test('lists every rule once', async () => {
    const ran = await run('explain')
    expect(ran.code).toBe(0)
    for (const { id } of ruleList)
      expect(ran.out.match(new RegExp(`^  [A-Z]+ +${id} `, 'gm'))).toHaveLength(1)
    expect(new Set(ruleList.map(({ id }) => id)).size).toBe(ruleList.length)
  })

  test('tells why, cure, needs and sources of each', async () => {
    const ran = await run('explain', 'name-not-found')
    expect(ran.code).toBe(0)
    expect(ran.out).toMatch(
      /^name-not-found · STOP [\s\S]*\nWhy {6}[\s\S]*\nFix {6}[\s\S]*\nNeeds {4}[\s\S]*\nSources /,
    )
  })
})

describe('init', () => {
  test('writes a starter that passes the check without a finding', async () => {
    const made = await run('init', 'shop')
    expect(made).toMatchObject({ code: 0, err: '' })
    expect(readdirSync(join(here.dir, 'shop'))).toEqual(['power-lead.ts'])
    const checked = await run('check', 'shop')
    expect(checked.out).toMatch(/0 stops, 0 warnings, 0 notes.*Nothing stops the work\.\n$/)
    expect(checked.code).toBe(0)
  })

  test('never writes over a file, and says so', async () => {
    mkdirSync(join(here.dir, 'shop'))
    writeFileSync(join(here.dir, 'shop/power-lead.ts'), 'mine')
    const ran = await run('init', 'shop')
    expect(ran.code).toBe(2)
    expect(ran.err).toMatch(/power-lead\.ts is there already, and nothing is written over/)
    expect(readFileSync(join(here.dir, 'shop/power-lead.ts'), 'utf8')).toBe('mine')
  })

  test('into a file is refused', async () => {
    writeFileSync(join(here.dir, 'shop'), 'mine')
    const ran = await run('init', 'shop')
    expect(ran.code).toBe(2)
    expect(ran.err).toMatch(/Instead|Fix/)
    expect(ran.err).not.toMatch(/fault of loomwright/)
  })
})

describe('schema', () => {
  test('is a JSON Schema that takes the tiny shop and refuses a misspelt key', async () => {
    const ran = await run('schema')
    expect(ran.code).toBe(0)
    const valid = new Ajv2020({ strict: false, validateFormats: false }).compile(JSON.parse(ran.out))
    expect(valid(tinyShop())).toBe(true)
    expect(valid({ ...tinyShop(), harneses: [] })).toBe(false)
  })

  test('goes to a file when asked', async () => {
    const ran = await run('schema', '--to', 'deep/down.schema.json')
    expect(ran).toMatchObject({ code: 0, out: '', err: 'wrote deep/down.schema.json\n' })
    JSON.parse(readFileSync(join(here.dir, 'deep/down.schema.json'), 'utf8'))
  })
})

describe('export', () => {
  /** A report with places taken out: another file holds the same shop at other lines. */
  async function report(path: string): Promise<unknown> {
    const ran = await run('check', path, '--format', 'json')
    expect(ran.err).toBe('')
    return JSON.parse(ran.out, (key, value) => (key === 'at' ? undefined : value))
  }

  const demos = join(root, 'harnesses')
  test.runIf(existsSync(demos))('the demo shop reads back as JSON with the very same findings', async () => {
    cpSync(demos, join(here.dir, 'demos'), { recursive: true })
    expect((await run('export', 'demos', '--json', '--to', 'json/shop.json')).code).toBe(0)
    // Procedures and records are no descriptions: they stay the files they are.
    for (const file of readdirSync(join(here.dir, 'demos'), { recursive: true, encoding: 'utf8' }))
      if (/\.(md|readings\.json|as-built\.json)$/.test(file))
        cpSync(join(here.dir, 'demos', file), join(here.dir, 'json', file), { recursive: true })
    expect(await report('json')).toEqual(await report('demos'))
  })

  test('what was exported exports again to the same bytes', async () => {
    await run('init', 'shop')
    const once = await run('export', 'shop')
    writeShop(join(here.dir, 'again'), { 'shop.json': once.out })
    const twice = await run('export', 'again')
    expect(once.code).toBe(0)
    expect(twice.out).toBe(once.out)
  })

  test('a description without its shape is not exported', async () => {
    writeShop(here.dir, { 'a.json': { ...tinyShop(), harneses: [] } })
    const ran = await run('export', '.', '--to', 'b.json')
    expect(ran).toMatchObject({ code: 2, out: '' })
    expect(ran.err).toMatch(/^a\.json:\d+:\d+: [\s\S]*harneses/)
    expect(readdirSync(here.dir)).toEqual(['a.json'])
  })

  test('an export is not written over what it was made from', async () => {
    writeShop(here.dir, { 'a.json': tinyShop() })
    const before = readFileSync(join(here.dir, 'a.json'), 'utf8')
    expect((await run('export', '.', '--to', 'a.json')).code).toBe(2)
    expect(readFileSync(join(here.dir, 'a.json'), 'utf8')).toBe(before)
  })
})
