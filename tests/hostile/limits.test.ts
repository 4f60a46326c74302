import { mkdirSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Finding } from '../../src/base/finding.ts'
import { jsonSchema } from '../../src/describe/json-schema.ts'
import { LIMITS } from '../../src/describe/limits.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { readShop } from '../../src/read/read-shop.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'

/* How large a description may be: at each limit it is taken, one beyond it is told what the limit is. */

let here = ''
beforeAll(() => {
  here = mkdtempSync(join(tmpdir(), 'limits-'))
})
afterAll(() => rmSync(here, { recursive: true, force: true }))

const troubles = async (folder: string): Promise<string[]> =>
  (await readShop('.', folder)).troubles.map(({ what }) => what)

const sound = '{ "loomwright": 1 }'

/** A folder that holds one description so many folders down. */
function nested(depth: number): string {
  const top = join(here, `deep-${depth}`)
  const folder = join(top, ...Array.from({ length: depth }, (_, i) => `f${i}`))
  mkdirSync(folder, { recursive: true })
  writeFileSync(join(folder, 'a.json'), sound)
  return top
}

/** A folder with so many descriptions. */
function full(count: number): string {
  const folder = join(here, `full-${count}`)
  mkdirSync(folder)
  for (let i = 0; i < count; i++) writeFileSync(join(folder, `${i}.json`), sound)
  return folder
}

/** A description with so many bytes: sound, then blanks. */
function large(bytes: number): string {
  const folder = join(here, `large-${bytes}`)
  mkdirSync(folder)
  writeFileSync(join(folder, 'a.json'), sound + ' '.repeat(Math.max(0, bytes - sound.length)))
  truncateSync(join(folder, 'a.json'), bytes)
  return folder
}

/** Lists within each other, so many with the document's own two levels. */
function listed(depth: number): string {
  const folder = join(here, `lists-${depth}`)
  mkdirSync(folder)
  const lists = '['.repeat(depth - 1) + ']'.repeat(depth - 1)
  writeFileSync(join(folder, 'a.json'), `{ "loomwright": 1, "parts": ${lists} }`)
  return folder
}

describe('files', () => {
  test.each<[string, (n: number) => string, number, RegExp]>([
    ['bytes of a file', large, LIMITS.fileBytes, /more than the 20 MB/],
    ['folders below the shop', nested, LIMITS.folderDepth, /folders lie more than 16 deep/],
    ['files of a shop', full, LIMITS.files, /there are more than 5000 files/],
    ['lists in each other', listed, LIMITS.depth, /lie more than 64 deep/],
  ])(
    '%s: at the limit, and one beyond',
    async (_, make, limit, words) => {
      const within = await troubles(make(limit))
      expect(within.filter((what) => words.test(what))).toEqual([])
      expect((await troubles(make(limit + 1))).join('\n')).toMatch(words)
    },
    120_000,
  )
})

const faultsOf = (data: object): readonly Finding[] =>
  describeShop([{ name: 'a.json', data: { loomwright: 1, ...data } }], []).findings

const unit = (pins: number) => ({
  equipment: [
    {
      id: 'unit',
      title: 'Unit',
      connectors: [
        {
          id: 'J1',
          family: 'own-family',
          pins: Object.fromEntries(Array.from({ length: pins }, (_, i) => [`p${i}`, { kind: 'unstated' }])),
        },
      ],
    },
  ],
})

describe('one document', () => {
  test('pins of a connector', () => {
    expect(faultsOf(unit(LIMITS.pins))).toEqual([])
    expect(faultsOf(unit(LIMITS.pins + 1)).map(({ what }) => what)).toEqual([
      expect.stringContaining('a connector has at most 1000 pins'),
    ])
    expect(faultsOf(unit(100_000))).toHaveLength(1)
  })

  test('faults told apart', () => {
    const wires = Array.from({ length: LIMITS.faults + 100 }, (_, i) => ({
      id: `A${i}`,
      from: 'P1.1',
      to: 7,
    }))
    const harness = { id: 'h', title: 'H', connectors: [], wires }
    const count = faultsOf({ harnesses: [harness] }).length
    expect(count).toBeGreaterThan(LIMITS.faults / 2)
    expect(count).toBeLessThanOrEqual(LIMITS.faults + 1)
  })

  test('hints to wrong names', () => {
    const wires = Array.from({ length: LIMITS.hints + 50 }, (_, i) => ({
      id: `A${i}`,
      from: 'PLUG.1',
      to: 'PLUGG.2',
      length: '1 m',
    }))
    const connectors = [{ id: 'PLUG', family: 'dsub-25', half: 'pin' }]
    const { shop, findings } = describeShop(
      [{ name: 'a.json', data: { loomwright: 1, harnesses: [{ id: 'h', title: 'H', connectors, wires }] } }],
      [],
    )
    expect(findings).toEqual([])
    const wrong = resolveShop(shop)
      .looms.flatMap((loom) => loom.findings)
      .filter(({ rule }) => rule === 'name-not-found')
    expect(wrong).toHaveLength(wires.length)
    expect(wrong.filter(({ fix }) => fix.includes('Did you mean “PLUG”?'))).toHaveLength(LIMITS.hints)
  })

  /** Every list of the shape, by its path of keys; what refers to a shape of its own is followed once. */
  function lists(): { readonly name: string; readonly bounded: boolean }[] {
    type Node = Readonly<Record<string, unknown>>
    const schema = jsonSchema() as Node
    const found: { name: string; bounded: boolean }[] = []
    const walk = (node: unknown, name: string): void => {
      if (typeof node !== 'object' || node === null) return
      const { type, maxItems, items, ...rest } = node as Node
      const isTuple = 'prefixItems' in rest
      if (type === 'array' && !isTuple) found.push({ name, bounded: typeof maxItems === 'number' })
      walk(items, `${name}[]`)
      for (const [key, value] of Object.entries(rest))
        walk(value, key === 'properties' || key === '$defs' || /^\d+$/.test(key) ? name : `${name}.${key}`)
    }
    walk(schema, '')
    return found
  }

  test('every list of the shape has a limit', () => {
    const all = lists()
    expect(all.length).toBeGreaterThan(20)
    expect(all.filter(({ bounded }) => !bounded).map(({ name }) => name)).toEqual([])
  })

  test('a list one too long is told with its limit', () => {
    const connectors = Array.from({ length: 2001 }, (_, i) => ({ id: `P${i}`, family: 'dsub-9' }))
    const told = faultsOf({ harnesses: [{ id: 'h', title: 'H', connectors }] }).map(({ fix }) => fix)
    expect(told.join('\n')).toMatch(/2000/)
  })
})

test('the README tells each limit', () => {
  const readme = readFileSync(fileURLToPath(new URL('../../README.md', import.meta.url)), 'utf8')
  const [, section = ''] = readme.split('## Limits')
  for (const words of [
    `${LIMITS.fileBytes / 1024 / 1024} MB`,
    `${LIMITS.files} files`,
    `${LIMITS.folderDepth} folders`,
    `${LIMITS.depth} lists and objects`,
    `${LIMITS.seconds} s`,
    `${LIMITS.faults} faults`,
    `${LIMITS.pins} pins`,
    `${LIMITS.hints} wrong names`,
  ])
    expect(section).toContain(words)
})
