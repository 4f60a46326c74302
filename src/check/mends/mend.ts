import type { Edit, Finding } from '../../base/finding.ts'
import type { Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import type { RuleContext } from '../rule.ts'

/**
 * Edits of one kind, the least first: the smallest size, then the next. They are tried in order, up to the first that cures the
 * finding, or that brings a new one.
 */
export type Ladder = readonly Edit[]

/** One way to cure findings of some rules. Proposing is cheap and may be wrong; what is offered has been tried. */
export interface Mend {
  readonly id: string
  /** Rules whose findings it can cure. */
  readonly rules: readonly string[]
  /** Ladders are climbed side by side, a step of each in turn. Nothing where a person has to choose. */
  readonly propose: (finding: Finding, context: RuleContext) => readonly Ladder[]
}

/** The address of a finding's subject inside its loom: subjects carry the name of the job before it. */
export const localSubject = ({ subject }: Finding, { id }: Loom): string =>
  subject.startsWith(`${id}/`) ? subject.slice(id.length + 1) : subject

/** Conductors a finding marks, in its order. */
export const markedConductors = ({ marks }: Finding, { conductorAt }: Loom): readonly Conductor[] =>
  marks.flatMap((address) => conductorAt.get(address) ?? [])

/** A pin named by a fact of a finding. */
export function pinInFact(finding: Finding, fact: string, { terminalAt }: Loom): Terminal | undefined {
  const value = finding.facts[fact]?.value
  return typeof value === 'string' ? terminalAt.get(value) : undefined
}
