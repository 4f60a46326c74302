import type { Level } from '../base/finding.ts'
import type { Measure } from './measures.ts'

/** Part of the commissioning record a limit stands in, in the order in which the work is done. */
export const GROUP_IDS = ['bench', 'supply', 'rf', 'audio', 'data', 'logic', 'asset'] as const
export type GroupId = (typeof GROUP_IDS)[number]

/** What every line of the record says. */
interface Line {
  /** Address, quantity and state, such as `radio.J1.1/volts/transmit`: stable when lines move. */
  readonly id: string
  readonly group: GroupId
  readonly what: string
  /** Where the meter goes and what is switched on, or what to look at. */
  readonly how: string
  /** How the limit was worked out, with its figures. */
  readonly sum: string
  /** Standard, formula or statement the limit comes from. */
  readonly source: string
  /** Rule that judges the same thing in the description. */
  readonly rule?: string
  /** Address of the thing, for a link. */
  readonly address?: string
  /** What a reading outside the limit comes to. */
  readonly level: Level
}

/** A figure to measure. Bounds are in the base unit of the measure, and as they are printed: a missing bound is none. */
export interface FigureLimit extends Line {
  readonly kind: 'figure'
  readonly measure: Measure
  /** Unit the paper prints and asks for, one of the measure's. */
  readonly unit: string
  readonly least?: number
  readonly most?: number
  /** What is expected when all is well. */
  readonly expected?: number
}

/** Something to look at or try: "yes" is good. */
export interface LookLimit extends Line {
  readonly kind: 'look'
}

export type Limit = FigureLimit | LookLimit

/** A limit that cannot be worked out, and the fact that would let it. */
export interface Missing {
  readonly what: string
  readonly needs: string
  readonly address?: string
}

/** Limits of one installation, and what could not be worked out. */
export interface Limits {
  readonly limits: readonly Limit[]
  readonly missing: readonly Missing[]
}

export const NO_LIMITS: Limits = { limits: [], missing: [] }
