import { hashCode } from '../base/hash.ts'
import type { Loom, LoomUse } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'
import { closeSteps } from './bench-close.ts'
import { cutSteps } from './bench-cut.ts'
import { insertSteps } from './bench-insert.ts'
import { joinSteps } from './bench-join.ts'
import { proofSteps } from './bench-proof.ts'
import type { BenchStep, StepDraft } from './bench-step.ts'
import { landingsOf } from './landings.ts'

/**
 * Everything to do to one loom at the bench, in order: cut, join by tool set-up, fill and close each connector, then prove
 * that what must be joined is, that nothing else is, and that pairs are pairs. Contacts go in only when all are made, so that
 * a connector that takes more than one tool is still filled from its middle. Empty for a loom without conductors.
 */
export function benchSteps(loom: Loom, use: LoomUse, solution: Solution | undefined): BenchStep[] {
  const landings = landingsOf(loom, use)
  if (landings.size === 0) return []
  return withIds([
    ...cutSteps(loom, use),
    ...joinSteps(loom, use, landings),
    ...insertSteps(loom, use, landings),
    ...closeSteps(use, landings),
    ...proofSteps(loom, use, solution),
  ])
}

/** The id is made from what the step says, so that a mark is never carried over to a step that has changed. */
function withIds(drafts: readonly StepDraft[]): BenchStep[] {
  const seen = new Map<string, number>()
  return drafts.map((draft) => {
    const { stage, section, what, facts, ask, min, max, a = [], b = [], joins = [], settles = [] } = draft
    const spots = [a, b].map((terminals) => terminals.map(({ address }) => address))
    const code = hashCode(JSON.stringify([stage, section, what, facts, ask, min, max, spots]), 10)
    const count = (seen.get(code) ?? 0) + 1
    seen.set(code, count)
    return { ...draft, id: count === 1 ? code : `${code}-${count}`, a, b, joins, settles }
  })
}
