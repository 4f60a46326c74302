import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeEach, describe, expect, test } from 'vitest'
import { contentHash, hashOf } from '../../src/cache/content-hash.ts'
import { ContentStore } from '../../src/cache/content-store.ts'
import { prune, pruneNowAndThen } from '../../src/cache/prune.ts'
import { isOlderThan, isUnchanged, traceOf } from '../../src/cache/trace.ts'

const scratch = mkdtempSync(join(tmpdir(), 'loomwright-cache-'))
afterAll(() => rmSync(scratch, { recursive: true, force: true }))
const here = { count: 0, dir: '' }
beforeEach(() => {
  here.dir = join(scratch, String(here.count++))
  mkdirSync(here.dir)
})
const key = (text: string): string => contentHash(text)
const store = (): ContentStore => new ContentStore(join(here.dir, 'cache'))

test('parts are told apart however they are divided', () => {
  expect(hashOf('ab', 'c')).not.toBe(hashOf('a', 'bc'))
  expect(hashOf('a', '')).not.toBe(hashOf('a'))
  expect(hashOf('Ω', 'b')).toBe(hashOf('Ω', 'b'))
})

describe('an entry', () => {
  test('is given back as it was kept, to whoever opens the folder', () => {
    store().put('picture', key('a'), 'Ω and\nlines\n')
    expect(store().get('picture', key('a'))).toBe('Ω and\nlines\n')
    expect(store().get('layout', key('a'))).toBeUndefined()
    expect(store().get('picture', key('b'))).toBeUndefined()
  })

  test.each([
    ['cut short', (text: string) => text.slice(0, -1)],
    ['emptied', () => ''],
    ['changed', (text: string) => text.replace('line', 'lime')],
    ['lengthened', (text: string) => `${text} `],
    ['binary', () => '\0\u0001\u0002'],
  ])('that was %s reads as not there, and can be kept again', (_, spoil) => {
    const one = store()
    one.put('picture', key('a'), 'one line')
    const path = one.path('picture', key('a'))
    writeFileSync(path, spoil(readFileSync(path, 'utf8')))
    expect(one.get('picture', key('a'))).toBeUndefined()
    one.put('picture', key('a'), 'one line')
    expect(one.get('picture', key('a'))).toBe('one line')
  })

  test('that is long is packed, and comes back whole', () => {
    const text = 'Ω page '.repeat(20_000)
    store().put('job', key('a'), text)
    expect(store().get('job', key('a'))).toBe(text)
    expect(statSync(store().path('job', key('a'))).size).toBeLessThan(text.length / 10)
  })

  test('leaves nothing half written under any name', () => {
    const one = store()
    one.put('picture', key('a'), 'x')
    const names = readdirSync(join(here.dir, 'cache'), { recursive: true, encoding: 'utf8' })
    expect(names.filter((name) => name.includes('.new-'))).toEqual([])
  })
})

test('a cache that cannot be written costs nothing but its use', () => {
  writeFileSync(join(here.dir, 'cache'), 'a file where the folder should be')
  const one = store()
  one.put('picture', key('a'), 'x')
  expect(one.get('picture', key('a'))).toBeUndefined()
  expect(readFileSync(join(here.dir, 'cache'), 'utf8')).toBe('a file where the folder should be')
  pruneNowAndThen(join(here.dir, 'cache'))
})

test('is left out of backups and of repositories', () => {
  store().put('picture', key('a'), 'x')
  expect(readFileSync(join(here.dir, 'cache/CACHEDIR.TAG'), 'utf8')).toMatch(
    /^Signature: 8a477f597d28d172789f06886806bc55\n/,
  )
  expect(readFileSync(join(here.dir, 'cache/.gitignore'), 'utf8')).toBe('*\n')
})

describe('pruning', () => {
  const DAY = 24 * 3600 * 1000
  const age = (path: string, days: number, now: number) =>
    utimesSync(path, (now - days * DAY) / 1000, (now - days * DAY) / 1000)

  test('takes what lay unused, then the oldest until it fits, and what a crash left', () => {
    const one = store()
    const now = Date.now()
    const days = { a: 40, b: 3, c: 2, d: 1 }
    for (const [name, old] of Object.entries(days)) {
      one.put('picture', key(name), 'x'.repeat(1000))
      age(one.path('picture', key(name)), old, now)
    }
    const left = `${one.path('picture', key('d'))}.new-1-00ff`
    writeFileSync(left, 'half')
    age(left, 0.5, now)
    prune(one.folder, now, { bytes: 2500, unusedMs: 30 * DAY })
    const there = Object.keys(days).filter((name) => existsSync(one.path('picture', key(name))))
    expect(there).toEqual(['c', 'd'])
    expect(existsSync(left)).toBe(false)
    expect(existsSync(join(one.folder, 'CACHEDIR.TAG'))).toBe(true)
  })

  test('what is used again counts as used', () => {
    const one = store()
    const now = Date.now()
    one.put('picture', key('a'), 'x')
    age(one.path('picture', key('a')), 20, now)
    one.get('picture', key('a'))
    expect(now - statSync(one.path('picture', key('a'))).mtimeMs).toBeLessThan(DAY)
  })
})

describe('a trace', () => {
  const file = (name: string, text: string): string => {
    const path = join(here.dir, name)
    writeFileSync(path, text)
    return path
  }

  test.each<readonly [string, () => void, boolean]>([
    ['nothing', () => undefined, true],
    ['the same text written again', () => void file('a.json', 'one'), true],
    ['a changed file', () => void file('a.json', 'two'), false],
    ['a file more', () => void file('b.json', ''), false],
    ['a file less', () => rmSync(join(here.dir, 'a.json')), false],
    ['a folder more', () => mkdirSync(join(here.dir, 'inner')), false],
    ['a hidden file more', () => void file('.b.json', ''), true],
  ])('after %s', (_, change, same) => {
    const trace = traceOf([file('a.json', 'one'), here.dir, join(here.dir, 'missing.json')])
    change()
    expect(isUnchanged(trace)).toBe(same)
  })

  test('does not vouch for what was changed while it was read', () => {
    const path = file('a.json', 'one')
    const none = () => false
    expect(isOlderThan([path, here.dir], Date.now() + 5000, none)).toBe(true)
    expect(isOlderThan([path], Date.now() - 5000, none)).toBe(false)
    expect(isOlderThan([here.dir], Date.now() - 5000, none)).toBe(false)
    expect(isOlderThan([here.dir], Date.now() - 5000, () => true)).toBe(true)
    expect(isOlderThan([join(here.dir, 'gone.json')], Date.now() + 5000, none)).toBe(false)
  })
})
