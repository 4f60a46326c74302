import type { Fact, Finding, Level } from '../base/finding.ts'
import type { Pointer } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { type ResolveRuleId, resolveRules } from './resolve-rules.ts'

/** A finding of the resolver; what is left out comes from its rule. */
export interface Problem {
  readonly rule: ResolveRuleId
  readonly subject: string
  readonly what: string
  readonly why?: string
  readonly fix: string
  readonly at: Pointer
  readonly level?: Level
  readonly facts?: Readonly<Record<string, Fact>>
  readonly notes?: Finding['notes']
  readonly marks?: readonly string[]
}

export type Report = (problem: Problem) => void

/** Fills in a finding from its rule. */
export function asFinding(problem: Problem): Finding {
  const rule = resolveRules.find((entry) => entry.id === problem.rule)
  return {
    rule: problem.rule,
    level: problem.level ?? rule?.level ?? 'stop',
    subject: problem.subject,
    what: problem.what,
    why: problem.why ?? rule?.reason ?? '',
    fix: problem.fix,
    assumed: [],
    facts: problem.facts ?? {},
    at: problem.at,
    notes: problem.notes ?? [],
    marks: problem.marks ?? [],
  }
}

/** A key under which the same fault of a harness or equipment, met in several installations, is one finding. */
export function sameFault(finding: Finding): string {
  return `${finding.rule}\n${finding.subject}\n${finding.what}\n${finding.at.doc}\n${finding.at.path.join('\n')}`
}

const MOST_NAMES = 24

/** “1”, “2” … as a short list for a sentence; long lists are cut with their count. */
export function listNames(names: Iterable<string>): string {
  const all = [...names]
  if (all.length === 0) return 'none'
  const shown = all.slice(0, MOST_NAMES).map((name) => (name.length > 24 ? quote(name) : name))
  return shown.join(', ') + (all.length > MOST_NAMES ? ` … (${all.length} in all)` : '')
}
