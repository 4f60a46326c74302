/** Where each line of a text begins, for turning offsets into lines and columns and back. */
export class LineIndex {
  readonly #text: string
  #starts: number[] | undefined

  constructor(text: string) {
    this.#text = text
  }

  #lines(): number[] {
    if (this.#starts) return this.#starts
    const starts = [0]
    for (let at = this.#text.indexOf('\n'); at >= 0; at = this.#text.indexOf('\n', at + 1))
      starts.push(at + 1)
    this.#starts = starts
    return starts
  }

  /** Line and column of an offset, both from 1, columns in UTF-16 units as editors count them. */
  at(offset: number): { line: number; column: number } {
    const starts = this.#lines()
    let low = 0
    let high = starts.length - 1
    while (low < high) {
      const middle = (low + high + 1) >> 1
      if ((starts[middle] ?? 0) <= offset) low = middle
      else high = middle - 1
    }
    return { line: low + 1, column: offset - (starts[low] ?? 0) + 1 }
  }

  /** Offset of a line and column, both from 1. */
  offset(line: number, column: number): number {
    return (this.#lines()[line - 1] ?? this.#text.length) + column - 1
  }

  /** A whole line without its end. */
  line(number: number): string | undefined {
    const start = this.#lines()[number - 1]
    if (start === undefined) return undefined
    const next = this.#lines()[number]
    return this.#text.slice(start, next === undefined ? undefined : next - 1).replace(/\r$/, '')
  }
}
