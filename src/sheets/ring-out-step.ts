import type { Terminal } from '../resolve/loom.ts'
import type { Row } from './sheet.ts'

/** Ohms between which a reading must lie; a missing bound is none. Without any limit the step is judged by eye. */
export interface OhmsLimit {
  readonly minOhms?: number
  readonly maxOhms?: number
}

/** One measurement of a ring-out. */
export interface Step {
  readonly a: string
  readonly b: string
  readonly through?: string
  readonly expect: string
  /** The figure the expectation comes from. */
  readonly nominal?: string
  readonly address?: string
  readonly attention?: boolean
  /** Where probe A touches, and everything that probe B touches in turn. */
  readonly probes?: { readonly a: readonly Terminal[]; readonly b: readonly Terminal[] }
  readonly limit?: OhmsLimit
}

/** Steps as rows, numbered on from `first`. */
export function stepRows(steps: readonly Step[], first: number): Row[] {
  return steps.map(({ address, attention, probes, limit, ...step }, index) => ({
    address,
    attention,
    cells: { through: '', nominal: '', ...step, step: String(first + index) },
  }))
}
