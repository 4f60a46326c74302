import { describe, expect, test } from 'vitest'
import type { Loom, LoomUse } from '../../src/resolve/loom.ts'
import { auditIssue } from '../../src/sheets/audit-issue.ts'
import { auditPapers } from '../../src/sheets/audit-papers.ts'
import { auditPickList, type PickPapers } from '../../src/sheets/audit-pick-list.ts'
import { auditRingOut } from '../../src/sheets/audit-ring-out.ts'
import { billOfMaterials } from '../../src/sheets/bill-of-materials.ts'
import { crimpSheet } from '../../src/sheets/crimp-sheet.ts'
import { cutList } from '../../src/sheets/cut-list.ts'
import { matchCodeOf } from '../../src/sheets/match-code.ts'
import { ringOutSteps } from '../../src/sheets/ring-out.ts'
import type { Step } from '../../src/sheets/ring-out-step.ts'
import type { Row, Sheet } from '../../src/sheets/sheet.ts'
import { job, jobIds } from '../demos/demo-shop.ts'

const pickup = job('council-pickup')
const main = pickup.loom.looms.find(({ id }) => id === 'main') as LoomUse
const papers = (loom: Loom, use: LoomUse): PickPapers => ({
  bill: billOfMaterials(loom, use),
  crimps: crimpSheet(loom, use),
  cuts: cutList(loom, use),
})
const whats = (found: readonly { readonly what: string }[]) => found.map(({ what }) => what)

test.each(jobIds)('the papers of %s hold together', (id) => {
  const { loom, solution } = job(id)
  expect(whats(auditPapers(loom, solution))).toEqual([])
})

const edited = (sheet: Sheet, edit: (rows: readonly Row[], title: string) => readonly Row[]): Sheet => ({
  ...sheet,
  sections: sheet.sections.map((section) => ({ ...section, rows: edit(section.rows, section.title ?? '') })),
})

describe('a broken bill of materials is told', () => {
  const whole = papers(pickup.loom, main)

  test.each(whole.bill.sections.map(({ title = '' }) => title))('a row of %s missing', (title) => {
    const bill = edited(whole.bill, (rows, own) => (own === title ? rows.slice(1) : rows))
    expect(auditPickList(pickup.loom, main, { ...whole, bill }).length).toBeGreaterThan(0)
  })

  test.each(['Connectors', 'Contacts', 'Fuses and parts in the run'])('one too few of %s', (title) => {
    const fewer = (row: Row, i: number): Row =>
      i === 0 ? { ...row, cells: { ...row.cells, need: String(Number(row.cells.need) - 1) } } : row
    const bill = edited(whole.bill, (rows, own) => (own === title ? rows.map(fewer) : rows))
    const found = auditPickList(pickup.loom, main, { ...whole, bill })
    expect(found).toHaveLength(1)
    expect(found[0]?.rule).toBe('pick-list-complete')
  })

  test('a contact crimped that the bill does not know, and a wire cut that it does not count', () => {
    const crimps = edited(whole.crimps, (rows, title) =>
      title === whole.crimps.sections[0]?.title ? rows.slice(1) : rows,
    )
    expect(auditPickList(pickup.loom, main, { ...whole, crimps }).length).toBe(1)
    const cuts = edited(whole.cuts, (rows, title) =>
      title === whole.cuts.sections[0]?.title ? rows.slice(1) : rows,
    )
    expect(auditPickList(pickup.loom, main, { ...whole, cuts }).length).toBe(1)
  })
})

describe('a ring-out with a step taken out is told', () => {
  const steps = (use: LoomUse): Step[] =>
    ringOutSteps(pickup.loom, use, pickup.solution).flatMap((group) => group.steps)
  const missed = (use: LoomUse, wanted: (step: Step) => boolean): string[] =>
    steps(use).flatMap((step, index) => {
      if (!wanted(step)) return []
      const left = steps(use).filter((_, i) => i !== index)
      return auditRingOut(pickup.loom, use, left).length > 0
        ? []
        : [`${step.a} to ${step.b}: ${step.through}`]
    })

  test('every continuity step is needed', () => {
    const closed = ({ nominal, limit }: Step) =>
      nominal !== undefined && limit?.maxOhms !== undefined && limit.minOhms === undefined
    expect(steps(main).filter(closed).length).toBeGreaterThan(30)
    expect(missed(main, closed)).toEqual([])
  })

  test('every step between neighbours is needed', () => {
    const neighbours = ({ through }: Step) => through === 'neighbours on the face'
    expect(steps(main).filter(neighbours).length).toBeGreaterThan(5)
    // The step of the screen to its core holds this pair apart as well.
    expect(missed(main, neighbours)).toEqual(['P5-centre to P5-shield: neighbours on the face'])
  })

  test('every screen has to be looked at', () => {
    const screens = ({ through }: Step) => /^screen of \w+$/.test(through ?? '')
    expect(steps(main).filter(screens).length).toBeGreaterThan(0)
    expect(missed(main, screens)).toEqual([])
  })

  test('an empty sheet misses nets, screens and pairs', () => {
    const found = whats(auditRingOut(pickup.loom, main, []))
    for (const text of [/no step rings/, /no step looks at the screen/, /no step holds/])
      expect(found.some((what) => text.test(what))).toBe(true)
  })
})

describe('a description edited after issue', () => {
  const withCode = (match: string): Loom =>
    ({ ...pickup.loom, source: { ...pickup.loom.source, match } }) as Loom
  const now = matchCodeOf(pickup.loom)

  test('is told by its match code; the code itself changes nothing', () => {
    expect(matchCodeOf(withCode('7QK2-M9XD'))).toBe(now)
    expect(auditIssue(withCode(now))).toEqual([])
    const found = auditIssue(withCode('7QK2-M9XD'))
    expect(found.map(({ rule, what }) => [rule, what])).toEqual([
      [
        'issued-paper-unchanged',
        `council-pickup was issued under the match code 7QK2-M9XD, and its papers now print ${now}`,
      ],
    ])
  })
})
