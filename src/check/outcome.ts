import type { Pointer } from '../base/place.ts'
import type { Outcome, Report } from './rule.ts'

/** A problem found. */
export const found = (finding: Report): Outcome => ({ finding })

/** A question the description does not answer: `needs` names the one fact that would let the rule judge. */
export function unknown(subject: string, needs: string, at?: Pointer): Outcome {
  return { notChecked: at ? { subject, needs, at } : { subject, needs } }
}

/** `A, B and C`; beyond `most` items the rest is counted, so that a line stays a line. */
export function listOf(items: readonly string[], most = 6): string {
  if (items.length > most) return `${items.slice(0, most - 1).join(', ')} and ${items.length - most + 1} more`
  if (items.length < 2) return items[0] ?? ''
  return `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`
}

/** `1 wire`, `3 wires`. */
export const count = (number: number, word: string, many = `${word}s`): string =>
  `${number} ${number === 1 ? word : many}`
