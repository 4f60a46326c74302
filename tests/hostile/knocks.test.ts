import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statfsSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import { builtCli } from '../cli/built-cli.ts'
import { tinyShop, writeShop } from '../cli/tiny-shop.ts'

const cli = builtCli()
const here = { dir: '' }
beforeEach(() => {
  here.dir = mkdtempSync(join(cli.scratch, 'knock-'))
})
const build = (...args: string[]) => cli.run(['build', ...args], { cwd: here.dir })
const titled = (title: string) => tinyShop((shop) => Object.assign(shop.harnesses[0] ?? {}, { title }))

/** Every file of a folder with its bytes. */
function contents(folder: string): Map<string, string> {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
  const files = names.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name))
  return new Map(files.sort().map((path) => [path.slice(folder.length), readFileSync(path, 'base64')]))
}

function expectWords(said: string, words: RegExp): void {
  expect(said).toMatch(words)
  expect(said).toMatch(/^ {2}Fix: /m)
  expect(said).not.toMatch(/^\s+at .*:\d+:\d+\)?$/m)
  expect(said).not.toMatch(/fault of loomwright|E[A-Z]{4,}/)
}

/** A good build to lose, and the words its pages hold. */
async function goodBuild(to = 'out'): Promise<Map<string, string>> {
  writeShop(here.dir, { 'shop/lamp.json': titled('The first one') })
  expect((await build('shop', '--to', to)).code).toBe(0)
  return contents(join(here.dir, to))
}

