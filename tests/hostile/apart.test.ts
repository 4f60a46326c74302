import { symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import * as index from '../../src/index.ts'
import { readShop } from '../../src/read/read-shop.ts'
import { builders } from '../../src/read/sandbox/inside.ts'
import { inFolder, told } from '../read/shop-folder.ts'

const demos = fileURLToPath(new URL('../../harnesses', import.meta.url))

type Path = (string | number)[]

function paths(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path]
  return [
    path,
    ...Object.entries(value).flatMap(([key, entry]) =>
      paths(entry, [...path, Array.isArray(value) ? Number(key) : key]),
    ),
  ]
}

describe('an honest description run apart', () => {
  test('gives the same documents as in this process, and every value of them the same place', async () => {
    const own = await readShop('.', demos)
    const apart = await readShop('.', demos, 'apart')
    expect(told(apart)).toEqual([])
    expect(apart.documents.map(({ name }) => name)).toEqual(own.documents.map(({ name }) => name))
    let compared = 0
    const differing: unknown[] = []
    for (const [at, document] of own.documents.entries()) {
      const twin = apart.documents[at]
      expect(twin?.data).toEqual(document.data)
      for (const path of paths(document.data)) {
        compared++
        const [here, there] = [document.locate(path), twin?.locate(path)]
        if (JSON.stringify(here) !== JSON.stringify(there)) differing.push([path.join('.'), here, there])
      }
    }
    expect(compared).toBeGreaterThan(1000)
    expect(differing).toEqual([])
  })

  test('has every builder, and nothing that checks or solves', () => {
    const outside = [
      ...['checkLoom', 'checkShop', 'describeShop', 'jsonSchema', 'readingsSchema', 'resolveShop', 'solve'],
      ...['bringsStop', 'broughtFindings', 'compare', 'headline', 'verdict'],
    ]
    const values = Object.keys(index).filter((name) => !outside.includes(name))
    expect(Object.keys(builders).sort()).toEqual(values.sort())
  })
})

const wrap = (body: string): string =>
  `import { harness } from 'loomwright'\nexport const h = harness('h', { title: 'H', notes: [String(${body})] })\n`

async function readApart(files: Readonly<Record<string, string>>) {
  return inFolder(files, (folder) => readShop('.', folder, 'apart'))
}

const notesOf = (source: { documents: readonly { data: unknown }[] }): string[] =>
  (source.documents[0]?.data as { harnesses: { notes: string[] }[] } | undefined)?.harnesses[0]?.notes ?? []

const noteOf = (source: { documents: readonly { data: unknown }[] }): string => notesOf(source)[0] ?? ''

test('what a stranger finds in there: the language, the builders, and nothing else', async () => {
  const cases: readonly (readonly [name: string, body: string, seen: string])[] = [
    ['process', 'typeof process', 'undefined'],
    ['Buffer', 'typeof Buffer', 'undefined'],
    ['fetch', 'typeof fetch', 'undefined'],
    ['timers', 'typeof setTimeout', 'undefined'],
    ['a worker', 'typeof Worker', 'undefined'],
    ['WebAssembly', 'typeof WebAssembly', 'undefined'],
    [
      'std and os of the interpreter',
      '[typeof (globalThis as any).std, typeof (globalThis as any).os]',
      'undefined,undefined',
    ],
    [
      'process by a constructor',
      `(() => { try { return ({} as any).constructor.constructor('return process')() } catch (e) { return (e as Error).name } })()`,
      'ReferenceError',
    ],
    [
      'process by a builder',
      `(() => { try { return (harness as any).constructor('return process')() } catch (e) { return (e as Error).name } })()`,
      'ReferenceError',
    ],
    [
      'process by the loader',
      `(() => { try { return (require as any).constructor('return process')() } catch (e) { return (e as Error).name } })()`,
      'ReferenceError',
    ],
    [
      'require',
      `(() => { const r: any = require; try { return r('f' + 's') } catch (e) { return (e as Error).message } })()`,
      'fs cannot be had where a description runs apart',
    ],
    ['import by a name made up', `typeof import(['node', 'fs'].join(':'))`, 'object'],
    ['indirect eval', `(0, eval)('typeof process')`, 'undefined'],
  ]
  const notes = cases.map(([, body]) => `String(${body})`).join(',\n')
  const source = await readApart({
    'a.ts': `import { harness } from 'loomwright'\nexport const h = harness('h', { title: 'H', notes: [${notes}] })\n`,
  })
  expect(told(source)).toEqual([])
  const seen = notesOf(source)
  expect(cases.map(([name], i) => [name, seen[i]])).toEqual(cases.map(([name, , said]) => [name, said]))
})

