import { type ChildProcess, spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { OUTPUT_MARKER as MARKER } from '../../src/base/output-marker.ts'
import { writeFileWhole } from '../../src/write/write-file.ts'
import { isOutputFolder, type OutputFiles, writeOutput } from '../../src/write/write-output.ts'

const base = mkdtempSync(join(tmpdir(), 'loomwright-write-'))
const scratch = { dir: base, out: '', count: 0 }
afterAll(() => rmSync(base, { recursive: true, force: true }))
beforeEach(() => {
  scratch.dir = join(base, `${scratch.count++}`)
  scratch.out = join(scratch.dir, 'out')
  mkdirSync(scratch.dir)
})

const files = (entries: Record<string, string | Uint8Array>): OutputFiles => new Map(Object.entries(entries))
const read = (name: string): string => readFileSync(join(scratch.out, name), 'utf8')
const beside = (): string[] => readdirSync(scratch.dir)
const GOOD = { 'index.html': 'one', 'harness/a.html': 'a', 'old.html': 'old' }

describe('an output folder', () => {
  test('holds exactly the files given, with their bytes', async () => {
    const written = await writeOutput(scratch.out, files({ ...GOOD, 'b.bin': new Uint8Array([0, 255, 13]) }))
    expect(written).toMatchObject({ written: 4, unchanged: 0, removed: 0 })
    expect([...readFileSync(join(scratch.out, 'b.bin'))]).toEqual([0, 255, 13])
    expect(read('harness/a.html')).toBe('a')
    expect(isOutputFolder(scratch.out)).toBe(true)
    expect(beside()).toEqual(['out'])
  })

  test('is replaced as a whole; a file that did not change is the same file', async () => {
    await writeOutput(scratch.out, files(GOOD))
    const before = statSync(join(scratch.out, 'harness/a.html'))
    const written = await writeOutput(scratch.out, files({ 'index.html': 'two', 'harness/a.html': 'a' }))
    expect(written).toMatchObject({ written: 1, unchanged: 1, removed: 1 })
    expect(read('index.html')).toBe('two')
    expect(existsSync(join(scratch.out, 'old.html'))).toBe(false)
    expect(statSync(join(scratch.out, 'harness/a.html')).mtimeMs).toBe(before.mtimeMs)
    expect(beside()).toEqual(['out'])
  })

  test('with nothing new is not touched at all', async () => {
    await writeOutput(scratch.out, files(GOOD))
    const before = statSync(scratch.out)
    expect(await writeOutput(scratch.out, files(GOOD))).toMatchObject({
      written: 0,
      unchanged: 3,
      removed: 0,
    })
    expect(statSync(scratch.out).ino).toBe(before.ino)
    expect(beside()).toEqual(['out'])
  })

  test('that is empty may be used; one with files of somebody else may not', async () => {
    mkdirSync(scratch.out)
    await writeOutput(scratch.out, files(GOOD))
    rmSync(join(scratch.out, MARKER))
    await expect(writeOutput(scratch.out, files({ 'x.html': 'x' }))).rejects.toThrow(
      /was not made by loomwright/,
    )
    expect(read('index.html')).toBe('one')
    expect(beside()).toEqual(['out'])
  })

  test('reached through a link is replaced where it is, and the link stays', async () => {
    const real = join(scratch.dir, 'real')
    mkdirSync(real)
    symlinkSync(real, scratch.out)
    await writeOutput(scratch.out, files(GOOD))
    expect(readFileSync(join(real, 'index.html'), 'utf8')).toBe('one')
    expect(beside().sort()).toEqual(['out', 'real'])
  })

  test.each([
    [{ '../x': 'x' }, /steps out/],
    [{ 'a.html': '1', 'A.HTML': '2' }, /one file on some systems/],
    [{ [MARKER]: 'x' }, /kept for the marker/],
  ])('with the names %j is refused before anything is written', async (entries, problem) => {
    await expect(writeOutput(scratch.out, files(entries))).rejects.toThrow(problem)
    expect(beside()).toEqual([])
  })

  test('two builds at once leave one of the two, whole', async () => {
    const make = (n: number) =>
      files(Object.fromEntries([...Array(20).keys()].map((i) => [`${i}.html`, `${n}`])))
    await writeOutput(scratch.out, make(0))
    await Promise.allSettled([1, 2, 3, 4].map((n) => writeOutput(scratch.out, make(n))))
    const seen = new Set([...Array(20).keys()].map((i) => read(`${i}.html`)))
    expect(seen.size).toBe(1)
    expect(beside()).toEqual(['out'])
  })
})

describe('when writing fails, the last good output stays', () => {
  const expectGood = () => {
    expect(read('index.html')).toBe('one')
    expect(read('old.html')).toBe('old')
    expect(beside()).toEqual(['out'])
  }

  test('midway', async () => {
    await writeOutput(scratch.out, files(GOOD))
    const broken = files({ 'index.html': 'two', 'b.html': 7 as unknown as string, 'c.html': 'c' })
    await expect(writeOutput(scratch.out, broken)).rejects.toThrow(/cannot write/)
    expectGood()
  })

  test('for want of a folder', async () => {
    writeFileSync(join(scratch.dir, 'file'), '')
    await expect(writeOutput(join(scratch.dir, 'file/out'), files(GOOD))).rejects.toThrow(
      /a part of the path is a file/,
    )
    await expect(writeOutput(join(scratch.dir, 'file'), files(GOOD))).rejects.toThrow(/it is a file/)
    expect(beside()).toEqual(['file'])
  })

  test.runIf(existsSync('/proc/self'))('where the system says no such file for not allowed', async () => {
    await expect(writeOutput('/proc/loomwright/deep/out', files(GOOD))).rejects.toThrow(/cannot write/)
    await expect(writeFileWhole('/proc/loomwright/deep/file', 'x')).rejects.toThrow(/cannot write/)
  })

  // Root may write anywhere but may mount a tiny disk; everybody else can have a folder taken away.
  const root = process.getuid?.() === 0
  test.skipIf(root)('in a folder that may not be written', async () => {
    await writeOutput(scratch.out, files(GOOD))
    chmodSync(scratch.dir, 0o500)
    await expect(writeOutput(scratch.out, files({ 'index.html': 'two' }))).rejects.toThrow(/may not write/)
    chmodSync(scratch.dir, 0o700)
    expectGood()
  })

  const disk = join(base, 'tiny-disk')
  const mounted = (): boolean => {
    if (!root || process.platform !== 'linux') return false
    mkdirSync(disk, { recursive: true })
    return spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=256k', 'none', disk]).status === 0
  }
  test('on a full disk', async (context) => {
    if (!mounted()) context.skip('needs the right to mount a small disk')
    try {
      const out = join(disk, 'out')
      await writeOutput(out, files(GOOD))
      const large = files({ 'index.html': 'x'.repeat(150_000), 'b.html': 'y'.repeat(150_000) })
      await expect(writeOutput(out, large)).rejects.toThrow(/the disk is full/)
      expect(readFileSync(join(out, 'index.html'), 'utf8')).toBe('one')
      expect(readdirSync(disk)).toEqual(['out'])
    } finally {
      spawnSync('umount', [disk])
    }
  })
})

describe('a process that ends while writing', () => {
  const script = join(base, 'writer.mjs')
  beforeAll(async () => {
    const contents = `
      import { writeOutput } from './src/write/write-output.ts'
      const [folder, how] = process.argv.slice(2)
      class Slow extends Map {
        *[Symbol.iterator]() {
          let count = 0
          for (const entry of super[Symbol.iterator]()) {
            if (++count === 3 && how === 'interrupt') process.kill(process.pid, 'SIGINT')
            if (count === 3 && how === 'hang') { process.stdout.write('midway'); Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0) }
            yield entry
          }
        }
      }
      await writeOutput(folder, new Slow([...Array(50).keys()].map((i) => [i + '.html', 'two'])))
      process.stdout.write('done')`
    await build({
      stdin: { contents, resolveDir: process.cwd() },
      bundle: true,
      platform: 'node',
      format: 'esm',
      outfile: script,
    })
  })
  const run = (how: string): ChildProcess =>
    spawn(process.execPath, [script, scratch.out, how], { stdio: ['ignore', 'pipe', 'inherit'] })

  test('by an interrupt takes its traces away and says so by its status', async () => {
    await writeOutput(scratch.out, files(GOOD))
    const [code] = await once(run('interrupt'), 'exit')
    expect(code).toBe(130)
    expect(read('index.html')).toBe('one')
    expect(beside()).toEqual(['out'])
  })

  test('by being killed leaves the last output, and the next build clears up', async () => {
    await writeOutput(scratch.out, files(GOOD))
    const child = run('hang')
    await once(child.stdout as NodeJS.EventEmitter, 'data')
    child.kill('SIGKILL')
    await once(child, 'exit')
    expect(read('index.html')).toBe('one')
    expect(beside()).toHaveLength(2)
    await writeOutput(scratch.out, files({ 'index.html': 'three' }))
    expect(read('index.html')).toBe('three')
    expect(beside()).toEqual(['out'])
  })

  test('between the two renames gets its last output back at the next build', async () => {
    await writeOutput(scratch.out, files(GOOD))
    // No process has this number: it is above the largest that Linux gives out.
    const old = join(scratch.dir, '.out.loomwright-old-99999999-00000000')
    spawnSync('mv', [scratch.out, old])
    await expect(writeOutput(scratch.out, files({ 'a.html': 7 as unknown as string }))).rejects.toThrow()
    expect(read('index.html')).toBe('one')
    expect(beside()).toEqual(['out'])
  })
})

describe('a single file', () => {
  test('is replaced whole, and its folder made', async () => {
    const path = join(scratch.dir, 'a/b/report.json')
    await writeFileWhole(path, 'one')
    await writeFileWhole(path, 'two')
    expect(readFileSync(path, 'utf8')).toBe('two')
    expect(readdirSync(join(scratch.dir, 'a/b'))).toEqual(['report.json'])
  })

  test('is not written over a folder', async () => {
    await expect(writeFileWhole(scratch.dir, 'x')).rejects.toThrow(/it is a folder/)
    expect(beside()).toEqual([])
  })
})
