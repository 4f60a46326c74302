import type { Trouble } from '../base/finding.ts'
import type { Place } from '../base/place.ts'

/** Descriptions that could not be read: there is nothing to check, draw or publish. */
export class Unreadable extends Error {
  readonly troubles: readonly Trouble[]
  readonly sourceLine: (place: Place) => string | undefined
  /** Files and folders whose change may cure it. */
  readonly watch: readonly string[]

  constructor(
    troubles: readonly Trouble[],
    source: { readonly sourceLine: (place: Place) => string | undefined; readonly watch: readonly string[] },
  ) {
    super(troubles[0]?.what ?? 'nothing could be read')
    this.name = 'Unreadable'
    this.troubles = troubles
    this.sourceLine = source.sourceLine
    this.watch = source.watch
  }
}
