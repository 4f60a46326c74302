import { FAULT_GROUPS } from '../check/catalogue.ts'
import { countCoverage, coverageLine, type FaultCoverage } from './catalogue-coverage.ts'
import { LEVEL_WORD } from './check-report.ts'
import { hang } from './text-layout.ts'

const lookers = ({ by, reason }: FaultCoverage): string =>
  by.length === 0
    ? `not covered: ${reason ?? 'no reason given'}`
    : by.map(({ id, how }) => (how === 'question' ? `${id} (asked)` : id)).join(', ')

function rowLines(row: FaultCoverage, width: number): string[] {
  const { fault } = row
  const head = `  ${fault.id.padEnd(5)}${LEVEL_WORD[fault.level].padEnd(9)}`
  return [...hang(head, fault.title, width), ...hang(' '.repeat(head.length), lookers(row), width)]
}

/** The coverage table for a terminal: every fault, its cost, and what looks for it. */
export function coverageText(rows: readonly FaultCoverage[], width: number): string {
  const groups = Object.entries(FAULT_GROUPS).map(([letter, title]) => [
    title,
    ...rows.filter(({ fault }) => fault.id.startsWith(letter)).flatMap((row) => rowLines(row, width)),
    '',
  ])
  return `${[...groups.flat(), `${coverageLine(countCoverage(rows))}.`].join('\n')}\n`
}
