import type { Finding } from '../base/finding.ts'
import { below } from '../base/place.ts'
import type { Loom, LoomUse } from '../resolve/loom.ts'
import { matchCodeOf } from './match-code.ts'

/** Holds the code a description was issued under against the one its papers print now. */
function changedSinceIssue(loom: Loom, use?: LoomUse): Finding[] {
  const source = use ? use.harness : loom.source
  const now = matchCodeOf(loom, use)
  if (source.match === undefined || source.match === now) return []
  const half = use?.halves[0]
  const at = half ? { doc: half.at.doc, path: half.at.path.slice(0, -2) } : loom.at
  return [
    {
      rule: 'issued-paper-unchanged',
      level: 'warning',
      subject: use ? `${loom.id}/${use.id}` : loom.id,
      what: `${source.id} was issued under the match code ${source.match}, and its papers now print ${now}`,
      why: `Something behind the papers has changed since revision ${source.revision ?? '(none stated)'} went out: what hangs on the wall is no longer what is described.`,
      fix: `Raise the revision and issue again under ${now}, or take the change back.`,
      assumed: [],
      facts: { issued: { value: source.match }, now: { value: now } },
      at: below(at, 'match'),
      notes: [],
      marks: [],
    },
  ]
}

/** Everything of a loom that was issued and has changed since. */
export function auditIssue(loom: Loom): Finding[] {
  const ofUses = loom.looms.flatMap((use) => changedSinceIssue(loom, use))
  return loom.kind === 'installation' ? [...ofUses, ...changedSinceIssue(loom)] : ofUses
}
