import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cellOf, type LabelStock, PAPER_MM } from '../../src/describe/label-stock.ts'
import { policy } from '../../src/describe/policy.ts'
import { textWidth } from '../../src/draw/text-width.ts'
import {
  labelCsv,
  labelSheet,
  MIN_MODULE_MM,
  PLAIN_STOCK,
  TEXT_SIZE_MM,
} from '../../src/sheets/label-sheet.ts'
import { labelsOf } from '../../src/sheets/labels.ts'
import { qrModules, qrSide } from '../../src/sheets/qr.ts'
import { readQr } from '../setup/read-qr.ts'
import { firstUse, sample, vanRadio } from './sample-shop.ts'

const { loom } = sample()
const use = firstUse(loom)
const labels = labelsOf(loom, use)
const CODE = 'https://wiring.example.org/wiki/harness/van.html'

const withHarness = (change: object, decided: object = {}) => {
  const [harness] = vanRadio.harnesses ?? []
  if (!harness) throw new Error('no harness')
  const data = {
    ...vanRadio,
    policy: { ...vanRadio.policy, ...decided },
    harnesses: [{ ...harness, ...change }],
  }
  const made = sample(data as typeof vanRadio).loom
  return labelsOf(made, firstUse(made))
}

describe('label texts', () => {
  test('every wire and cable has one at each end, every plug and the loom itself has one', () => {
    const count = (id: string) => labels.filter((label) => label.id === id).length
    for (const wire of loom.conductors.filter((one) => one.loom === use && one.kind === 'wire'))
      expect(count(wire.id), wire.id).toBe(2)
    for (const cable of use.cables) expect(count(cable.id), cable.id).toBe(2)
    for (const half of use.halves) expect(count(half.id), half.id).toBe(1)
    expect(labels[0]?.text.text).toMatch(/^van \| .* \| rev B, match \w{4}-\w{4}$/)
  })

  test('what is too long for a line is marked with its length and the limit', () => {
    const long = withHarness({}, { labels: { longest: 8 } })
    const [marked] = long.filter(({ problems }) =>
      problems.some((one) => /^TOO LONG: \d+ characters where 8 fit$/.test(one)),
    )
    expect(marked).toBeDefined()
    expect(labels.flatMap(({ problems }) => problems)).toEqual([])
  })

  test('a sleeve is wide enough for its wire and carries one line only', () => {
    const sleeves = withHarness({}, { labels: { wires: 'heat-shrink' } }).filter(
      ({ kind }) => kind === 'heat-shrink',
    )
    expect(sleeves.length).toBeGreaterThan(3)
    for (const { kindText } of sleeves) expect(kindText).toMatch(/on before the contact$/)
  })
})

