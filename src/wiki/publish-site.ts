import type { Loom } from '../resolve/loom.ts'
import { assetPages } from './asset-page.ts'
import { benchPage } from './bench-page.ts'
import { connectorPage } from './connector-page.ts'
import { coveragePage } from './coverage-page.ts'
import { equipmentPage } from './equipment-page.ts'
import { findPage } from './find-page.ts'
import { findingsPage } from './findings-page.ts'
import { fleetPages } from './fleet-page.ts'
import { guidePages } from './guide-pages.ts'
import { harnessPage } from './harness-page.ts'
import { historyPage } from './history-page.ts'
import { indexPage } from './index-page.ts'
import { installationPage } from './installation-page.ts'
import { labelPages } from './label-pages.ts'
import { netPages } from './net-pages.ts'
import { openSite } from './page.ts'
import { paperPages } from './paper-pages.ts'
import { policyPage } from './policy-page.ts'
import { recordPages } from './record-page.ts'
import { rulePages } from './rule-pages.ts'
import type { SiteFile, SiteInput } from './site-input.ts'
import { whatIfPage } from './what-if-page.ts'

/**
 * Gives the files of a part of the site as they were made before, or has them made. They show one job; of the rest of the shop only names,
 * titles and places, so they are the same as long as the job and those are.
 */
export type KeepPages = (part: string, loom: Loom, make: () => readonly SiteFile[]) => readonly SiteFile[]

/**
 * The whole shop as a static site: opens from disk, needs no server and no network. The same input gives the same bytes.
 * Throws `TemplateError` when a template is broken, and nothing else.
 */
export function publishSite(input: SiteInput, keep: KeepPages = (_, __, make) => make()): SiteFile[] {
  const site = openSite(input)
  const { map } = site
  return [
    indexPage(site),
    findingsPage(site),
    ...map.installations.flatMap((job) =>
      keep('installation', job.loom, () => [
        installationPage(site, job),
        ...recordPages(site, job),
        whatIfPage(site, job),
      ]),
    ),
    ...map.assets.flatMap((record) => assetPages(site, record)),
    ...fleetPages(site),
    ...map.harnesses.flatMap((entry) =>
      keep(`harness ${entry.harness.id}`, entry.job.loom, () => [
        harnessPage(site, entry),
        benchPage(site, entry),
        ...paperPages(site, entry),
        ...labelPages(site, entry),
        ...historyPage(site, entry),
      ]),
    ),
    ...input.looms.flatMap((job) =>
      keep('job', job.loom, () => [...guidePages(site, job), ...netPages(site, job)]),
    ),
    ...map.equipment.map((one) => equipmentPage(site, one)),
    ...map.connectors.flatMap((key) => connectorPage(site, key)),
    ...rulePages(site),
    ...coveragePage(site),
    policyPage(site),
    ...findPage(site),
    ...Object.entries(input.assets).map(([name, content]) => ({ path: `assets/${name}`, content })),
  ]
}
