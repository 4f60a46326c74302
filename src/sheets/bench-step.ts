/** What a step asks of the person: to do it, to read a force, to read a resistance, or to look and judge. */
export type BenchAsk = 'done' | 'newtons' | 'ohms' | 'look'

/** Where to look on one half: its face is drawn and these pins are marked. */
export interface BenchSpot {
  readonly half: string
  readonly pins: readonly string[]
}

export interface BenchFact {
  readonly name: string
  readonly text: string
  /** Read at arm's length. */
  readonly big?: boolean
}

/** One thing to do at the bench. */
export interface BenchStep {
  /** The same as long as the step says the same, whatever stands before it. */
  readonly id: string
  readonly stage: 'make' | 'test'
  readonly section: string
  /** `Fit A2 into P1-1`. */
  readonly what: string
  readonly facts: readonly BenchFact[]
  readonly ask: BenchAsk
  /** Bounds of a good reading in N or Ω, as `ask` says; a missing bound is none. */
  readonly min?: number
  readonly max?: number
  /** Where the wire goes, or probe A. */
  readonly a: readonly BenchSpot[]
  /** What probe B touches. */
  readonly b: readonly BenchSpot[]
}

/** A step before it is told apart from the others. */
export type StepDraft = Omit<BenchStep, 'id'>
