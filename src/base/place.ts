/** A spot in a file a person can open: 1-based line and column, as editors count them. */
export interface Place {
  readonly file: string
  readonly line: number
  readonly column: number
}

/**
 * Which value of which document is meant. The core carries pointers only; lines and columns are looked up
 * when something is printed, so that a clean run never pays for them.
 */
export interface Pointer {
  /** Name of the source document, as given by the reader. */
  readonly doc: string
  /** Keys and indexes from the document's root to the value. */
  readonly path: readonly (string | number)[]
}

/** Turns a pointer into a place. Never throws: an unknown path gives the nearest ancestor that is known. */
export type Locate = (pointer: Pointer) => Place

/** The pointer to a value below another. */
export function below(pointer: Pointer, ...keys: (string | number)[]): Pointer {
  return { doc: pointer.doc, path: [...pointer.path, ...keys] }
}

/** `harnesses/head.ts:12:3`, the form terminals and editors turn into a link. */
export function showPlace(place: Place): string {
  return `${place.file}:${place.line}:${place.column}`
}
