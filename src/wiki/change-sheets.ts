import { compare } from '../compare/compare.ts'
import { matchRevisions } from '../compare/match-revisions.ts'
import { placedHarnesses, type Revision } from '../compare/revision.ts'
import { subjectSentences } from '../compare/sentences.ts'
import { changeSheet } from '../sheets/change-sheet.ts'
import { matchCodeOf } from '../sheets/match-code.ts'
import type { Sheet } from '../sheets/sheet.ts'

/** A former state of the shop, and what people call it. */
export interface Baseline {
  readonly revision: Revision
  readonly name: string
}

/**
 * A change sheet for each harness that both states have and that differs, by its present name. `wanted` narrows them down,
 * for harnesses whose last issue lies in this state.
 */
export function changeSheets(
  before: Baseline,
  after: Revision,
  wanted: (harness: string) => boolean = () => true,
): Map<string, Sheet> {
  const changes = compare(before.revision, after)
  const rework = new Map(changes.rework.map((one) => [one.harness, one.steps.map(({ text }) => text)]))
  const subjects = new Map(
    changes.subjects.filter(({ of }) => of === 'harness').map((subject) => [subject.id, subject]),
  )
  const sheets = new Map<string, Sheet>()
  for (const pair of matchRevisions(before.revision, after).matched.values()) {
    const { id } = pair.after.harness
    const subject = subjects.get(id)
    const steps = rework.get(id) ?? []
    if (!wanted(id) || (!subject && steps.length === 0)) continue
    const { harness, loom, use } = pair.before
    sheets.set(
      id,
      changeSheet(pair.after.loom, pair.after.use, {
        before: {
          match: matchCodeOf(loom, use),
          source: before.name,
          ...(harness.revision === undefined ? {} : { revision: harness.revision }),
          ...(harness.date === undefined ? {} : { date: harness.date }),
        },
        steps,
        changes: subject ? subjectSentences(subject) : [],
      }),
    )
  }
  return sheets
}

/** Match codes of the harnesses of a state that were issued in it, by id. */
export function issuedCodes(revision: Revision): Map<string, string> {
  const placed = [...placedHarnesses(revision).values()].filter(({ harness }) => harness.state === 'issued')
  return new Map(placed.map(({ harness, loom, use }) => [harness.id, matchCodeOf(loom, use)]))
}