describe('what a stranger may not import', () => {
  const secret = '/etc/hostname'
  test.each<[string, string, string]>([
    [
      'a module of Node',
      `import { readFileSync } from 'node:fs'\nexport const a = readFileSync`,
      '“node:fs” is imported, but what runs apart',
    ],
    [
      'the same without node:',
      `import { readFileSync } from 'fs'\nexport const a = readFileSync`,
      '“fs” is imported, but what runs apart',
    ],
    ['by require', `export const a = require('child_process')`, '“child_process” is imported'],
    ['by import()', `export const a = import('node:net')`, '“node:net” is imported'],
    ['a package', `import z from 'zod'\nexport const a = z`, '“zod” is imported'],
    ['an absolute path', `import a from '${secret}'\nexport { a }`, `“${secret}” is imported`],
    [
      'a URL',
      `import a from 'https://example.org/a.js'\nexport { a }`,
      '“https://example.org/a.js” is imported',
    ],
    [
      'a data URL',
      `import a from 'data:text/javascript,export default 1'\nexport { a }`,
      '“data:text/javascript',
    ],
    ['a file URL', `import a from 'file://${secret}'\nexport { a }`, `“file://${secret}” is imported`],
    [
      'a system file as text',
      `import a from '../../../../../../../..${secret}' with { type: 'text' }\nexport { a }`,
      'this import asks for text',
    ],
    [
      'its own file as bytes',
      `import a from './a.ts' with { type: 'bytes' }\nexport { a }`,
      'this import asks for text',
    ],
    [
      'JSON above the folder',
      `import a from '../outside.json'\nexport { a }`,
      '“../outside.json” leads out of the folder',
    ],
    [
      'TypeScript above the folder',
      `import a from '../outside'\nexport { a }`,
      '“../outside” leads out of the folder',
    ],
    [
      'JSON through a link',
      `import a from './link.json'\nexport { a }`,
      '“./link.json” leads out of the folder',
    ],
    [
      'a file in a linked folder',
      `import a from './far/outside.json'\nexport { a }`,
      '“./far/outside.json” leads out of the folder',
    ],
    ['a picture', `import a from './a.png'\nexport { a }`, '“./a.png” is no TypeScript'],
    ['a private name of package.json', `import a from '#secret'\nexport { a }`, '“#secret” is imported'],
  ])('%s', async (_, text, what) => {
    await inFolder(
      { 'outside.json': '{"secret":"S3CRET"}', 'shop/a.ts': text, 'shop/a.png': 'S3CRET' },
      async (folder) => {
        writeFileSync(
          join(folder, 'shop/package.json'),
          JSON.stringify({ imports: { '#secret': '../outside.json' } }),
        )
        symlinkSync(join(folder, 'outside.json'), join(folder, 'shop/link.json'))
        symlinkSync(folder, join(folder, 'shop/far'))
        const source = await readShop('shop/a.ts', folder, 'apart')
        expect(told(source)).toHaveLength(1)
        expect(told(source)[0]).toContain(what)
        expect(source.troubles[0]?.place).toMatchObject({ file: 'shop/a.ts' })
        expect(JSON.stringify(source)).not.toContain('S3CRET')
      },
    )
  })

  test('files beside it that a bundler reads by itself are not opened: they never end', async () => {
    await inFolder({ 'shop/a.ts': `${wrap("'fine'")}//# sourceMappingURL=endless.map\n` }, async (folder) => {
      for (const name of ['package.json', 'tsconfig.json', 'endless.map'])
        symlinkSync('/dev/zero', join(folder, 'shop', name))
      const source = await readShop('shop/a.ts', folder, 'apart')
      expect(told(source)).toEqual([])
      expect(noteOf(source)).toBe('fine')
    })
  })

  test('importing a device, a pipe or a huge file ends with a word', async () => {
    await inFolder({ 'shop/a.ts': `import a from './b.json'\nexport { a }` }, async (folder) => {
      writeFileSync(join(folder, 'shop/b.json'), `[${'"xxxxxxxxxx",'.repeat(1_700_000)}1]`)
      const source = await readShop('shop/a.ts', folder, 'apart')
      expect(told(source)[0]).toMatch(/the file has \d+ MB, more than/)
    })
  })
})

