import type { Finding, NotChecked } from '../base/finding.ts'
import type { Outcome, Report, Rule, RuleContext } from './rule.ts'

/** What rules said of one loom, before policy. */
export interface RawResult {
  readonly findings: readonly Finding[]
  readonly notChecked: readonly NotChecked[]
}

/** Subjects carry the installation's name, since one shop has many with a loom called `main`; a harness on its own is named in its addresses. */
function subjectIn(context: RuleContext, address: string): string {
  const { id } = context.loom
  if (address === '' || address === id) return id
  return address.startsWith(`${id}.`) || address.startsWith(`${id}/`) ? address : `${id}/${address}`
}

function complete(rule: Rule, report: Report, context: RuleContext): Finding {
  return {
    level: rule.level,
    assumed: [],
    notes: [],
    marks: [],
    ...report,
    rule: rule.id,
    subject: subjectIn(context, report.subject),
    ...(report.cause === undefined ? {} : { cause: `${context.loom.id}/${report.cause}` }),
  }
}

function failed(rule: Rule, context: RuleContext, error: unknown): Finding {
  const { loom } = context
  return {
    rule: 'rule-failed',
    level: 'warning',
    subject: `${loom.id}/${rule.id}`,
    what: `The rule ${rule.id} broke down on ${loom.id}, so it has not judged all of it`,
    why: `The rule itself is at fault: ${error instanceof Error ? error.message : String(error)}`,
    fix: `Look at the points of “${rule.title}” by hand, and report the description that does this.`,
    assumed: [],
    facts: { rule: { value: rule.id } },
    at: loom.at,
    notes: [],
    marks: [],
  }
}

/** Runs rules on one loom. A rule that throws keeps what it had found and loses nobody else's findings. */
export function runRules(context: RuleContext, rules: readonly Rule[]): RawResult {
  const findings: Finding[] = []
  const notChecked: NotChecked[] = []
  const take = (rule: Rule, outcome: Outcome) => {
    if ('finding' in outcome) findings.push(complete(rule, outcome.finding, context))
    else {
      const { subject } = outcome.notChecked
      notChecked.push({ ...outcome.notChecked, rule: rule.id, subject: subjectIn(context, subject) })
    }
  }
  for (const rule of rules) {
    try {
      for (const outcome of rule.check(context)) take(rule, outcome)
    } catch (error) {
      findings.push(failed(rule, context, error))
    }
  }
  return { findings, notChecked }
}
