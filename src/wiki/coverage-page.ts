import { FAULT_GROUPS } from '../check/catalogue.ts'
import { countCoverage, coverageLine } from '../report/catalogue-coverage.ts'
import { LEVEL_WORDS } from './finding-view.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { SiteFile } from './site-input.ts'

export const COVERAGE_PATH = 'coverage.html'

/** The catalogue of faults with what looks for each; no page where the caller gives no table. */
export function coveragePage(site: Site): SiteFile[] {
  const rows = site.input.coverage
  if (!rows) return []
  const path = COVERAGE_PATH
  const groups = Object.entries(FAULT_GROUPS).map(([letter, title]) => ({
    title,
    anchor: `group-${letter.toLowerCase()}`,
    faults: rows
      .filter(({ fault }) => fault.id.startsWith(letter))
      .map(({ fault, by, reason }) => ({
        id: fault.id,
        title: fault.title,
        cost: LEVEL_WORDS[fault.level],
        by: by.map(({ id, how }) => ({
          id,
          asked: how === 'question',
          href: linkTo(path, site.map.rule(id)),
        })),
        reason: by.length === 0 ? (reason ?? 'no reason given') : '',
      })),
  }))
  const facts = {
    path,
    title: 'What the checks cover',
    about: 'Every fault of the catalogue and the rule or question that looks for it.',
  }
  return [
    makePage(site, 'coverage', facts, {
      line: coverageLine(countCoverage(rows)),
      groups: groups.filter(({ faults }) => faults.length > 0),
    }),
  ]
}
