import type { Finding, Level, NotChecked } from '../base/finding.ts'
import type { DocumentInput } from '../describe/document.ts'
import type { Loom } from '../resolve/loom.ts'
import type { Paths } from '../solve/paths.ts'
import type { Solution } from '../solve/solution.ts'

export type Family =
  | 'pins'
  | 'mating'
  | 'crimping'
  | 'routing'
  | 'power'
  | 'switching'
  | 'audio'
  | 'grounding'
  | 'data'
  | 'papers'
  | 'place'
  | 'names'

/** What a rule sees: one resolved loom and what was computed from it. Rules never walk the graph for what `solve` already knows. */
export interface RuleContext {
  readonly loom: Loom
  readonly solution: Solution
  /** Nets, supplies and paths of the loom, worked out once for all rules. */
  readonly paths: Paths
}

/** A finding as a rule makes it; the runner adds rule, level and defaults. */
export type Report = Omit<Finding, 'rule' | 'level' | 'assumed' | 'notes' | 'marks'> &
  Partial<Pick<Finding, 'level' | 'assumed' | 'notes' | 'marks'>>

export type Outcome = { readonly finding: Report } | { readonly notChecked: Omit<NotChecked, 'rule'> }

/** One rule, one file. Its id is the file's name. */
export interface Rule {
  readonly id: string
  readonly title: string
  readonly family: Family
  readonly level: Level
  /** Faults of the trade's catalogue it finds, such as "W10". */
  readonly covers: readonly string[]
  /** Why it matters, for a person: two or three sentences. */
  readonly reason: string
  /** The usual cure. */
  readonly remedy: string
  /** What the description must say for the rule to judge. */
  readonly needs: string
  /** Standards and handbooks, or "common practice". */
  readonly sources: readonly string[]
  /** What is asked of a person, where only a look can tell: answers stand in the installation. */
  readonly asks?: string
  /** A description that trips it and one that does not: shown on the rule's page and run as its test. */
  readonly examples: { readonly trips: DocumentInput; readonly passes: DocumentInput }
  /** Descriptions of further faults it finds, by the fault of the catalogue. */
  readonly others?: readonly {
    readonly covers: string
    readonly trips: DocumentInput
    readonly passes: DocumentInput
  }[]
  readonly check: (context: RuleContext) => Iterable<Outcome>
}
