import type { HarnessEntry } from './harness-entries.ts'
import { historyPath } from './history-path.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { SiteFile } from './site-input.ts'

/** A change with more to it than this is told at its length by `compare`. */
const MOST_SENTENCES = 40

/** The revisions of a harness: those its description tells of, and what git says changed. None where neither is known. */
export function historyPage(site: Site, { harness }: HarnessEntry): SiteFile[] {
  const path = historyPath(site, harness)
  if (path === undefined) return []
  const { history } = site.input
  const entries = (history?.get(harness.id) ?? []).map(({ changes, ...entry }) => ({
    ...entry,
    changes: changes.slice(0, MOST_SENTENCES),
    more: Math.max(0, changes.length - MOST_SENTENCES),
  }))
  const facts = {
    path,
    title: `History of ${harness.title}`,
    about: `Revisions of harness ${harness.id} and what changed between them.`,
  }
  return [
    makePage(site, 'history', facts, {
      id: harness.id,
      title: harness.title,
      revision: harness.revision ?? '',
      harnessHref: linkTo(path, site.map.harness(harness.id)),
      revisions: [...(harness.revisions ?? [])].reverse(),
      // Without git a reader must not take silence for "nothing changed".
      fromGit: history !== undefined,
      entries,
    }),
  ]
}
