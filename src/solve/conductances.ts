/** Conductances between nodes 0 … n − 1. All siemens are positive and finite. */
export interface Conductances {
  readonly a: readonly number[]
  readonly b: readonly number[]
  readonly siemens: readonly number[]
}
