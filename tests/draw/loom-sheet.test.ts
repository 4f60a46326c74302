import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, test } from 'vitest'
import { parseWireSize } from '../../src/base/wire-size.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { sizeOnLine } from '../../src/draw/loom-conductors.ts'
import { harnessSheet, loomSheet } from '../../src/draw/loom-sheet.ts'
import type { EndRef, SheetModel } from '../../src/draw/sheet-model.ts'
import { readShop } from '../../src/read/read-shop.ts'
import type { Loom } from '../../src/resolve/loom.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'

let looms: readonly Loom[] = []
beforeAll(async () => {
  const source = await readShop('harnesses', fileURLToPath(new URL('../..', import.meta.url)))
  expect(source.troubles).toEqual([])
  looms = resolveShop(describeShop(source.documents, source.procedures).shop).looms
})

/** Every drawing of the shop: each installation, and each harness by itself. */
function allSheets(): [string, SheetModel][] {
  return looms.flatMap((loom) => [
    [loom.id, loomSheet(loom)] as [string, SheetModel],
    ...loom.looms.map((use): [string, SheetModel] => [`${loom.id}/${use.id}`, harnessSheet(loom, use)]),
  ])
}

describe('the drawings of the shop', () => {
  test('lose no conductor, and every end has its block and row', () => {
    expect(looms.length).toBeGreaterThan(3)
    for (const [name, model] of allSheets()) {
      const rows = new Map(
        model.blocks.map((b) => [
          b.id,
          b.kind === 'strip' ? new Set(b.sections.flatMap((s) => s.rows.map((row) => row.key))) : undefined,
        ]),
      )
      const check = (end: EndRef | undefined) => {
        if (!end) return
        expect(rows.has(end.block), `${name}: block ${end.block}`).toBe(true)
        const keys = rows.get(end.block)
        if (keys) expect(keys.has(end.pin), `${name}: ${end.block} ${end.pin}`).toBe(true)
      }
      for (const path of [...model.conductors, ...model.trunks.flatMap((t) => t.shields)])
        for (const end of [path.from, path.to]) check(end)
    }
    for (const loom of looms) {
      const drawn = loomSheet(loom)
      const ids = new Set([...drawn.conductors, ...drawn.trunks.flatMap((t) => t.shields)].map((c) => c.id))
      expect([...ids].sort()).toEqual(loom.conductors.map((c) => c.address).sort())
    }
  })

  test('merge a plug with the connector it is mated to', () => {
    const loom = looms.find((one) => one.id === 'council-pickup')
    if (!loom) throw new Error('no council-pickup')
    const titles = loomSheet(loom).blocks.flatMap((b) =>
      b.kind === 'strip' ? b.sections.map((s) => s.title) : [],
    )
    expect(titles).toContain('P2 / J2')
  })

  test('put marks where the finding is', () => {
    const loom = looms.find((one) => one.conductors.some((c) => c.from?.on === 'harness'))
    const conductor = loom?.conductors.find((c) => c.from?.on === 'harness' && c.kind === 'wire')
    if (!loom || !conductor?.from) throw new Error('no conductor')
    const flag = { number: 7, level: 'error' as const }
    const flags = new Map([
      [conductor.address, [flag]],
      [conductor.from.address, [flag]],
    ])
    const model = harnessSheet(loom, conductor.loom, { flags })
    expect(model.conductors.find((c) => c.id === conductor.address)?.flags).toEqual([flag])
    const rows = model.blocks.flatMap((b) => (b.kind === 'strip' ? b.sections.flatMap((s) => s.rows) : []))
    expect(rows.filter((row) => row.flags)).toHaveLength(1)
  })
})

describe('sizes on a line', () => {
  test.each([
    ['1.5 mm²', '1.5 (≈16)'],
    ['18 AWG', '18 AWG (0.823)'],
  ])('%s', (text, expected) => {
    const read = parseWireSize(text)
    if (!read.ok) throw new Error(read.problem)
    expect(sizeOnLine(read.value)).toBe(expected)
  })
})

test('a fuse block says at each way which fuse feeds it, and how many amps it is', () => {
  const launch = looms.find(({ id }) => id === 'harbour-launch')
  if (!launch) throw new Error('the launch is there')
  const sheet = loomSheet(launch)
  const block = sheet.blocks.find(({ id }) => id === 'fuses')
  const rows = block?.kind === 'strip' ? block.sections.flatMap((section) => section.rows) : []
  expect(rows.map(({ pin, name }) => `${pin} ${name}`)).toEqual([
    '1 FB IN',
    '1 F2 fuse 10 A',
    '2 F3 fuse 5 A',
    '3 F4 fuse 7.5 A',
    '4 F5 fuse 5 A',
    '5 F6 fuse 3 A',
  ])
})
