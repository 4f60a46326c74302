import { describe, expect, test } from 'vitest'
import { describeShop } from '../../src/describe/validate.ts'
import { readShop } from '../../src/read/read-shop.ts'
import { inFolder, marked, readFiles, told } from './shop-folder.ts'

const head = (
  body: string,
) => `import { asDocument, cable, connector, equipment, fuse, harness, installation, jack, pair, plug, policy, unit, wire } from 'loomwright'
const radio = equipment('radio', {
  title: 'Radio',
  connectors: [
    jack('J2', 'dsub-9', 'socket', {
      1: { name: 'SPK+' },
      2: { kind: 'audio-out', level: 'speaker', leg: 'cold' },
    }, { title: 'Accessory' }),
  ],
})
const P1 = plug('P1', radio.at('J2'))
const X1 = connector('X1', 'rect-4', 'pin')
${body}
`

test('a file gives what it exports, and what that mentions, in one document', async () => {
  const source = await readFiles({
    'a.ts':
      head(`export const lead = harness('lead', { title: 'Lead', wires: [wire('A1', P1.pin(1), X1.pin(1))] })
export function helper() { return harness('never', { title: 'Never made' }) }
export const limit = 4`),
    'steps/fit.md': '# Fit\n',
  })
  expect(source.troubles).toEqual([])
  expect(source.documents.map(({ name }) => name)).toEqual(['a.ts'])
  expect(source.documents[0]?.data).toEqual({
    loomwright: 1,
    equipment: [
      {
        id: 'radio',
        title: 'Radio',
        connectors: [
          {
            id: 'J2',
            family: 'dsub-9',
            half: 'socket',
            title: 'Accessory',
            pins: { 1: { name: 'SPK+' }, 2: { kind: 'audio-out', level: 'speaker', leg: 'cold' } },
          },
        ],
      },
    ],
    harnesses: [
      {
        id: 'lead',
        title: 'Lead',
        connectors: [
          { id: 'P1', family: 'dsub-9', half: 'pin', fits: 'radio.J2' },
          { id: 'X1', family: 'rect-4', half: 'pin' },
        ],
        wires: [{ id: 'A1', from: 'P1.1', to: 'X1.1' }],
      },
    ],
  })
  expect(source.procedures).toEqual([{ file: 'steps/fit.md', text: '# Fit\n' }])
  expect(source.locate({ doc: 'steps/fit.md', path: [1, 3] })).toEqual({
    file: 'steps/fit.md',
    line: 1,
    column: 3,
  })
})

test('a thing that several files export again is one thing, in the document of the file that made it', async () => {
  const source = await readFiles({
    'b/radios.ts': `import { equipment, jack } from 'loomwright'
export const radio = equipment('radio', { title: 'R', connectors: [jack('J1', 'rect-2', 'pin', { 1: {} })] })
export const all = [radio, { again: radio }]`,
    'a/lead.ts': `import { harness, plug } from 'loomwright'
import { radio } from '../b/radios.ts'
export * from '../b/radios.ts'
const P1 = plug('P1', radio.at('J1'))
export default harness('lead', { title: 'L', connectors: [P1] })`,
  })
  expect(source.troubles).toEqual([])
  expect(source.documents.map(({ name, data }) => [name, Object.keys(data as object)])).toEqual([
    ['a/lead.ts', ['loomwright', 'harnesses']],
    ['b/radios.ts', ['loomwright', 'equipment']],
  ])
})

