import type { Finding, Level } from '../base/finding.ts'
import { naturalOrder } from '../base/natural-order.ts'

const WEIGHT: Readonly<Record<Level, number>> = { stop: 0, warning: 1, note: 2 }

/** Negative when `a` is worse than `b`. */
export const compareLevels = (a: Level, b: Level): number => WEIGHT[a] - WEIGHT[b]

/** Worst first; alike ones in the order in which a person reads addresses. */
export function rankFindings(findings: readonly Finding[]): Finding[] {
  return [...findings].sort(
    (a, b) =>
      compareLevels(a.level, b.level) ||
      naturalOrder(a.subject, b.subject) ||
      naturalOrder(a.rule, b.rule) ||
      naturalOrder(a.what, b.what),
  )
}
