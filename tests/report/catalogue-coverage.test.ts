import { expect, test } from 'vitest'
import { FAULT_GROUPS, faultCatalogue } from '../../src/check/catalogue.ts'
import { catalogueCoverage, countCoverage, coverageLine } from '../../src/report/catalogue-coverage.ts'
import { coverageText } from '../../src/report/coverage-text.ts'
import { notCovered } from '../../src/report/not-covered.ts'
import { ruleList } from '../../src/report/rule-list.ts'
import { cells } from '../../src/report/text-layout.ts'

const rows = catalogueCoverage()

test('the catalogue holds 129 faults, each id once and in a group', () => {
  expect(faultCatalogue).toHaveLength(129)
  expect(new Set(faultCatalogue.map(({ id }) => id)).size).toBe(129)
  expect(faultCatalogue.filter(({ id }) => !(id[0] && id[0] in FAULT_GROUPS))).toEqual([])
})

test('every fault is ruled, asked, or has its reason', () => {
  const silent = rows.filter(({ by, reason }) => by.length === 0 && !reason)
  expect(silent.map(({ fault }) => fault.id)).toEqual([])
})

test('no reason stands for a fault that something looks for, nor for one that does not exist', () => {
  const outlived = rows.filter(({ by, reason }) => by.length > 0 && reason !== undefined)
  expect(outlived.map(({ fault }) => fault.id)).toEqual([])
  const ids = new Set(faultCatalogue.map(({ id }) => id))
  expect(Object.keys(notCovered).filter((id) => !ids.has(id))).toEqual([])
})

test('no rule claims a fault that is not in the catalogue', () => {
  const ids = new Set(faultCatalogue.map(({ id }) => id))
  const wild = ruleList.flatMap(({ id, covers = [] }) =>
    covers.filter((one) => !ids.has(one)).map((one) => `${id} ${one}`),
  )
  expect(wild).toEqual([])
})

test('findings made while names are looked up count too', () => {
  const by = (id: string) => rows.find(({ fault }) => fault.id === id)?.by.map((one) => one.id)
  expect(by('P3')).toEqual(['pin-exists'])
  expect(by('P10')).toEqual(['core-used-once'])
  expect(by('X6')).toContain('waiver-stale')
})

test('a rule taken away leaves its fault bare', () => {
  const without = catalogueCoverage(ruleList.filter(({ id }) => id !== 'pair-legs-together'))
  expect(without.find(({ fault }) => fault.id === 'A14')?.by).toEqual([])
  expect(countCoverage(without).open).toBe(countCoverage(rows).open + 1)
})

test.each([60, 100])('the table for a terminal of %i cells has every fault and no line too long', (width) => {
  const text = coverageText(rows, width)
  for (const { fault } of rows) expect(text).toMatch(new RegExp(`^  ${fault.id} `, 'm'))
  expect(text.split('\n').filter((line) => cells(line) > width)).toEqual([])
  expect(text).toContain(coverageLine(countCoverage(rows)))
})