test('what a file outside the shop makes comes along with the file that uses it', async () => {
  const files = {
    'parts/radio.ts': `import { equipment, jack } from 'loomwright'
export const radio =
  equipment('radio', { title: 'R', connectors: [jack('J1', 'rect-2', 'pin', { 1: {} })] })`,
    'job/lead.ts': `import { harness, plug } from 'loomwright'
import { radio } from '../parts/radio.ts'
export const lead = harness('lead', { title: 'L', connectors: [plug('P1', radio.at('J1'))] })`,
  }
  await inFolder(files, async (folder) => {
    const source = await readShop('job', folder)
    expect(source.documents.map(({ name, data }) => [name, Object.keys(data as object)])).toEqual([
      ['lead.ts', ['loomwright', 'equipment', 'harnesses']],
    ])
    const place = source.locate({ doc: 'lead.ts', path: ['equipment', 0] })
    expect(place).toEqual({ file: 'parts/radio.ts', line: 3, column: 3 })
    expect(source.sourceLine(place)).toContain('  equipment(')
    expect(source.watch.map((path) => path.slice(path.lastIndexOf('/')))).toEqual([
      '/job',
      '/lead.ts',
      '/radio.ts',
    ])
  })
})

test('a document may be written out as an object, as in JSON', async () => {
  const { text, ...place } = marked(
    "export default {\n  loomwright: 1,\n  policy: { shop: 'Hollin', «fuseWithin: '450 mm' },\n}\n",
  )
  const source = await readFiles({ 'shop.ts': text })
  expect(source.troubles).toEqual([])
  expect(source.documents[0]?.data).toEqual({
    loomwright: 1,
    policy: { shop: 'Hollin', fuseWithin: '450 mm' },
  })
  expect(source.locate({ doc: 'shop.ts', path: ['policy', 'fuseWithin'] })).toEqual({
    file: 'shop.ts',
    ...place,
  })
})