describe('the last good output stays whole', () => {
  test('when the build is killed with no chance to clear up, and the next build clears up', async () => {
    const before = await goodBuild()
    writeShop(here.dir, { 'shop/lamp.json': titled('The second one') })
    const child = spawn(process.execPath, [cli.main, 'build', 'shop'], { cwd: here.dir, stdio: 'ignore' })
    const ended = once(child, 'exit')
    const half = () => readdirSync(here.dir).find((name) => name.startsWith('.out.loomwright-new-'))
    while (child.exitCode === null && half() === undefined) await new Promise((done) => setTimeout(done, 1))
    child.kill('SIGKILL')
    expect(await ended).toEqual([null, 'SIGKILL'])
    expect(half()).toBeDefined()
    expect(contents(join(here.dir, 'out'))).toEqual(before)
    expect((await build('shop')).code).toBe(0)
    expect(half()).toBeUndefined()
    expect(contents(join(here.dir, 'out'))).not.toEqual(before)
  })

  test('when what was to be read has vanished', async () => {
    const before = await goodBuild()
    rmSync(join(here.dir, 'shop'), { recursive: true })
    const ran = await build('shop')
    expect(ran.code).toBe(2)
    expectWords(ran.err, /there is no file or folder “shop”/)
    expect(contents(join(here.dir, 'out'))).toEqual(before)
  })

  test('when a file may not be read any more, or is a link that leads nowhere', async () => {
    const before = await goodBuild()
    rmSync(join(here.dir, 'shop/lamp.json'))
    symlinkSync('gone.json', join(here.dir, 'shop/lamp.json'))
    const ran = await build('shop')
    expect(ran.code).toBe(2)
    expectWords(ran.err, /shop\/lamp\.json:1:1: this link leads nowhere/)
    expect(contents(join(here.dir, 'out'))).toEqual(before)
  })

  const asRoot = process.getuid?.() === 0 && process.platform === 'linux'
  test.skipIf(asRoot)('in a folder that may not be written', async () => {
    const before = await goodBuild()
    writeShop(here.dir, { 'shop/lamp.json': titled('The second one') })
    chmodSync(here.dir, 0o500)
    const ran = await build('shop')
    chmodSync(here.dir, 0o700)
    expect(ran.code).toBe(2)
    expectWords(ran.err, /you may not write there/)
    expect(contents(join(here.dir, 'out'))).toEqual(before)
  })

  const onDisk = async (use: (disk: string) => Promise<void>): Promise<boolean> => {
    const disk = join(here.dir, 'disk')
    mkdirSync(disk)
    if (!asRoot || spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=24m', 'none', disk]).status !== 0)
      return false
    try {
      await use(disk)
    } finally {
      spawnSync('umount', [disk])
    }
    return true
  }

  test('when the disk fills up', async (context) => {
    const ran = await onDisk(async (disk) => {
      const before = await goodBuild('disk/out')
      const { bavail, bsize } = statfsSync(disk)
      writeFileSync(join(disk, 'ballast'), Buffer.alloc(Math.max(0, bavail * bsize - 60_000)))
      writeShop(here.dir, { 'shop/lamp.json': titled('The second one') })
      const second = await build('shop', '--to', 'disk/out')
      expect(second.code).toBe(2)
      expectWords(second.err, /cannot write .*: the disk is full/)
      expect(contents(join(disk, 'out'))).toEqual(before)
      expect(readdirSync(disk).sort()).toEqual(['.loomwright-cache', 'ballast', 'out'])
    })
    if (!ran) context.skip('needs the right to mount a small disk')
  })

  test('when the disk has become read-only', async (context) => {
    const ran = await onDisk(async (disk) => {
      const before = await goodBuild('disk/out')
      spawnSync('mount', ['-o', 'remount,ro', disk])
      writeShop(here.dir, { 'shop/lamp.json': titled('The second one') })
      const second = await build('shop', '--to', 'disk/out')
      expect(second.code).toBe(2)
      expectWords(second.err, /cannot write .*: the disk is read-only/)
      expect(contents(join(disk, 'out'))).toEqual(before)
    })
    if (!ran) context.skip('needs the right to mount a small disk')
  })

  test('when two builds of different shops meet in one folder: it is wholly one of the two', async () => {
    writeShop(here.dir, { 'a/lamp.json': titled('Made from a'), 'b/lamp.json': titled('Made from b') })
    for (const shop of ['a', 'b']) expect((await build(shop, '--to', `alone-${shop}`)).code).toBe(0)
    const alone = ['a', 'b'].map((shop) => contents(join(here.dir, `alone-${shop}`)))
    for (let turn = 0; turn < 2; turn++) {
      const both = await Promise.all(['a', 'b'].map((shop) => build(shop, '--to', 'both')))
      for (const { code, err } of both) if (code !== 0) expectWords(err, /cannot write|is being/)
      expect(both.some(({ code }) => code === 0)).toBe(true)
      const now = contents(join(here.dir, 'both'))
      expect(alone.some((one) => JSON.stringify([...one]) === JSON.stringify([...now]))).toBe(true)
    }
    expect(readdirSync(here.dir).filter((name) => name.startsWith('.both'))).toEqual([])
  })
})

describe('file names of a stranger', () => {
  const NAMES: readonly string[] = [
    '-rf.json',
    '--to=x.json',
    'a\nb.json',
    '\u001b[2Jclear.json',
    '\u001b]0;owned\u0007.json',
    '\u202egnp.json',
    'quote".json',
    "quote'.json",
    '<script>window.__x=1<.json',
    '..json',
    '…..json',
    '{{x}}.json',
    '$(touch owned).json',
    '`touch owned`.json',
    '%2e%2e%2fx.json',
    ' space .json',
    '__proto__.json',
    'constructor.json',
    `${'n'.repeat(240)}.json`,
    '=1+1.json',
    '|x|.json',
  ]
  test.each(NAMES)('%j is read, and told without harm', async (name) => {
    mkdirSync(join(here.dir, 'shop'))
    // One text is no harness: the report has to say the file's name.
    writeFileSync(join(here.dir, 'shop', name), '{ "loomwright": 1, "harnesses": ["x"] }')
    writeFileSync(join(here.dir, 'shop/lamp.json'), JSON.stringify(tinyShop()))
    const ran = await cli.run(['check', 'shop'], { cwd: here.dir })
    const said = ran.out + ran.err
    expect(ran.code).toBe(name === '..json' ? 0 : 1)
    expect(said).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/)
    expect(said).not.toMatch(/fault of loomwright|^\s+at .*:\d+:\d+\)?$/m)
    if (name !== '..json')
      expect(said.split('\n').filter((line) => line.includes('description-shape')).length).toBe(1)
    const sarif = await cli.run(['check', 'shop', '--format', 'sarif'], { cwd: here.dir })
    JSON.parse(sarif.out)
    expect(readdirSync(here.dir)).toEqual(['shop'])
  })

  test('links out of the tree, and round in a circle, are told and not followed', async () => {
    writeShop(here.dir, {
      'secret.json': '{ "loomwright": 1, "policy": { "shop": "S3CRET" } }',
      'shop/lamp.json': tinyShop(),
    })
    symlinkSync(join(here.dir, 'secret.json'), join(here.dir, 'shop/file.json'))
    symlinkSync(here.dir, join(here.dir, 'shop/folder'))
    symlinkSync('.', join(here.dir, 'shop/loop'))
    symlinkSync('self', join(here.dir, 'shop/self'))
    const ran = await cli.run(['check', 'shop'], { cwd: here.dir })
    expect(ran.code).toBe(2)
    expect(ran.err.match(/leads out of the folder/g)).toHaveLength(2)
    expect(ran.err.match(/leads nowhere/g)).toHaveLength(1)
    expect(ran.out + ran.err).not.toContain('S3CRET')
  })
})

