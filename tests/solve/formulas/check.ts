export type Outcome = number | string | boolean | undefined

/** One worked check as a source prints it. */
export type Check = readonly [
  id: string,
  source: string,
  question: string,
  answer: readonly Outcome[],
  printed: readonly Outcome[],
  /** How far a number may be off, absolute: the rounding of the print, or what the source itself allows. */
  within?: number,
]
