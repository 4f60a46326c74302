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
  return [
    page,
    { path: 'assets/find-data.js', content: searchScript([...things, ...details], pageTitles(site, things)) },
  ]
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

/** What a page is called beside what was found on it; a page that is itself found needs no second name. */
function pageTitles(site: Site, things: ReturnType<typeof searchEntries>['things']): Map<string, string> {
  const titles = new Map(things.map(({ href, title }) => [href, title]))
  for (const { loom } of site.input.looms)
    for (const net of loom.nets) {
      const target = site.map.net(loom, net)
      if (target) titles.set(target.path, loom.title)
    }
  return titles
}
