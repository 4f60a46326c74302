import type { Row } from './sheet.ts'

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
}

/** Steps as rows, numbered on from `first`. */
export function stepRows(steps: readonly Step[], first: number): Row[] {
  return steps.map(({ address, attention, ...step }, index) => ({
    address,
    attention,
    cells: { through: '', nominal: '', ...step, step: String(first + index) },
  }))
}
