import type { Finding, FindingNote } from '../base/finding.ts'
import { compareLevels } from './rank.ts'

/** Findings to show, and those that are told within another one. */
export interface Grouped {
  readonly shown: readonly Finding[]
  readonly heldBack: readonly Finding[]
}

/** More than this many consequences are counted instead of listed: the cure of the first removes them all. */
const MOST_NOTES = 4

/** The finding that names the cause itself comes before its consequences: that is the earlier rule in the list. */
function worstFirst(findings: readonly Finding[], orderOf: (rule: string) => number): Finding[] {
  return [...findings].sort((a, b) => compareLevels(a.level, b.level) || orderOf(a.rule) - orderOf(b.rule))
}

function notesFor(others: readonly Finding[]): FindingNote[] {
  const notes = others
    .slice(0, MOST_NOTES)
    .map((finding) => ({ text: `same cause: ${finding.what} (${finding.rule})`, at: finding.at }))
  const rest = others.length - notes.length
  return rest > 0 ? [...notes, { text: `same cause: ${rest} more` }] : notes
}

/**
 * Collapses findings with one cause: the worst is shown and the others become its notes, so that a mirrored connector is one
 * thing to mend and not twenty-five. Findings without a cause pass through.
 */
export function groupByCause(findings: readonly Finding[], orderOf: (rule: string) => number): Grouped {
  const byCause = new Map<string, Finding[]>()
  for (const finding of findings) {
    if (finding.cause === undefined) continue
    const group = byCause.get(finding.cause)
    if (group) group.push(finding)
    else byCause.set(finding.cause, [finding])
  }
  const shown: Finding[] = findings.filter((finding) => finding.cause === undefined)
  const heldBack: Finding[] = []
  for (const group of byCause.values()) {
    const [first, ...others] = worstFirst(group, orderOf)
    if (!first) continue
    heldBack.push(...others)
    shown.push(others.length === 0 ? first : { ...first, notes: [...first.notes, ...notesFor(others)] })
  }
  return { shown, heldBack }
}
