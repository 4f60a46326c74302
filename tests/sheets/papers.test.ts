import { describe, expect, test } from 'vitest'
import { billOfMaterials } from '../../src/sheets/bill-of-materials.ts'
import { crimpSheet } from '../../src/sheets/crimp-sheet.ts'
import { cutList } from '../../src/sheets/cut-list.ts'
import { labelList } from '../../src/sheets/label-list.ts'
import { papersOf, pinoutsOf } from '../../src/sheets/papers.ts'
import { pinoutTable } from '../../src/sheets/pinout-table.ts'
import { ringOut } from '../../src/sheets/ring-out.ts'
import { allRows, type Sheet } from '../../src/sheets/sheet.ts'
import { firstUse, sample, vanRadio } from './sample-shop.ts'

const { loom, solution } = sample()
const use = firstUse(loom)
const cells = (sheet: Sheet) => allRows(sheet).map((row) => row.cells)
const half = (id: string) => {
  const found = use.halves.find((one) => one.id === id)
  if (!found) throw new Error(`no half ${id}`)
  return found
}

describe('cut list', () => {
  const sheet = cutList(loom, use)

  test('runs by area, then colour in the order of IEC 60757, longest first, cables last', () => {
    expect(cells(sheet).map((row) => row.wire)).toEqual([
      'B1',
      'B2',
      'B3',
      'B4',
      'B5',
      'B6',
      'A4',
      'A3',
      'A10',
      'A2',
      'A1',
      'W1',
    ])
  })

  test('gives length with tolerance, both ends with their strip, and what the screen needs', () => {
    const row = cells(sheet).find((one) => one.wire === 'A3')
    expect(row).toMatchObject({
      length: '3 m',
      tolerance: '−0 / +150',
      endA: 'P2-1',
      endB: 'S1-1',
      stripA: '4',
    })
    expect(cells(sheet).find((one) => one.wire === 'W1')?.screen).toContain('A lands on P2-shell, B cut back')
  })

  test('the reel line counts scrap', () => {
    // 5.2 m + 0.4 m of red 6 mm², 5 % more, rounded up to 0.1 m.
    expect(sheet.foot.find((line) => line.includes('RD red'))).toContain('5.6 m + 5 % scrap = 5.9 m')
  })
})

describe('pinout table', () => {
  test('shows every pin of the family, unused ones too, in order, with its view', () => {
    const sheet = pinoutTable(loom, half('P2'))
    expect(cells(sheet).map((row) => row.pin)).toEqual(['1', '2', '3', '4', '5', '6', '7', '8', '9', 'shell'])
    expect(sheet.head.view).toMatch(/mating face and wire-entry face/)
    expect(cells(sheet)[5]).toMatchObject({ pin: '6', wire: '', contact: 'none' })
  })

  test('says where a pin goes, through fuses', () => {
    const sheet = pinoutTable(loom, half('P1'))
    expect(cells(sheet)[0]?.goes).toBe('R1 via A2 · F1 · A1')
    expect(cells(sheet)[0]).toMatchObject({ signal: 'DC+', type: 'supply', colour: 'RD red' })
  })

  test('single ends share one sheet', () => {
    expect(pinoutsOf(loom, use).map((one) => one.id)).toEqual([
      'pinout-P1',
      'pinout-P2',
      'pinout-S1',
      'pinout-X1',
      'single-ends',
    ])
  })
})

describe('crimp sheet', () => {
  test('groups by tool set-up and numbers the insertion of each plug through', () => {
    const sheet = crimpSheet(loom, use)
    const sub = sheet.sections.find((section) => section.rows.some((row) => row.cells.half === 'P2'))
    const rows = sub?.rows.filter((row) => row.cells.half === 'P2').map((row) => row.cells) ?? []
    expect(rows.map((row) => Number(row.insert))).toEqual(
      [...rows.map((row) => Number(row.insert))].sort((a, b) => a - b),
    )
    expect(rows[0]).toMatchObject({ cavity: '3', insert: '1' })
    expect(sub?.title).toMatch(/^Crimp: /)
  })

  test('names the wires that share a contact', () => {
    const shared = cells(crimpSheet(loom, use)).filter((row) => row.half === 'P2' && row.cavity === '3')
    expect(shared.map((row) => row.wire)).toEqual(['B1 (with C1)', 'C1 (with B1)'])
  })
})

