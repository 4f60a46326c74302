import { ADVANCES_400, ADVANCES_700 } from './font/advances.ts'

export type Weight = 'regular' | 'bold'

function tableOf(rows: readonly (readonly [number, string])[]): ReadonlyMap<string, number> {
  return new Map(rows.flatMap(([width, chars]) => [...chars].map((char) => [char, width] as const)))
}

const TABLES: Readonly<Record<Weight, ReadonlyMap<string, number>>> = {
  regular: tableOf(ADVANCES_400),
  bold: tableOf(ADVANCES_700),
}

/** Combining marks, variation selectors and joiners sit on the character before them. */
const NO_WIDTH = /[\p{Mn}\p{Me}\p{Cf}]/u
/** Scripts drawn in full squares, and pictographs, which some systems draw even wider. */
const WIDE =
  /[\u1100-\u115f\u2e80-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6]|\p{Extended_Pictographic}/u

/**
 * Advance of one character in thousandths of the text size. A character the drawing font lacks is drawn by whatever
 * font the reader has, so it gets a width that no common font exceeds.
 */
function advanceOf(char: string, table: ReadonlyMap<string, number>): number {
  const known = table.get(char)
  if (known !== undefined) return known
  if (NO_WIDTH.test(char)) return 0
  if (WIDE.test(char)) return char.length > 1 ? 1400 : 1050
  return 900
}

/** Width of a line of text, in the unit of `size`. Exact for the drawing font with kerning off; never throws. */
export function textWidth(text: string, size: number, weight: Weight = 'regular'): number {
  const table = TABLES[weight]
  let sum = 0
  for (const char of text) sum += advanceOf(char, table)
  return (sum * size) / 1000
}

/** True when every character is in the drawing font, so that the width is exact. */
export function hasExactWidth(text: string, weight: Weight = 'regular'): boolean {
  const table = TABLES[weight]
  for (const char of text) if (!table.has(char)) return false
  return true
}

/** The longest beginning of `text` that fits, with … where something was cut off. */
export function shorten(text: string, width: number, size: number, weight: Weight = 'regular'): string {
  if (textWidth(text, size, weight) <= width) return text
  const chars = [...text]
  let low = 0
  let high = chars.length
  while (low < high) {
    const middle = Math.ceil((low + high) / 2)
    if (textWidth(`${chars.slice(0, middle).join('')}…`, size, weight) <= width) low = middle
    else high = middle - 1
  }
  return `${chars.slice(0, low).join('').trimEnd()}…`
}

/** Breaks text at blanks into lines that fit; what does not fit in `maxLines` ends in …. Always at least one line. */
export function wrapText(
  text: string,
  width: number,
  size: number,
  maxLines = 100,
  weight: Weight = 'regular',
): string[] {
  const words = text.split(/\s+/).filter((word) => word !== '')
  const lines: string[] = []
  let line = ''
  words.forEach((word, index) => {
    const longer = line === '' ? word : `${line} ${word}`
    if (line === '' || textWidth(longer, size, weight) <= width) {
      line = longer
    } else if (lines.length === maxLines - 1) {
      line = [line, ...words.slice(index)].join(' ')
      words.length = index
    } else {
      lines.push(line)
      line = word
    }
  })
  return [...lines, line].map((one) => shorten(one, width, size, weight))
}
