import { execFileSync } from 'node:child_process'
import { mkdirSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { describeShop } from '../../src/describe/validate.ts'
import { readShop } from '../../src/read/read-shop.ts'
import { inFolder, marked, readFiles, told } from './shop-folder.ts'

const sound = '{ "loomwright": 1, "policy": { "shop": "Hollin" } }'

describe('bad files', () => {
  const deep = (n: number) => `{ "loomwright": 1, "parts": ${'['.repeat(n)}${']'.repeat(n)} }`
  test.each<[string, string | Uint8Array, string]>([
    ['empty', '', 'a.json:1:1 the file is empty'],
    ['blank', ' \n\t\n', 'a.json:1:1 the file is empty'],
    ['not JSON', 'id,from,to\n', 'a.json:1:1 this word is not JSON'],
    ['an unquoted key', '{ loomwright: 1 }', 'a.json:1:3 this word is not JSON'],
    [
      'a missing comma',
      '{\n  "loomwright": 1\n  "parts": []\n}',
      'a.json:3:3 a comma is missing before this',
    ],
    ['cut short', '{ "loomwright": 1, "parts": [', 'a.json:1:30 a list is not closed'],
    ['a text not closed', '{ "a": "b\n}', 'a.json:1:8 a text is not closed'],
    ['two documents', `${sound}\n${sound}`, 'a.json:2:1 there is more text after the description'],
    [
      'a key written twice',
      '{ "loomwright": 1,\n  "policy": { "shop": "A",\n    "shop": "B" } }',
      'a.json:3:5 “shop” is written twice in one object, so one would be lost',
    ],
    [
      'a key of the runtime',
      '{ "loomwright": 1, "policy": { "__proto__": {} } }',
      'a.json:1:32 “__proto__” is no key of a description',
    ],
    ['too deep', deep(70), 'a.json:1:92 lists and objects lie more than 64 deep'],
    ['far too deep', deep(1_000_000), 'a.json:1:92 lists and objects lie more than 64 deep'],
    [
      'binary',
      new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 1, 2]),
      'a.json:1:1 this is a binary file, not text',
    ],
    ['UTF-16', new Uint8Array([0xff, 0xfe, 0x7b, 0]), 'a.json:1:1 the text is written in UTF-16'],
    [
      'Latin-1',
      Buffer.from('{\n "a": "0.5 mm²" }', 'latin1'),
      'a.json:2:14 the text is not UTF-8 from here on',
    ],
  ])('%s: one clear trouble', async (_, content, trouble) => {
    const source = await readFiles({ 'a.json': content })
    expect(told(source)).toEqual([trouble])
    expect(source.troubles[0]?.fix).toMatch(/\.$/)
    expect(source.documents).toEqual([])
  })

  test('50 MB is refused without reading it', async () => {
    await inFolder({ 'a.json': '{' }, async (folder) => {
      truncateSync(join(folder, 'a.json'), 50 * 1024 * 1024)
      const source = await readShop('a.json', folder)
      expect(told(source)).toEqual([
        'a.json:1:1 the file has 50 MB, more than the 20 MB a description may have',
      ])
      expect(source.sourceLine({ file: 'a.json', line: 1, column: 1 })).toBeUndefined()
    })
  })

  test('a pipe is refused instead of waited for', async () => {
    await inFolder({}, async (folder) => {
      execFileSync('mkfifo', [join(folder, 'a.json')])
      expect(told(await readShop('.', folder))).toEqual(['a.json:1:1 this is not an ordinary file'])
    })
  })

  test('whatever the text is, reading ends with documents or with troubles that have a place', async () => {
    const pieces = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"',
      '"loomwright":1',
      '"a"',
      '1e999',
      '//',
      '/*',
      '\\u12',
      'nul',
      '\n',
      ' ',
      '²',
    )
    const text = fc.oneof(
      fc.array(pieces, { maxLength: 40 }).map((list) => list.join('')),
      fc.string(),
    )
    await fc.assert(
      fc.asyncProperty(text, async (content) => {
        const source = await readFiles({ 'a.json': content })
        expect(source.documents.length + source.troubles.length).toBe(1)
        for (const { place } of source.troubles) expect(place?.file).toBe('a.json')
        describeShop(source.documents)
      }),
      { numRuns: 150 },
    )
  })
})

describe('forgiven', () => {
  test.each<[string, string | Uint8Array]>([
    ['a byte order mark', `\ufeff${sound}`],
    ['comments', `// what the shop decided\n${sound} /* so */`],
    ['trailing commas', '{ "loomwright": 1, "policy": { "shop": "Hollin", }, }'],
  ])('%s', async (_, content) => {
    const source = await readFiles({ 'a.json': content })
    expect(source.troubles).toEqual([])
    expect(source.documents[0]?.data).toEqual(JSON.parse(sound))
  })
})

