import type { Trouble } from '../base/finding.ts'
import type { Locate, Place } from '../base/place.ts'
import type { Procedure } from '../describe/shop.ts'

/** One description file, read but not yet judged. */
export interface SourceDocument {
  /** Path from the shop's folder, with slashes: `jobs/pickup.ts`. */
  readonly name: string
  /** Plain data, as JSON would hold it. */
  readonly data: unknown
  /** Where the value at a path was written: itself, or the nearest thing around it that is known. Never throws. */
  readonly locate: (path: readonly (string | number)[]) => Place
}

/** Everything the files of a shop hold. */
export interface ShopSource {
  readonly documents: readonly SourceDocument[]
  /** JSON files that hold readings or as-built records, and no description. */
  readonly records: readonly SourceDocument[]
  readonly procedures: readonly Procedure[]
  /** Files and folders whose change calls for reading again, as absolute paths, sorted. */
  readonly watch: readonly string[]
  /** Why files could not be read; with any of these there is nothing to judge yet. */
  readonly troubles: readonly Trouble[]
  /** Place of a value of a document. For a procedure the path is `[line, column]`, both counted from 1. */
  readonly locate: Locate
  /** The line of text at a place, or undefined if it cannot be had. */
  readonly sourceLine: (place: Place) => string | undefined
}