describe('what a stranger does to hold up or blow up', () => {
  const run = async (text: string): Promise<string> => {
    const source = await readApart({ 'a.ts': text })
    expect(source.troubles).toHaveLength(1)
    expect(source.documents).toEqual([])
    return told(source)[0] ?? ''
  }
  test.each<[string, string, RegExp]>([
    [
      'one that catches everything',
      'export const a = 1\nfor (;;) { try { for (;;) {} } catch {} }',
      /still running/,
    ],
    ['a pattern that never ends', `export const a = /^(a+)+$/.test('a'.repeat(60) + 'b')`, /still running/],
    [
      'a list that grows',
      'export const a: unknown[] = []\nfor (;;) a.push(new Array(10000).fill(1))',
      /more than the 256 MB|out of memory/,
    ],
    [
      'a text that doubles',
      `let s = 'x'\nfor (;;) s += s\nexport const a = s`,
      /256 MB|out of memory|too long|string/,
    ],
    [
      'a list of a billion',
      'import { harness } from "loomwright"\nexport const h = harness("h", { title: "h", notes: new Array(1e9) as never })',
      /values|256 MB|out of memory/,
    ],
    [
      'a huge answer',
      `import { harness } from "loomwright"\nexport const h = harness("h", { title: "h", notes: ["x".repeat(100e6)] })`,
      /256 MB|values|out of memory/,
    ],
    [
      'a call without end',
      'const f = (): number => f() + 1\nexport const a = f()',
      /calls itself without end/,
    ],
    [
      'objects nested without end',
      'import { harness } from "loomwright"\nlet a: any = []\nfor (let i = 0; i < 100000; i++) a = [a]\nexport const h = harness("h", { title: "h", notes: a })',
      /lie more than 64 deep/,
    ],
    [
      'a getter that throws',
      `import { harness } from 'loomwright'\nexport const h = harness('h', { title: 'h', get notes(): never { throw new Error('gotcha') } })`,
      /the code stops here with “gotcha”/,
    ],
    [
      'a getter that throws later',
      `import { harness } from 'loomwright'\nlet n = 0\nexport const h = harness('h', { title: 'h', notes: [{ get x() { if (n++ >= 0) throw new Error('late') ; return 1 } }] as never })`,
      /late/,
    ],
    [
      'a proxy that lies about its keys',
      `import { harness } from 'loomwright'\nexport const h = harness('h', { title: 'h', notes: new Proxy([], { ownKeys: () => { throw new Error('no keys') }, get: (t: any, k) => k === 'length' ? 1e7 : 'x' }) as never })`,
      /values|no keys/,
    ],
    [
      'a proxy for exports',
      `export const a = 1\nmodule.exports = new Proxy({}, { ownKeys: () => ['x'], getOwnPropertyDescriptor: () => { throw new Error('mine') } })\ndeclare const module: any`,
      /./,
    ],
    ['throwing something odd', 'export const a = 1\nthrow { toString() { throw new Error("again") } }', /./],
    [
      'JSON.stringify replaced by rubbish',
      `import { harness } from 'loomwright'\nexport const h = harness('h', { title: 'h' })\nJSON.stringify = () => '{"files":[{"names":["__proto__"],"values":[[99]]}],"nodes":[]}x'`,
      /cannot be run apart/,
    ],
    [
      'an answer of the wrong shape',
      `import { harness } from 'loomwright'\nexport const h = harness('h', { title: 'h' })\nJSON.stringify = () => '{"files":[{"names":[1]}],"nodes":[{"mark":{"kind":"root"}}]}'`,
      /cannot be run apart/,
    ],
    ['arrow functions nested 60000 deep', `export const a = ${'()=>'.repeat(60_000)}1`, /./],
    ['brackets nested 200000 deep', `export const a = ${'['.repeat(200_000)}${']'.repeat(200_000)}`, /./],
    ['an unfinished text', 'export const a = `', /Unterminated/],
  ])(
    '%s',
    async (_, text, what) => {
      const said = await run(text)
      expect(said).toMatch(what)
      expect(said).not.toMatch(/\n|goroutine|\bat .*:\d+:\d+|undefined|stranger:/)
      expect(said.length).toBeLessThan(400)
    },
    120_000,
  )

  test('what it does to the world inside stays inside', async () => {
    const source = await readApart({
      'a.ts': `import { harness, wire } from 'loomwright'
        ;(Object.prototype as any).polluted = 'yes'
        ;(Array.prototype as any).map = () => ['hijacked']
        ;(globalThis as any).__apart = { answer: () => 'mine' }
        export const h = harness('h', { title: 'H' })`,
    })
    expect(source.documents.length + source.troubles.length).toBeGreaterThan(0)
    expect(({} as { polluted?: string }).polluted).toBeUndefined()
    expect([1].map((n) => n + 1)).toEqual([2])
  })

  test('a key of the runtime, made by JSON.parse, is refused at its place', async () => {
    const said = await run(
      `import { harness } from 'loomwright'\nexport const h = harness('h', { title: 'h', notes: [JSON.parse('{"__proto__":{"x":1}}')] as never })`,
    )
    expect(said).toMatch(/^a\.ts:2:\d+ harnesses\.0\.notes\.0: “__proto__” is no key/)
    expect(({} as { x?: number }).x).toBeUndefined()
  })

  test('an error is told at its line, as in this process', async () => {
    const said = await run(`const f = () => {\n  throw new Error('no stock')\n}\nexport const a = f()`)
    expect(said).toMatch(/^a\.ts:2:\d+ the code stops here with “no stock”/)
  })
})

describe('not trusted and not run', () => {
  test('TypeScript is refused and leaves no trace; JSON is still read', async () => {
    await inFolder(
      {
        'a.ts': `import { writeFileSync } from 'node:fs'\nwriteFileSync('ran', '')`,
        'b.json': '{ "loomwright": 1 }',
      },
      async (folder) => {
        const source = await readShop('.', folder, 'refuse')
        expect(told(source)).toEqual(['a.ts:1:1 this is TypeScript of somebody not trusted, and was not run'])
        expect(source.documents.map(({ name }) => name)).toEqual(['b.json'])
      },
    )
  })
})
