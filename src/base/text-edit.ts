/** A stretch of text and what takes its place. Offsets are in UTF-16 units of the text as it was. */
export interface TextEdit {
  readonly start: number
  readonly end: number
  readonly text: string
}

const inOrder = (edits: readonly TextEdit[]): TextEdit[] =>
  [...edits].sort((a, b) => a.start - b.start || a.end - b.end)

/** Whether two edits want the same characters. Insertions side by side do not. */
export function overlap(edits: readonly TextEdit[]): boolean {
  const sorted = inOrder(edits)
  return sorted.some((edit, index) => index > 0 && edit.start < (sorted[index - 1]?.end ?? 0))
}

/** A text with edits in it; every other character stays. Edits must not overlap. */
export function applyTextEdits(text: string, edits: readonly TextEdit[]): string {
  let at = 0
  const parts: string[] = []
  for (const edit of inOrder(edits)) {
    parts.push(text.slice(at, edit.start), edit.text)
    at = edit.end
  }
  return [...parts, text.slice(at)].join('')
}
