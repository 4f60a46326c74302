import type { Pointer } from '../base/place.ts'

/**
 * A spot in a Markdown file as a pointer: `{ doc: file, path: [line, column] }`, both from 1.
 * Markdown has no keys to point at, so the place itself is carried, which is how the reader's `locate` takes it.
 */
export function markdownPointer(file: string, line: number, column: number): Pointer {
  return { doc: file, path: [line, column] }
}
