import type { Locate } from '../base/place.ts'

/** Places of each revision; what went away is only in the first. */
export interface TwoPlaces {
  readonly before: Locate
  readonly after: Locate
}
