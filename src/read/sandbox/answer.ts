import type { LandingKind, TopKind } from '../../author/site.ts'

/** A value that JSON has no word for. */
export interface Odd {
  readonly odd: 'undefined' | 'function' | 'symbol' | 'NaN' | 'Infinity' | '-Infinity' | 'bigint'
}

/** A value as it crosses: itself, or the index of a node in brackets, so that shared and circular data stays what it is. */
export type Crossing = string | number | boolean | null | readonly [node: number] | Odd

/** What a builder noted about an object. */
export interface CrossedMark {
  readonly kind?: TopKind
  readonly lands?: LandingKind
  readonly args: readonly string[]
  /** Laid out as a cable is. */
  readonly cable: boolean
  readonly frames: readonly (readonly [line: number, column: number])[]
  readonly uses: readonly Crossing[]
}

/** A list, an object with its keys, or an object of some class, of which only the name crosses. */
export interface CrossedNode {
  readonly list?: readonly Crossing[]
  readonly keys?: readonly string[]
  readonly values?: readonly Crossing[]
  readonly of?: string
  readonly mark?: CrossedMark
}

/** What one file exported, or what it threw. */
export interface CrossedFile {
  readonly names?: readonly string[]
  readonly values?: readonly Crossing[]
  readonly message?: string
  readonly at?: readonly [line: number, column: number]
}

/** What comes back out of the interpreter: the files in order, and the objects they mention. */
export interface Answer {
  readonly files: readonly CrossedFile[]
  readonly nodes: readonly CrossedNode[]
}
