import type { Place, Pointer } from '../base/place.ts'

/**
 * A spot in a Markdown file as a pointer: `{ doc: file, path: ['line', n, 'column', m] }`, both from 1.
 * Markdown has no keys to point at, so the place itself is carried.
 */
export function markdownPointer(file: string, line: number, column: number): Pointer {
  return { doc: file, path: ['line', line, 'column', column] }
}

/** The place such a pointer carries; undefined for a pointer into a description. */
export function placeInMarkdown(pointer: Pointer): Place | undefined {
  const [lineWord, line, columnWord, column] = pointer.path
  if (lineWord !== 'line' || columnWord !== 'column') return undefined
  if (typeof line !== 'number' || typeof column !== 'number') return undefined
  return { file: pointer.doc, line, column }
}
