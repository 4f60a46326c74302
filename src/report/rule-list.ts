import type { Level } from '../base/finding.ts'
import { standardRules } from '../check/standard-rules.ts'
import { resolveRules } from '../resolve/resolve-rules.ts'
import type { RuleInfo } from './check-report.ts'
import { ownRules } from './own-rules.ts'

/** A rule as `explain`, the pages and code review show it: everything but its code. */
export interface ExplainedRule extends RuleInfo {
  readonly family: string
  readonly needs: string
}

type Explained = Omit<ExplainedRule, 'level'> & { readonly level: Level }

const plain = (rule: Explained): ExplainedRule => {
  const { id, title, family, level, reason, remedy, needs, sources, covers = [], asks } = rule
  const told = { id, title, family, level, reason, remedy, needs, sources, covers }
  return asks === undefined ? told : { ...told, asks }
}

/** Everything a finding can be called: the rules of the trade, those of names, and those of the run itself. */
export const ruleList: readonly ExplainedRule[] = [...standardRules, ...resolveRules, ...ownRules].map(plain)
