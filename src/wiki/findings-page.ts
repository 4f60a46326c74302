import type { Finding } from '../base/finding.ts'
import { COVERAGE_PATH } from './coverage-page.ts'
import { countsOf, findingViews, notCheckedViews, pageOf } from './finding-view.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { SiteFile } from './site-input.ts'

/** A page with more than this is too heavy for a phone; each job then shows its worst, and its own page has them all. */
const MOST_IN_FULL = 300
const MOST_A_JOB = 3

/** All findings of the shop, job by job, and at the end what was not checked. */
export function findingsPage(site: Site): SiteFile {
  const path = 'findings.html'
  const all = site.input.looms.flatMap((job) => job.findings)
  const gaps = site.input.looms.flatMap((job) => job.notChecked)
  const shopWide = site.input.shopFindings ?? []
  const folded = all.length > MOST_IN_FULL
  let number = 0
  const jobs = site.jobs.map((job) => {
    const shown = folded ? { ...job, findings: job.findings.slice(0, MOST_A_JOB) } : job
    const findings = findingViews(site, path, shown, number)
    number += findings.length
    return {
      folded,
      more: job.findings.length - findings.length,
      title: job.loom.title,
      kind: job.loom.kind,
      href: linkTo(path, pageOf(site, job.loom)),
      counts: countsOf(job.findings, job.notChecked),
      findings,
      notChecked: folded ? [] : notCheckedViews(site, path, job),
    }
  })
  return makePage(
    site,
    'findings',
    {
      path,
      title: 'Findings',
      about: 'Everything the checks found, worst first, and what they could not judge.',
    },
    {
      coverage: site.input.coverage ? COVERAGE_PATH : '',
      counts: countsOf([...shopWide, ...all], gaps),
      shopWide: shopWide.map((finding) => ({
        what: finding.what,
        href: assetHref(site, path, finding),
        fix: finding.fix,
        rule: finding.rule,
        written: site.input.showPlace?.(finding.at) ?? '',
      })),
      jobs,
    },
  )
}

/** A finding about a record leads to the page of its asset. */
function assetHref(site: Site, path: string, { at }: Finding): string {
  const record = site.map.assets.find((one) => one.at.doc === at.doc)
  return record ? linkTo(path, site.map.asset(record, 'html')) : ''
}
