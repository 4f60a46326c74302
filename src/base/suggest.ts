import { quote } from './quote.ts'

/** Longer words are not compared: edit distance is quadratic and nobody mistypes a 64-letter name by two letters. */
const LONGEST_WORD = 64
const LARGEST_DISTANCE = 5
const MOST_SUGGESTIONS = 3

/**
 * Edit distance with adjacent swaps counted once (optimal string alignment), or `limit + 1` when it is larger.
 * Words are compared as written; callers fold case first where case does not matter.
 */
export function editDistance(a: string, b: string, limit = LARGEST_DISTANCE): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1
  if (a.length > LONGEST_WORD || b.length > LONGEST_WORD) return a === b ? 0 : limit + 1
  let beforeLast: number[] = []
  let last = Array.from({ length: b.length + 1 }, (_, column) => column)
  for (let row = 1; row <= a.length; row++) {
    const current = nextRow(a, b, row, last, beforeLast)
    if (Math.min(...current) > limit) return limit + 1
    beforeLast = last
    last = current
  }
  return Math.min(last[b.length] ?? limit + 1, limit + 1)
}

function nextRow(a: string, b: string, row: number, last: number[], beforeLast: number[]): number[] {
  const current = [row]
  for (let column = 1; column <= b.length; column++) {
    const same = a[row - 1] === b[column - 1]
    let cost = Math.min(
      (last[column] ?? 0) + 1,
      (current[column - 1] ?? 0) + 1,
      (last[column - 1] ?? 0) + (same ? 0 : 1),
    )
    const swapped = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]
    if (swapped) cost = Math.min(cost, (beforeLast[column - 2] ?? 0) + 1)
    current.push(cost)
  }
  return current
}

/** How many slips a word of this length may hold before a suggestion is noise. */
const allowedSlips = (length: number): number =>
  Math.min(LARGEST_DISTANCE, Math.max(1, Math.floor(length / 3) + 1))

/**
 * The candidates most like `word`, best first, at most three; empty when none is near.
 * Case slips cost nothing, so `j1` finds `J1`. Ties keep the order of `candidates`.
 */
export function suggest(word: string, candidates: Iterable<string>): string[] {
  if (word.length === 0 || word.length > LONGEST_WORD) return []
  const folded = word.toLowerCase()
  const limit = allowedSlips(word.length)
  const near: { candidate: string; distance: number }[] = []
  for (const candidate of new Set(candidates)) {
    const distance = editDistance(folded, candidate.toLowerCase(), limit)
    // A distance as long as the word itself means that nothing was right.
    if (distance <= limit && distance < Math.max(word.length, candidate.length))
      near.push({ candidate, distance })
  }
  near.sort((a, b) => a.distance - b.distance)
  const best = near[0]?.distance ?? 0
  return (
    near
      // Beside a candidate one slip away, those two slips away are noise.
      .filter((entry) => entry.distance <= (best <= 1 ? best : best + 1))
      .slice(0, MOST_SUGGESTIONS)
      .map((entry) => entry.candidate)
  )
}

/** ` Did you mean “A” or “B”?` with its leading space, or an empty string when nothing is near. */
export function didYouMean(word: string, candidates: Iterable<string>): string {
  const found = suggest(word, candidates).map(quote)
  if (found.length === 0) return ''
  const last = found[found.length - 1] ?? ''
  return ` Did you mean ${found.length === 1 ? last : `${found.slice(0, -1).join(', ')} or ${last}`}?`
}