describe('places', () => {
  const wires = ['harnesses', 0, 'wires', 0] as const
  test.each<[string, readonly (string | number)[], string]>([
    [
      'a builder call',
      wires,
      `export default harness('h', { title: 'H', wires: «wire('A1', P1.pin(1), X1.pin(1)) })`,
    ],
    [
      'an option',
      [...wires, 'size'],
      `export default harness('h', { title: 'H', wires: [wire('A1', P1.pin(1), X1.pin(1), { colour: 'RD', «size: '1 mm²' })] })`,
    ],
    [
      'a plain argument',
      [...wires, 'to'],
      `export default harness('h', { title: 'H', wires: [wire('A1', P1.pin(1), «X1.pin(1))] })`,
    ],
    [
      'a name',
      [...wires, 'id'],
      `export default harness('h', { title: 'H', wires: [wire(«'A1', P1.pin(1), X1.pin(1))] })`,
    ],
    [
      'an option that came from elsewhere',
      [...wires, 'size'],
      `const like = { size: '1 mm²' } as const\nexport default harness('h', { title: 'H', wires: [«wire('A1', P1.pin(1), X1.pin(1), { ...like })] })`,
    ],
    [
      'the wire of a helper function, by its number',
      wires,
      `const run = (id: string, n: number) => wire(id, P1.pin(n), X1.pin(n), { size: '1 mm²' })\nexport default harness('h', { title: 'H', wires: [«run('A1', 1)] })`,
    ],
    [
      'an argument a helper function passed on',
      [...wires, 'id'],
      `const run = (id: string, n: number) => wire(id, P1.pin(n), X1.pin(n), { size: '1 mm²' })\nexport default harness('h', { title: 'H', wires: [«run('A1', 1)] })`,
    ],
    [
      'a value a helper function wrote',
      [...wires, 'size'],
      `const run = (id: string, n: number) => wire(id, P1.pin(n), X1.pin(n), { «size: '1 mm²' })\nexport default harness('h', { title: 'H', wires: [run('A1', 1)] })`,
    ],
    [
      'the turn of a loop',
      [...wires, 'size'],
      `export default harness('h', { title: 'H', wires: [1, 2].map((n) => wire(\`A\${n}\`, P1.pin(n), X1.pin(n), { «size: '1 mm²' })) })`,
    ],
    [
      'a wire of a pair',
      [...wires, 'colour'],
      `export default harness('h', { title: 'H', wires: pair('TP1', wire('A1', P1.pin(1), X1.pin(1), { «colour: 'RD' })) })`,
    ],
    [
      'a core of a cable',
      ['harnesses', 0, 'cables', 0, 'cores', 1, 'to'],
      `export default harness('h', { title: 'H', cables: cable('W1', 'mic-2x0.22', { cores: { 1: [P1.pin(1), X1.pin(1)], 2: [P1.pin(2), «X1.pin(9)] } }) })`,
    ],
    [
      'a shield',
      ['harnesses', 0, 'cables', 0, 'shields', 0, 'from'],
      `export default harness('h', { title: 'H', cables: cable('W1', 'mic-2x0.22', { cores: { 1: [P1.pin(1), X1.pin(1)] }, shields: { screen: { «from: P1.pin('shell') } } }) })`,
    ],
    [
      'a list of a harness',
      ['harnesses', 0, 'notes', 1],
      `export default harness('h', { title: 'H', wires: wire('A1', P1.pin(1), X1.pin(1)), notes: [\n  'one, (two) { three',\n  «'four',\n] })`,
    ],
    [
      'a component',
      ['harnesses', 0, 'components', 0, 'rating'],
      `const F1 = fuse('F1', { «rating: '20 A' })\nexport default harness('h', { title: 'H', wires: wire('A1', P1.pin(1), F1.in) })`,
    ],
    [
      'the policy',
      ['policy', 'drop', 'brief'],
      `export default policy({ drop: { continuous: '0.5 V', «brief: '1 V' } })`,
    ],
    [
      'a unit',
      ['installations', 0, 'units', 0, 'zone'],
      `export default installation('i', { title: 'I', units: [unit('r', radio, { «zone: 'x' })] })`,
    ],
  ])('%s', async (_, path, body) => {
    const { text, ...place } = marked(head(body))
    const source = await readFiles({ 'a.ts': text })
    expect(source.troubles).toEqual([])
    expect(source.locate({ doc: 'a.ts', path })).toEqual({ file: 'a.ts', ...place })
    expect(source.sourceLine({ file: 'a.ts', ...place })).toBe(text.split('\n')[place.line - 1])
  })

  test('a pin of a fixed half, and a figure of it', async () => {
    const text = head('export { radio }')
    const source = await readFiles({ 'a.ts': text })
    const pin = ['equipment', 0, 'connectors', 0, 'pins', '2'] as const
    expect(source.locate({ doc: 'a.ts', path: pin })).toEqual({ file: 'a.ts', line: 7, column: 7 })
    expect(source.locate({ doc: 'a.ts', path: [...pin, 'level'] })).toEqual({
      file: 'a.ts',
      line: 7,
      column: 31,
    })
    const title = ['equipment', 0, 'connectors', 0, 'title'] as const
    expect(source.locate({ doc: 'a.ts', path: title })).toEqual({ file: 'a.ts', line: 8, column: 10 })
  })

  test('a path that leads nowhere gives the nearest thing known', async () => {
    const source = await readFiles({ 'a.ts': head(`export const h = harness('h', { title: 'H' })`) })
    expect(source.locate({ doc: 'a.ts', path: ['harnesses', 0, 'wires', 7, 'size'] })).toMatchObject({
      line: 13,
    })
    expect(source.locate({ doc: 'a.ts', path: ['nothing', 9] })).toEqual({ file: 'a.ts', line: 1, column: 1 })
    expect(source.locate({ doc: 'gone.ts', path: [] })).toEqual({ file: 'gone.ts', line: 1, column: 1 })
  })
})

