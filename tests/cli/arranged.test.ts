import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import type { Arrangement } from '../../src/draw/arrangement.ts'
import { arrangementText, parseArrangements } from '../../src/draw/arrangement-file.ts'
import { vanRadio } from '../sheets/sample-shop.ts'
import { builtCli, root } from './built-cli.ts'

const cli = builtCli()

/** Files of a folder by name. */
const contents = (folder: string) =>
  Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(join(folder, name), 'utf8')]))

test('every drawing of the shop is the same bytes in another process, language and time zone', async () => {
  const draw = async (name: string, env: NodeJS.ProcessEnv) => {
    const to = join(cli.scratch, name)
    await cli.run(['draw', 'harnesses', '--to', to], { cwd: root, env })
    return contents(to)
  }
  const [one, two] = [
    await draw('one', { TZ: 'UTC', LC_ALL: 'C', LANG: 'C' }),
    await draw('two', { TZ: 'Pacific/Kiritimati', LC_ALL: 'tr_TR.UTF-8', LANG: 'tr_TR.UTF-8' }),
  ]
  expect(Object.keys(one).filter((name) => name.endsWith('.svg')).length).toBeGreaterThan(20)
  expect(two).toEqual(one)
}, 180_000)

describe('--arranged', () => {
  /** A shop of its own, with or without one wire of the van. */
  const describeVan = (folder: string, leaveOut?: string) => {
    const harnesses = vanRadio.harnesses?.map((harness) => ({
      ...harness,
      procedures: [],
      wires: harness.wires?.filter(({ id }) => id !== leaveOut),
    }))
    mkdirSync(folder, { recursive: true })
    writeFileSync(join(folder, 'van.json'), JSON.stringify({ ...vanRadio, harnesses }))
  }

  test('notes how drawings are arranged beside the description, and keeps to it', async () => {
    const shop = join(cli.scratch, 'shop')
    const file = join(shop, 'van.arranged.json')
    const draw = () =>
      cli.run(['draw', shop, '--harness', 'van', '--to', join(cli.scratch, 'van'), '--arranged', file])
    describeVan(shop)
    expect((await draw()).err).not.toContain('cannot')
    const [first, noted] = [contents(join(cli.scratch, 'van')), readFileSync(file, 'utf8')]
    expect([...(parseArrangements(noted)?.keys() ?? [])]).toEqual(['harness van'])

    // Sheets the other way round are an arrangement nobody would come to anew.
    const [name = '', sheets = []] = [...(parseArrangements(noted) ?? [])][0] ?? []
    const turned = sheets.map((sheet) => ({
      ...sheet,
      columns: Object.fromEntries(
        Object.entries(sheet.columns).map(([block, column]) => [block, 2 - column]),
      ),
    }))
    writeFileSync(file, arrangementText(new Map([[name, turned]])))
    await draw()
    const other = contents(join(cli.scratch, 'van'))
    expect(other).not.toEqual(first)
    describeVan(shop, 'A3')
    await draw()
    const [after] = parseArrangements(readFileSync(file, 'utf8'))?.get(name) ?? []
    expect(after?.columns['main.P1'] ?? after?.columns['van.P1']).toBe(
      turned[0]?.columns['main.P1'] ?? turned[0]?.columns['van.P1'],
    )
    expect(after?.conductors.join()).not.toContain('A3')
  }, 120_000)

  test.each([
    ['bad.arranged.json', '{ "arranged": 1, "drawings": { "x": [{}] } }', 'does not hold an arrangement'],
    ['half.arranged.json', '{ "arranged": 1,', 'does not hold an arrangement'],
    ['old.arranged.json', '{ "arranged": 0, "drawings": {} }', 'does not hold an arrangement'],
    ['plain.json', '{}', 'ends in .arranged.json'],
  ])('refuses %s and leaves it as it is', async (name, text, expected) => {
    const shop = join(cli.scratch, 'refused')
    describeVan(shop)
    const file = join(cli.scratch, name)
    writeFileSync(file, text)
    const { code, err } = await cli.run(['draw', shop, '--to', join(cli.scratch, 'none'), '--arranged', file])
    expect(code).toBe(2)
    expect(err).toContain(expected)
    expect(readFileSync(file, 'utf8')).toBe(text)
  })
})

test('an arrangement is read back as it was written', () => {
  const sheets: Arrangement = [
    { style: 'steps', conductors: ['a"b', '日本'], columns: { 'x.P1': 0.5 }, order: ['block x.P1', ''] },
    { style: 'facing', conductors: [], columns: {}, order: [] },
  ]
  const text = arrangementText(
    new Map([
      ['harness z', sheets],
      ['harness a', []],
    ]),
  )
  expect(parseArrangements(text)).toEqual(
    new Map([
      ['harness a', []],
      ['harness z', sheets],
    ]),
  )
  expect(text.indexOf('harness a')).toBeLessThan(text.indexOf('harness z'))
})
