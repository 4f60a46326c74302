import type { Finding, NotChecked } from '../base/finding.ts'
import type { Pointer } from '../base/place.ts'

const place = (at: Pointer | undefined): string => (at ? JSON.stringify([at.doc, at.path]) : '')

/** Same rule, same line to edit, same figures: one fault, however many installations it reaches. */
function faultKey(finding: Finding): string {
  const { rule, level, at, facts, what } = finding
  const told = Object.keys(facts).length === 0 ? what : facts
  return JSON.stringify([rule, level, place(at), told])
}

/** One finding for a fault of a harness that several installations use, with all of them named. */
export function mergeFindings(findings: readonly Finding[]): Finding[] {
  const byKey = new Map<string, Finding>()
  for (const finding of findings) {
    const key = faultKey(finding)
    const first = byKey.get(key)
    if (!first) byKey.set(key, finding)
    else if (first.subject !== finding.subject)
      byKey.set(key, { ...first, notes: [...first.notes, { text: `also at ${finding.subject}` }] })
  }
  return [...byKey.values()]
}

/** One line for a fact that several installations miss. */
export function mergeNotChecked(items: readonly NotChecked[]): NotChecked[] {
  const byKey = new Map<string, NotChecked>()
  for (const item of items) {
    const key = JSON.stringify([item.rule, item.needs, item.at ? place(item.at) : item.subject])
    if (!byKey.has(key)) byKey.set(key, item)
  }
  return [...byKey.values()]
}
