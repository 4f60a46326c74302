import type { Trouble } from '../base/finding.ts'
import type { Place } from '../base/place.ts'

/** A file that cannot be read, thrown within this folder only; `readShop` gives it back as data. */
export class TroubleError extends Error {
  readonly trouble: Trouble

  constructor(what: string, fix: string, place: Place) {
    super(what)
    this.name = 'TroubleError'
    this.trouble = { what, fix, place }
  }
}

/** The beginning of a file, where nothing more exact is known. */
export const startOf = (file: string): Place => ({ file, line: 1, column: 1 })
