import type { Finding } from '../base/finding.ts'
import type { Pointer } from '../base/place.ts'
import { below } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { Policy } from '../describe/policy.ts'

type Severities = NonNullable<Policy['rules']>

/** Findings at the severities a shop has chosen; those switched off are dropped. */
export function applyLevels(findings: readonly Finding[], severities: Severities = {}): Finding[] {
  return findings.flatMap((finding) => {
    const level = Object.hasOwn(severities, finding.rule) ? severities[finding.rule] : undefined
    if (level === 'off') return []
    return [level === undefined ? finding : { ...finding, level }]
  })
}

/** Severities for rules that are not there: a misspelt name would change nothing, silently. */
export function unknownRules(
  severities: Severities = {},
  known: ReadonlySet<string>,
  policyAt: Pointer,
): Finding[] {
  return Object.keys(severities)
    .filter((name) => !known.has(name))
    .map((name) => ({
      rule: 'rule-unknown',
      level: 'warning',
      subject: `policy.rules.${name}`,
      what: `The shop policy sets a severity for ${quote(name)}, and there is no such rule`,
      why: 'The severity has no effect.',
      fix: `Correct or delete the name.${didYouMean(name, known)}`,
      assumed: [],
      facts: { rule: { value: name } },
      at: below(policyAt, 'rules', name),
      notes: [],
      marks: [],
    }))
}