describe('names of the runtime as names of things', () => {
  const words = ['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'valueOf', 'then']
  test.each(words)('%s as unit, harness, connector, wire, pin and state', async (word) => {
    const text = JSON.stringify(tinyShop())
      .replaceAll('"battery"', `"${word}"`)
      .replaceAll('lamp-lead', word)
      .replaceAll('P1', word)
      .replaceAll('"J1"', `"${word}"`)
      .replaceAll('lamp.J1', `lamp.${word}`)
      .replaceAll('A01', word)
      .replace('"off"', `"${word}"`)
    writeShop(here.dir, { 'shop/lamp.json': text.replaceAll(`"role":"${word}"`, '"role":"battery"') })
    const ran = await build('shop', '--to', 'pages', '--allow-stops')
    expect([0, 2]).toContain(ran.code)
    expect(ran.out + ran.err).not.toMatch(/fault of loomwright|^\s+at .*:\d+:\d+\)?$|undefined|\[object/m)
    if (ran.code === 0) expect(existsSync(join(here.dir, 'pages/index.html'))).toBe(true)
    else expect(ran.err).toMatch(/^ {2}Fix: /m)
  })
})

describe('the command', () => {
  const code = `import { writeFileSync } from 'node:fs'\nwriteFileSync('ran', '')\nexport const a = 1\n`
  test.each([['check'], ['build'], ['draw'], ['export']])(
    '%s --untrusted does not run TypeScript',
    async (command) => {
      writeShop(here.dir, { 'shop/a.ts': code, 'shop/lamp.json': tinyShop() })
      const ran = await cli.run([command, 'shop', '--untrusted'], { cwd: here.dir })
      expect(ran).toMatchObject({ code: 2, out: '' })
      expectWords(ran.err, /^shop\/a\.ts:1:1: this is TypeScript of somebody not trusted, and was not run/)
      expect(readdirSync(here.dir)).toEqual(['shop'])
      const apart = await cli.run([command, 'shop', '--apart'], { cwd: here.dir })
      expect(apart.code).toBe(2)
      expectWords(apart.err, /^shop\/a\.ts:1:31: “node:fs” is imported, but what runs apart/)
      expect(readdirSync(here.dir)).toEqual(['shop'])
    },
  )
})
