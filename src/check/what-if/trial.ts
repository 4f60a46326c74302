import type { Level } from '../../base/finding.ts'

/** What is done to the loom on paper. */
export type TrialKind = 'swap' | 'ground' | 'unplug' | 'short' | 'isolator'

/** One thing tried out, and what comes of it. */
export interface Trial {
  readonly kind: TrialKind
  /** Address of what is swapped, opened, pulled or shorted. */
  readonly subject: string
  /** Others that fare just the same. */
  readonly alike: readonly string[]
  /** "main.P4 and cord.C1 swapped". */
  readonly tried: string
  readonly outcome: string
  /** How bad it is; `fine` when nothing comes of it that should not. */
  readonly level: Level | 'fine'
  /** The worst figure, with its limit where there is one. */
  readonly figure: string
  /** Addresses along the way of the harm, in order. */
  readonly path: readonly string[]
}

/** Trials of one kind, worst first, and how many more were not tried since the loom is too large. */
export interface TrialSet {
  readonly kind: TrialKind
  readonly trials: readonly Trial[]
  /** How many were tried; lines that came to the same are told once. */
  readonly count: number
  readonly left: number
}
