import { type Fault, faultCatalogue } from '../check/catalogue.ts'
import { notCovered } from './not-covered.ts'
import { type ExplainedRule, ruleList } from './rule-list.ts'

/** What looks for a fault: a rule, or a question put to a person. */
export interface CoveredBy {
  readonly id: string
  readonly title: string
  readonly how: 'rule' | 'question'
}

/** One fault of the catalogue and what looks for it, or the reason why nothing does. */
export interface FaultCoverage {
  readonly fault: Fault
  readonly by: readonly CoveredBy[]
  readonly reason?: string
}

/** The catalogue held against the rules as they are: nothing is listed by hand but reasons. */
export function catalogueCoverage(rules: readonly ExplainedRule[] = ruleList): FaultCoverage[] {
  return faultCatalogue.map((fault) => {
    const by = rules
      .filter(({ covers = [] }) => covers.includes(fault.id))
      .map(({ id, title, asks }): CoveredBy => ({ id, title, how: asks === undefined ? 'rule' : 'question' }))
    const reason = Object.hasOwn(notCovered, fault.id) ? notCovered[fault.id] : undefined
    return { fault, by, ...(reason === undefined ? {} : { reason }) }
  })
}

export interface CoverageCounts {
  readonly all: number
  /** Found by a rule, alone or with a question beside it. */
  readonly ruled: number
  /** Put to a person only. */
  readonly asked: number
  readonly open: number
}

export function countCoverage(rows: readonly FaultCoverage[]): CoverageCounts {
  const ruled = rows.filter(({ by }) => by.some(({ how }) => how === 'rule')).length
  const covered = rows.filter(({ by }) => by.length > 0).length
  return { all: rows.length, ruled, asked: covered - ruled, open: rows.length - covered }
}

/** `129 faults: 121 by rules, 4 by questions, 4 not covered`. */
export const coverageLine = ({ all, ruled, asked, open }: CoverageCounts): string =>
  `${all} faults: ${ruled} by rules, ${asked} by questions, ${open} not covered`
