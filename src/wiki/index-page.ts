import { countsOf, findingViews, pageOf } from './finding-view.ts'
import { fleetLinks } from './fleet-links.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { SiteFile } from './site-input.ts'
import { connectorName } from './site-map.ts'

/** How many stops the first page names; the rest are a link away. */
const MOST_SHOWN = 5

/** The first page: what was found, and the way to everything. */
export function indexPage(site: Site): SiteFile {
  const path = 'index.html'
  const { map, input } = site
  const { jobs } = site
  const all = [...(input.shopFindings ?? []), ...jobs.flatMap((job) => job.findings)]
  const counts = countsOf(
    all,
    jobs.flatMap((job) => job.notChecked),
  )
  const stops = jobs.flatMap((job) =>
    findingViews(site, path, {
      ...job,
      findings: job.findings.filter((finding) => finding.level === 'stop'),
    }).map((view) => ({ ...view, job: job.loom.title })),
  )
  return makePage(
    site,
    'index',
    { path, title: site.shopName, about: `Harnesses, installations and findings of ${site.shopName}.` },
    {
      counts,
      stops: stops.slice(0, MOST_SHOWN),
      moreStops: Math.max(0, stops.length - MOST_SHOWN),
      jobs: jobs.map((job) => ({
        title: job.loom.title,
        kind: job.loom.kind,
        id: job.loom.id,
        href: linkTo(path, pageOf(site, job.loom)),
        guide: linkTo(path, map.guide(job.loom, 'html')),
        record: job.loom.kind === 'installation' ? linkTo(path, map.record(job.loom, 'html')) : '',
        counts: countsOf(job.findings, job.notChecked),
      })),
      ...fleetLinks(site, path),
      harnesses: map.harnesses.map(({ harness }) => ({
        title: harness.title,
        id: harness.id,
        revision: harness.revision ?? '',
        href: linkTo(path, map.harness(harness.id)),
      })),
      equipment: map.equipment.map((one) => ({
        title: one.title,
        id: one.id,
        href: linkTo(path, map.equipmentPage(one.id)),
      })),
      connectors: map.connectors.map((key) => ({
        title: connectorName(key),
        href: linkTo(path, map.connector(key)),
      })),
    },
  )
}
