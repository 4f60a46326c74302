import type { AsBuiltStep } from '../describe/as-built.ts'
import type { Conductor, Terminal } from '../resolve/loom.ts'

/** One end of a conductor; A is where its description says it starts. */
export interface ConductorEnd {
  readonly conductor: Conductor
  readonly end: 'A' | 'B'
}

export interface BenchFact {
  readonly name: string
  readonly text: string
  /** Read at arm's length. */
  readonly big?: boolean
  /** IEC 60757 code of a wire, to show a piece of it beside the words. */
  readonly colour?: string
}

/** One thing to do at the bench. */
export interface BenchStep {
  /** The same as long as the step says the same, whatever stands before it. */
  readonly id: string
  readonly stage: AsBuiltStep['stage']
  /** A tool set-up, a connector, a part of the ring-out. */
  readonly section: string
  /** One line on how to work through the section. */
  readonly note?: string
  /** `Crimp A02, end B`. */
  readonly what: string
  readonly facts: readonly BenchFact[]
  readonly ask: AsBuiltStep['ask']
  /** Bounds of a good reading, in N for a force and Ω for a resistance; a missing bound is none. */
  readonly min?: number
  readonly max?: number
  /** Where the wire goes, or what probe A touches. */
  readonly a: readonly Terminal[]
  /** What probe B touches, each in turn. */
  readonly b: readonly Terminal[]
  /** Conductor ends that are joined to metal in this step. */
  readonly joins: readonly ConductorEnd[]
  /** Cavities that this step fills, plugs or leaves empty on purpose. */
  readonly settles: readonly Terminal[]
}

/** A step before it is told apart from the others. */
export type StepDraft = Omit<BenchStep, 'id' | 'a' | 'b' | 'joins' | 'settles'> &
  Partial<Pick<BenchStep, 'a' | 'b' | 'joins' | 'settles'>>

/** Facts that say something. */
export const said = (facts: readonly BenchFact[]): BenchFact[] => facts.filter(({ text }) => text !== '')

/** Names as people say them: `A1`, `A1 and A2`, `A1, A2 and A3`. */
export function listed(names: readonly string[]): string {
  const last = names.at(-1) ?? ''
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`
}