describe('places in JSON', () => {
  test.each<[string, (string | number)[], string]>([
    ['a member, by its key', ['policy', 'shop'], '{ "loomwright": 1,\r\n  "policy": { «"shop": 3 } }'],
    ['an entry of a list', ['harnesses', 0, 'notes', 1], '{ "harnesses": [{ "notes": ["a",\n\n   «7] }] }'],
    ['the nearest thing there is', ['policy', 'gone', 4], '{ «"policy": {} }'],
    ['the document', [], '\n  «{}'],
    ['after letters beyond the basic plane', ['b'], '{ "a": "𝄞", «"b": 1 }'],
  ])('%s', async (_, path, written) => {
    const { text, ...place } = marked(written)
    const source = await readFiles({ 'a.json': text })
    expect(source.locate({ doc: 'a.json', path })).toEqual({ file: 'a.json', ...place })
    expect(source.sourceLine({ file: 'a.json', ...place })).toBe(text.split(/\r?\n/)[place.line - 1])
  })
})

describe('which files are read', () => {
  test('descriptions and procedures in every folder, but not packages, results and files of other tools', async () => {
    const source = await readFiles({
      'shop.json': sound,
      'jobs/a10.json': sound,
      'jobs/a2.json': sound,
      'jobs/how.md': '# How',
      'jobs/photo.png': 'x',
      'package.json': '{}',
      'tsconfig.json': '{}',
      'types.d.ts': 'nonsense',
      'a.test.ts': 'nonsense',
      'out/old.json': 'nonsense',
      'node_modules/p/a.json': 'nonsense',
      '.git/a.json': 'nonsense',
    })
    expect(source.troubles).toEqual([])
    expect(source.documents.map(({ name }) => name)).toEqual(['jobs/a10.json', 'jobs/a2.json', 'shop.json'])
    expect(source.procedures.map(({ file }) => file)).toEqual(['jobs/how.md'])
  })

  test('data that code imports is the code’s own', async () => {
    const source = await readFiles({
      'a.ts': `import { policy } from 'loomwright'\nimport facts from './facts.json'\nexport default policy({ shop: facts.name })`,
      'facts.json': '{ "name": "Hollin" }',
    })
    expect(source.troubles).toEqual([])
    expect(source.documents.map(({ data }) => data)).toEqual([JSON.parse(sound)])
  })

  test('links are not followed out of the folder', async () => {
    await inFolder(
      { 'shop/a.json': sound, 'secret/b.json': sound, 'shop/in/c.md': '# C' },
      async (folder) => {
        symlinkSync('../secret', join(folder, 'shop/folder'))
        symlinkSync('../secret/b.json', join(folder, 'shop/file.json'))
        symlinkSync('nowhere', join(folder, 'shop/gone.json'))
        symlinkSync('in', join(folder, 'shop/within'))
        symlinkSync('..', join(folder, 'shop/in/circle'))
        const source = await readShop('shop', folder)
        expect(told(source)).toEqual([
          expect.stringMatching(/^shop\/file.json:1:1 this link leads out of the folder/),
          expect.stringMatching(/^shop\/folder:1:1 this link leads out of the folder/),
          'shop/gone.json:1:1 this link leads nowhere',
        ])
        expect(source.documents.map(({ name }) => name)).toEqual(['a.json'])
      },
    )
  })

  test('a name that is not there is answered with one that is', async () => {
    await inFolder({ 'harnesses/a.json': sound, 'notes.txt': '' }, async (folder) => {
      const missing = await readShop(['harneses', 'harnesses'], folder)
      expect(missing.troubles).toEqual([
        { what: 'there is no file or folder “harneses”', fix: 'Did you mean “harnesses”?' },
      ])
      expect(told(await readShop('notes.txt', folder))).toEqual(['- “notes.txt” is no description'])
      mkdirSync(join(folder, 'bare'))
      expect(told(await readShop('bare', folder))).toEqual(['- no description was found'])
      writeFileSync(join(folder, 'bare/a.ts'), '')
      expect(told(await readShop('bare/a.ts', folder))).toEqual([
        'bare/a.ts:1:1 the file exports nothing, so nothing in it is used',
      ])
    })
  })

  test('papers published into the shop are not read as its procedures', async () => {
    const published = {
      'papers/.loomwright-output': 'x',
      'papers/paper/cut.md': '# Cut',
      'papers/a.json': '{',
    }
    await inFolder({ 'a.json': sound, 'fit.md': '# Fit', ...published }, async (folder) => {
      const source = await readShop('.', folder)
      expect(told(source)).toEqual([])
      expect(source.procedures.map(({ file }) => file)).toEqual(['fit.md'])
      expect(source.watch.some((path) => path.includes('papers'))).toBe(false)
      expect(told(await readShop('papers', folder))[0]).toMatch(/published by loomwright/)
    })
  })
})
