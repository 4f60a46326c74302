/**
 * Reads a clean QR code of level M, versions 1 to 9, by ISO/IEC 18004 alone: nothing here comes from the library that makes
 * them. Blocks are [error words a block, blocks, data words, blocks of a second kind, data words of those] (table 9).
 */
const BLOCKS: Readonly<Record<number, readonly number[]>> = {
  1: [10, 1, 16],
  2: [16, 1, 28],
  3: [26, 1, 44],
  4: [18, 2, 32],
  5: [24, 2, 43],
  6: [16, 4, 27],
  7: [18, 4, 31],
  8: [22, 2, 38, 2, 39],
  9: [22, 3, 36, 2, 37],
}
/** Centres of alignment patterns (annex E). */
const ALIGNED: Readonly<Record<number, readonly number[]>> = {
  1: [],
  2: [6, 18],
  3: [6, 22],
  4: [6, 26],
  5: [6, 30],
  6: [6, 34],
  7: [6, 22, 38],
  8: [6, 24, 42],
  9: [6, 26, 46],
}
/** Conditions under which a mask turns a module over (table 10). */
const MASKS: readonly ((row: number, column: number) => boolean)[] = [
  (r, c) => (r + c) % 2 === 0,
  (r) => r % 2 === 0,
  (_, c) => c % 3 === 0,
  (r, c) => (r + c) % 3 === 0,
  (r, c) => (Math.floor(r / 2) + Math.floor(c / 3)) % 2 === 0,
  (r, c) => ((r * c) % 2) + ((r * c) % 3) === 0,
  (r, c) => (((r * c) % 2) + ((r * c) % 3)) % 2 === 0,
  (r, c) => (((r + c) % 2) + ((r * c) % 3)) % 2 === 0,
]

type Grid = readonly (readonly boolean[])[]

/** Whether a module belongs to a pattern of its own and carries no data. */
function isPattern(size: number, version: number, row: number, column: number): boolean {
  const corner = (row < 9 && (column < 9 || column >= size - 8)) || (row >= size - 8 && column < 9)
  if (corner || row === 6 || column === 6) return true
  if (version >= 7 && ((row < 6 && column >= size - 11) || (column < 6 && row >= size - 11))) return true
  const centres = ALIGNED[version] ?? []
  const last = centres.at(-1) ?? 0
  return centres.some((r) =>
    centres.some((c) => {
      const onFinder = (r === 6 && (c === 6 || c === last)) || (r === last && c === 6)
      return !onFinder && Math.abs(r - row) <= 2 && Math.abs(c - column) <= 2
    }),
  )
}

/** Level and mask, from the copy beside the top left finder pattern. */
function maskOf(grid: Grid): number {
  const bits: boolean[] = []
  for (let column = 0; column <= 8; column++) if (column !== 6) bits.push(grid[8]?.[column] ?? false)
  for (let row = 7; row >= 0; row--) if (row !== 6) bits.push(grid[row]?.[8] ?? false)
  const format = bits.reduce((sum, bit) => sum * 2 + Number(bit), 0) ^ 0b101010000010010
  if (format >> 13 !== 0) throw new Error('not level M')
  return (format >> 10) & 7
}

function wordsOf(grid: Grid, version: number): number[] {
  const size = grid.length
  const mask = MASKS[maskOf(grid)]
  if (!mask) throw new Error('no such mask')
  const bits: number[] = []
  let up = true
  for (let right = size - 1; right > 0; right -= 2) {
    if (right === 6) right--
    for (let step = 0; step < size; step++) {
      const row = up ? size - 1 - step : step
      for (const column of [right, right - 1])
        if (!isPattern(size, version, row, column))
          bits.push(Number(grid[row]?.[column] !== mask(row, column)))
    }
    up = !up
  }
  return Array.from({ length: Math.floor(bits.length / 8) }, (_, i) =>
    bits.slice(i * 8, i * 8 + 8).reduce((sum, bit) => sum * 2 + bit, 0),
  )
}

/** The text of a code. */
export function readQr(grid: Grid): string {
  const version = (grid.length - 17) / 4
  const [, count1 = 0, data1 = 0, count2 = 0, data2 = 0] = BLOCKS[version] ?? []
  if (data1 === 0) throw new Error(`version ${version} is not read here`)
  const words = wordsOf(grid, version)
  const lengths = [...Array(count1).fill(data1), ...Array(count2).fill(data2)] as number[]
  const blocks: number[][] = lengths.map(() => [])
  for (let i = 0, at = 0; i < Math.max(data1, data2); i++)
    lengths.forEach((length, block) => {
      if (i < length) blocks[block]?.push(words[at++] ?? 0)
    })
  const bits = blocks.flat().flatMap((word) => Array.from({ length: 8 }, (_, bit) => (word >> (7 - bit)) & 1))
  const number = (from: number, length: number) =>
    bits.slice(from, from + length).reduce((sum, bit) => sum * 2 + bit, 0)
  if (number(0, 4) !== 0b0100) throw new Error('not byte mode')
  const bytes = Array.from({ length: number(4, 8) }, (_, i) => number(12 + 8 * i, 8))
  return new TextDecoder('utf-8', { fatal: true }).decode(Uint8Array.from(bytes))
}