describe('label sheets', () => {
  const cells = (stock: LabelStock) => labelSheet(labels, stock, 'B', CODE)

  test.each(PLAIN_STOCK.map((stock) => [stock.id, stock] as const))(
    '%s: nothing is printed past its label or the sheet',
    (_, stock) => {
      const sheet = cells(stock)
      const paper = PAPER_MM[stock.paper]
      const size = cellOf(stock)
      for (const page of sheet.pages)
        for (const { leftMm, topMm, first, lines, qr } of page) {
          expect(leftMm + size.widthMm).toBeLessThanOrEqual(paper.widthMm - stock.left + 1e-9)
          expect(topMm + size.heightMm).toBeLessThanOrEqual(paper.heightMm - stock.top + 1e-9)
          const room = size.widthMm - 2.4 - (qr ? sheet.qrMm : 0)
          for (const line of lines) expect(textWidth(line, TEXT_SIZE_MM), line).toBeLessThanOrEqual(room)
          expect(textWidth(first, TEXT_SIZE_MM, 'bold')).toBeLessThanOrEqual(room)
        }
    },
  )

  test('each text is on the sheets as often as it is to be printed, and whole', () => {
    for (const stock of PLAIN_STOCK) {
      const all = cells(stock).pages.flat()
      expect(all.length).toBe(labels.reduce((sum, { copies }) => sum + copies, 0))
      for (const { label, lines, fits } of all) {
        expect(fits, label.id).toBe(true)
        expect(lines.join(' ').replace(/\s+/g, ' ')).toBe(
          [label.text.line1, label.text.line2].filter(Boolean).join(' ').replace(/\s+/g, ' '),
        )
      }
    }
  })

  test('words that do not fit leave the label blank, never cut short', () => {
    const small: LabelStock = { id: 'small', paper: 'a4', rows: 25, columns: 10, top: 10, left: 10 }
    const sheet = cells(small)
    expect(sheet.qrMm).toBe(0)
    const tight = sheet.pages.flat().filter(({ fits }) => !fits)
    expect(tight.length).toBeGreaterThan(0)
    for (const cell of tight) expect(cell.lines).toEqual([])
    for (const cell of sheet.pages.flat()) expect(cell.lines.some((line) => line.includes('…'))).toBe(false)
  })

  test('a code is printed no smaller than a phone reads', () => {
    for (const stock of PLAIN_STOCK) {
      const sheet = cells(stock)
      expect(sheet.moduleMm).toBeGreaterThanOrEqual(MIN_MODULE_MM)
      expect(sheet.qrMm / qrSide(qrModules(CODE) ?? [])).toBeCloseTo(sheet.moduleMm, 9)
    }
  })

  test('stock that cannot be is refused with its figures', () => {
    const read = policy.safeParse({
      labels: { stock: [{ id: 'x', paper: 'a4', rows: 60, columns: 2, top: '13 mm', left: '8 mm' }] },
    })
    expect(read.error?.issues[0]?.message).toMatch(/97 × 4.5 mm, and one has to be at least 12 × 6 mm/)
    expect(policy.safeParse({ site: 'javascript:alert(1)' }).success).toBe(false)
    expect(policy.safeParse({ site: 'https://wiring.example.org/wiki' }).success).toBe(true)
  })
})

describe('QR codes (ISO/IEC 18004)', () => {
  test('any text reads back from the modules', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 }), (text) => {
        const modules = qrModules(text)
        if (!modules || modules.length > 53) return
        expect(readQr(modules)).toBe(text)
      }),
    )
    for (const text of [CODE, 'TS-1 rev B match HHBQ-6RD1', 'Größe 🚒 مرحبا'])
      expect(readQr(qrModules(text) ?? [])).toBe(text)
  })
})

describe('CSV for a label printer', () => {
  const issue = { harness: 'van', revision: 'B', match: 'AAAA-BBBB', code: CODE }

  test('one record a label, with what is printed and which issue it is of', () => {
    const rows = parse(labelCsv(labels, issue), { columns: true, record_delimiter: '\r\n' }) as Record<
      string,
      string
    >[]
    expect(rows.length).toBe(labels.length)
    rows.forEach((row, index) => {
      const label = labels[index]
      expect([row.Number, row['Line 1'], row['Line 2'], row['Match code'], row.Revision]).toEqual([
        label?.id,
        label?.text.line1,
        label?.text.line2,
        'AAAA-BBBB',
        'B',
      ])
      expect(row.QR).toBe(label?.kind === 'wrap' ? '' : CODE)
    })
  })

  test('no field is run as a formula by a spreadsheet', () => {
    const wires = (vanRadio.harnesses?.[0]?.wires ?? []).map((wire) => ({ ...wire, label: '=cmd|calc!A1' }))
    const spiteful = labelCsv(withHarness({ wires, title: '+SUM(A1)' }), { ...issue, harness: '@x' })
    const fields = (parse(spiteful, { record_delimiter: '\r\n' }) as string[][]).flat()
    expect(fields.filter((field) => /^\s*[=+@]/.test(field))).toEqual([])
    expect(fields.some((field) => field.startsWith("'=cmd"))).toBe(true)
  })
})
