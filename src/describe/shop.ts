import type { Pointer } from '../base/place.ts'
import type { Equipment } from './equipment.ts'
import type { Harness } from './harness.ts'
import type { Installation } from './installation.ts'
import type { Part } from './part.ts'
import type { Policy } from './policy.ts'

/** A described thing and where it was written. */
export interface Sourced<T> {
  readonly value: T
  readonly at: Pointer
}

/** A Markdown procedure, as text with the name of its file. */
export interface Procedure {
  /** Path as harnesses and installations name it, relative to the shop folder. */
  readonly file: string
  readonly text: string
}

/** Everything a shop has described, gathered from all its files in a fixed order. Duplicates are kept, so that they can be reported. */
export interface Shop {
  readonly parts: readonly Sourced<Part>[]
  readonly equipment: readonly Sourced<Equipment>[]
  readonly harnesses: readonly Sourced<Harness>[]
  readonly installations: readonly Sourced<Installation>[]
  readonly policy: Sourced<Policy> | undefined
  readonly procedures: readonly Procedure[]
}
