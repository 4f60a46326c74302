import { type Finding, identity, type Level, type NotChecked } from '../../base/finding.ts'
import { compareLevels } from '../rank.ts'
import type { JudgedLoom, JudgedShop } from './judge-shop.ts'

const levelsOf = (findings: readonly Finding[]): Map<string, Level> => {
  const levels = new Map<string, Level>()
  for (const finding of findings) {
    const known = levels.get(identity(finding))
    if (known === undefined || compareLevels(finding.level, known) < 0)
      levels.set(identity(finding), finding.level)
  }
  return levels
}

/** Stops and warnings that were not there before, or were less. */
function worse(before: readonly Finding[], after: readonly Finding[]): readonly Finding[] {
  const levels = levelsOf(before)
  return after.filter((finding) => {
    if (finding.level === 'note') return false
    const old = levels.get(identity(finding))
    return old === undefined || compareLevels(finding.level, old) < 0
  })
}

const question = ({ rule, subject }: NotChecked): string => `${rule} ${subject}`

/** The first thing that can no longer be judged: a fault that is not seen any more is not mended. */
function blinder(before: readonly NotChecked[], after: readonly NotChecked[]): NotChecked | undefined {
  const known = new Set(before.map(question))
  return after.find((one) => !known.has(question(one)))
}

/** What an edit brings besides its cure. */
export type Brought =
  /** The same fault shows elsewhere now: the next conductor of the way is the worst. A larger step may do. */
  { readonly moved: string } | { readonly fresh: string }

/** What an edit for a finding of some rule would bring, in words; undefined when it brings nothing. */
export function findingsBrought(
  rule: string,
  before: ReadonlyMap<string, JudgedLoom>,
  after: JudgedShop,
  shopBefore: JudgedShop,
): Brought | undefined {
  const fresh = [
    ...worse(shopBefore.shopFindings, after.shopFindings),
    ...after.looms.flatMap((loom) => worse(before.get(loom.id)?.findings ?? [], loom.findings)),
  ]
  const other = fresh.find((finding) => finding.rule !== rule)
  if (other) return { fresh: other.what }
  for (const loom of after.looms) {
    const gap = blinder(before.get(loom.id)?.notChecked ?? [], loom.notChecked)
    if (gap) return { fresh: `${gap.rule} could no longer be judged: ${gap.needs}` }
  }
  return fresh[0] && { moved: fresh[0].what }
}