describe('ring-out sheet', () => {
  const sheet = ringOut(loom, use, solution)
  const section = (title: string) =>
    sheet.sections.find((one) => one.title === title)?.rows.map((row) => row.cells) ?? []

  test('predicts each way from the solved resistances, fuses counted', () => {
    const row = section('Continuity').find((one) => one.a === 'R1' && one.b === 'P1-1')
    const ids = ['main.A1', 'main.A2', 'main.F1']
    const sum = loom.links
      .filter((link) => ids.includes(link.conductor?.address ?? link.component?.address ?? ''))
      .reduce((total, link) => total + (solution.linkOhms[link.index]?.ohms ?? Number.NaN), 0)
    expect(row?.through).toBe('A1 · F1 · A2')
    expect(Number.parseFloat(row?.nominal ?? '')).toBeCloseTo(sum * 1000, 1)
    expect(Number.parseFloat((row?.expect ?? '').replace('at most ', ''))).toBeCloseTo(sum * 1200, 1)
  })

  test('both terminators of the bus together, and the diode both ways', () => {
    const parts = section('Parts in the run')
    expect(
      parts.filter((row) => row.through === 'RT1' || row.through === 'RT2').map((row) => row.nominal),
    ).toEqual(['60 Ω, parts in parallel counted', '60 Ω, parts in parallel counted'])
    expect(parts.filter((row) => row.through === 'D1').map((row) => row.expect)).toEqual([
      expect.stringContaining('conducts'),
      expect.stringContaining('open'),
    ])
  })

  test('asks for opens, but not across a component', () => {
    const opens = section('Must be open')
    expect(opens.some((row) => row.a === 'P2-1' && row.b === 'P2-2')).toBe(true)
    expect(opens.some((row) => row.a === 'P2-3' && row.b === 'P2-4')).toBe(false)
    const supply = opens.filter((row) => row.a === 'R1').map((row) => row.b)
    expect(supply).toContain('R2')
    // The bus nets are met at P2, so X1 only has the diode's far side left.
    expect(supply).toContain('P2-1, 2, 3, 4, 5, shell')
    expect(opens.some((row) => row.a === 'P2-shell' && /P2-3, P2-4/.test(row.b ?? ''))).toBe(true)
    expect(opens.some((row) => /^P2-6, 7, 8, 9$/.test(row.a ?? ''))).toBe(true)
  })

  test('pairs are looked at, because DC does not show a split one', () => {
    expect(sheet.sections.at(-1)?.note).toMatch(/DC will not show a split pair/)
    expect(section('Pairs and screens: look')[0]).toMatchObject({ a: 'P2-3 and P2-4', b: 'X1-3 and X1-4' })
  })

  test('steps are numbered through', () => {
    expect(cells(sheet).map((row) => row.step)).toEqual(cells(sheet).map((_, index) => String(index + 1)))
  })
})

describe('bill of materials', () => {
  const sheet = billOfMaterials(loom, use)

  test('counts contacts from the landings, with scrap', () => {
    const contacts =
      sheet.sections.find((section) => section.title === 'Contacts')?.rows.map((row) => row.cells) ?? []
    // P2: pins 1 to 5; X1: 3, 4, 5. Two wires in one cavity still take one contact.
    expect(contacts.find((row) => row.part === 'dsub-crimp-20')).toMatchObject({
      need: '8',
      order: '9',
      where: 'P2, X1',
    })
  })

  test('lists the fuse with its holder, and metres of wire', () => {
    expect(cells(sheet).find((row) => row.part === 'blade-20')?.need).toBe('1')
    expect(cells(sheet).find((row) => row.part === 'fuse holder')?.need).toBe('1')
    expect(cells(sheet).find((row) => /6 mm².*RD red/.test(row.title ?? ''))?.need).toBe('5.6 m')
  })
})

describe('label list', () => {
  test('labels both ends, each end first with its own place', () => {
    const rows = cells(labelList(loom, use)).filter((row) => row.id === 'A3')
    expect(rows.map((row) => row.line2)).toEqual(['P2-1 → S1-1', 'S1-1 → P2-1'])
    expect(rows.every((row) => row.revision === 'B' && Number(row.height) >= 2.5)).toBe(true)
  })

  test('marks plugs with the same words', () => {
    const [harness] = vanRadio.harnesses ?? []
    if (!harness) throw new Error('no harness')
    const connectors = harness.connectors.map((one) =>
      one.id === 'X1' ? { ...one, label: 'Radio ACC' } : one,
    )
    const twin = sample({ ...vanRadio, harnesses: [{ ...harness, connectors }] })
    const sheet = labelList(twin.loom, firstUse(twin.loom))
    const marked = allRows(sheet).filter((row) => row.attention)
    expect(marked.map((row) => row.cells.id)).toEqual(['P2', 'X1'])
    expect(marked[0]?.cells.note).toContain('NOT UNIQUE')
    expect(allRows(labelList(loom, use)).some((row) => row.attention)).toBe(false)
  })
})

test('every paper of one issue carries one match code, and a changed fact changes it', () => {
  const codes = (one: typeof loom) =>
    new Set(papersOf(one, firstUse(one), undefined).map((sheet) => sheet.head.match))
  expect(codes(loom).size).toBe(1)
  const [harness] = vanRadio.harnesses ?? []
  if (!harness) throw new Error('no harness')
  const wires = (harness.wires ?? []).map((wire) =>
    wire.id === 'A1' ? { ...wire, length: '0.5 m' as const } : wire,
  )
  const changed = sample({ ...vanRadio, harnesses: [{ ...harness, wires }] }).loom
  expect([...codes(changed)]).not.toEqual([...codes(loom)])
  expect([...codes(sample().loom)]).toEqual([...codes(loom)])
})
