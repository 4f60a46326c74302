import { makePage, type Site } from './page.ts'
import { searchEntries, searchScript } from './search-index.ts'
import type { SiteFile } from './site-input.ts'

/** The search page with a plain list of everything for when scripts do not run, and its index. */
export function findPage(site: Site): SiteFile[] {
  const { things, details } = searchEntries(site)
  const page = makePage(
    site,
    'find',
    {
      path: 'find.html',
      title: 'Find',
      about: 'Find a pin, wire, plug, colour, fuse or signal.',
      scripts: ['find-data.js', 'find.js'],
    },
    { groups: groups(things) },
  )
  return [page, { path: 'assets/find-data.js', content: searchScript([...things, ...details]) }]
}

function groups(things: ReturnType<typeof searchEntries>['things']) {
  const kinds = [...new Set(things.map((entry) => entry.kind))]
  return kinds.map((kind) => ({
    kind,
    entries: things
      .filter((entry) => entry.kind === kind)
      .map(({ title, href, words }) => ({ title, href, words })),
  }))
}