describe('code that cannot be used', () => {
  test.each<[string, string, string]>([
    ['a syntax error', 'export const a = {\n  b: «]\n}', 'Unexpected "]"'],
    [
      'await at the top',
      'const later = async () => 1\nexport const a = «await later()',
      '“await” outside a function',
    ],
    ['import.meta', 'export const a = «import.meta.url', '“import.meta” is not possible'],
    [
      'a missing import',
      `import { x } from «'./radoi.ts'\nexport const a = x`,
      '“./radoi.ts” is imported, but is not there',
    ],
    [
      'a missing package',
      `import x from 'no-such-package-here'\nexport const a = x`,
      '“no-such-package-here”: a package',
    ],
    [
      'an error thrown',
      `const f = () => { throw «new Error('no stock') }\nexport const a = f()`,
      'the code stops here with “no stock”',
    ],
    ['something thrown', `throw 'just text'\nexport const a = 1`, 'the code stops here with “just text”'],
    [
      'endless recursion',
      `const f = (n: number): number => f(n + 1) + 1\nexport const a = f(0)`,
      'a function calls itself without end',
    ],
    [
      'use before making',
      `import { fuse } from 'loomwright'\nexport const a = () => b.«in\na()\nconst b = fuse('F1')`,
      '“in”: it is asked of something that is not there',
    ],
    [
      'an end that is none',
      `import { wire } from 'loomwright'\nexport const a = «wire('A1', 'P1.1' as never, undefined as never)`,
      'wire A1: “P1.1” is no end',
    ],
    [
      'a circle',
      `import { harness } from 'loomwright'\nconst a: Record<string, unknown> = { title: 'A' }\na.notes = [a]\nexport const h = «harness('h', a as never)`,
      'harnesses.0.notes.0.notes: this object contains itself',
    ],
    [
      'a function in the data',
      `import { harness } from 'loomwright'\nexport const h = harness('h', { «title: (() => 'x') as never })`,
      'harnesses.0.title: a function stands',
    ],
    [
      'a date in the data',
      `import { harness } from 'loomwright'\nexport const h = harness('h', { title: 'x', «date: new Date(0) as never })`,
      'harnesses.0.date: an object of class Date',
    ],
    [
      'a forgotten export',
      `import { harness } from 'loomwright'\nconst h = harness('h', { title: 'x' })`,
      'the file exports nothing',
    ],
    [
      'two policies',
      `import { policy } from 'loomwright'\nexport const a = policy({})\nexport const b = «policy({})`,
      'more than one shop policy',
    ],
  ])('%s is one trouble at its place', async (_, body, what) => {
    const { text, line, column } = body.includes('«') ? marked(body) : { text: body, line: 1, column: 1 }
    const source = await readFiles({ 'a.ts': text })
    expect(told(source)).toHaveLength(1)
    const [trouble] = source.troubles
    expect(trouble?.what).toContain(what)
    expect(trouble?.what).not.toMatch(/\n|\bat .*:\d/)
    expect(trouble?.fix).toMatch(/\.$/)
    if (body.includes('«')) expect(trouble?.place).toEqual({ file: 'a.ts', line, column })
    else expect(trouble?.place?.file).toBe('a.ts')
  })

  test('one that fails is told once, and does not hide the others', async () => {
    const source = await readFiles({
      'a.ts': `import './c.ts'\nexport const a = 1`,
      'b.ts': `import { harness } from 'loomwright'\nexport const h = harness('h', { title: 'H' })`,
      'c.ts': `throw new Error('no stock')`,
    })
    expect(told(source)).toEqual(['c.ts:1:7 the code stops here with “no stock”'])
    expect(source.documents.map(({ name }) => name)).toEqual(['b.ts'])
  })
})

test('reading and describing together point a fault at the value in the code', async () => {
  const { text, ...place } = marked(
    head(
      `export default harness('h', { title: 'H', wires: [wire('A1', P1.pin(1), X1.pin(1), { «colour: 'WHT' as never })] })`,
    ),
  )
  const source = await readFiles({ 'a.ts': text })
  const { findings, shop } = describeShop(source.documents, source.procedures)
  expect(findings).toHaveLength(1)
  expect(findings[0]).toMatchObject({ subject: 'h.A1.colour', fix: 'Write “WH” (white).' })
  expect(source.locate(findings[0]!.at)).toEqual({ file: 'a.ts', ...place })
  expect(shop.harnesses[0]?.value.wires).toHaveLength(1)
})
