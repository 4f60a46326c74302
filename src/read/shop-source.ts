import type { Trouble } from '../base/finding.ts'
import type { Locate, Place } from '../base/place.ts'
import type { Procedure } from '../describe/shop.ts'

/** Where a value is written out in source text, or where one that is missing can be added. Offsets are in UTF-16 units. */
export interface WrittenAt {
  /** As people call the file. */
  readonly file: string
  /** `value`: the text of the value. `members`: an object in braces to add a member to. `arguments`: the end of a call that lacks its options. */
  readonly kind: 'value' | 'members' | 'arguments'
  readonly start: number
  readonly end: number
}

/** A text as it was read. */
export interface SourceText {
  /** As documents are called. */
  readonly name: string
  /** As people call it. */
  readonly file: string
  /** Absolute. */
  readonly path: string
  readonly kind: 'typescript' | 'json' | 'markdown'
  readonly text: string
}

/** One description file, read but not yet judged. */
export interface SourceDocument {
  /** Path from the shop's folder, with slashes: `jobs/pickup.ts`. */
  readonly name: string
  /** Plain data, as JSON would hold it. */
  readonly data: unknown
  /** Where the value at a path was written: itself, or the nearest thing around it that is known. Never throws. */
  readonly locate: (path: readonly (string | number)[]) => Place
  /**
   * Code only: the one place that writes this value and no other. Undefined where it is not known, is worked out, or serves other
   * things as well, so that a change there would change more than is meant.
   */
  readonly writtenAt?: (path: readonly (string | number)[]) => WrittenAt | undefined
}

/** Everything the files of a shop hold. */
export interface ShopSource {
  readonly documents: readonly SourceDocument[]
  /** JSON files that hold readings or as-built records, and no description. */
  readonly records: readonly SourceDocument[]
  readonly procedures: readonly Procedure[]
  /** Every file of the shop that was read, in order. */
  readonly texts: readonly SourceText[]
  /** Files and folders whose change calls for reading again, as absolute paths, sorted. */
  readonly watch: readonly string[]
  /** Files that other files import, and what code reads besides the files of the shop, as absolute paths. */
  readonly imported: readonly string[]
  /** Whether reading again gives the same as long as none of these change: false where code asks for the clock or for other packages. */
  readonly repeatable: boolean
  /** Why files could not be read; with any of these there is nothing to judge yet. */
  readonly troubles: readonly Trouble[]
  /** Place of a value of a document. For a procedure the path is `[line, column]`, both counted from 1. */
  readonly locate: Locate
  /** The line of text at a place, or undefined if it cannot be had. */
  readonly sourceLine: (place: Place) => string | undefined
}
