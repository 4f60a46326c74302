import type { Harness } from '../describe/harness.ts'
import type { Issue, Standing } from './asset-record.ts'

/** Holds what was fitted against what is described now. A revision decides before a match code. */
export function standingOf(fitted: Issue, now: Issue): Standing {
  if (fitted.revision === undefined && fitted.match === undefined) return 'not stated'
  if (fitted.revision !== undefined && fitted.revision !== now.revision) return 'older'
  if (fitted.match !== undefined && fitted.match !== now.match)
    return fitted.revision === undefined ? 'older' : 'changed'
  return 'current'
}

/** What the revisions after the fitted one say of themselves, oldest first; none where the fitted one is not listed. */
export function laterRevisions(
  harness: Harness,
  fitted: string | undefined,
): readonly { readonly revision: string; readonly what: string }[] {
  const all = harness.revisions ?? []
  const at = all.findIndex(({ revision }) => revision === fitted)
  return at < 0 ? [] : all.slice(at + 1).map(({ revision, what }) => ({ revision, what }))
}
