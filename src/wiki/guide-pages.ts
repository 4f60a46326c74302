import { guideMarkdown } from '../guide/guide-markdown.ts'
import { guideView } from '../guide/guide-view.ts'
import { installGuide } from '../guide/install-guide.ts'
import { marginLine } from '../sheets/head-view.ts'
import { pageOf } from './finding-view.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { Job, SiteFile } from './site-input.ts'

/** The install guide of one job as a page to print and as Markdown. */
export function guidePages(site: Site, job: Job): SiteFile[] {
  const { loom, solution, findings } = job
  const path = site.map.guide(loom, 'html')
  const facts = { loom, solution, findings, ruleIds: site.input.rules.map((rule) => rule.id) }
  const href = (address: string): string | undefined => {
    const target = address.startsWith('rule ')
      ? site.map.rule(address.slice('rule '.length))
      : site.map.place(loom, address)
    return target === undefined ? undefined : linkTo(path, target)
  }
  const { procedures } = site.input.shop
  const guide = installGuide(facts, procedures, href)
  const about = {
    path,
    title: `Install guide: ${loom.title}`,
    about: `Install guide of ${loom.title}.`,
    paper: true,
    margin: marginLine(guide.title, guide.head),
  }
  const page = makePage(site, 'guide', about, {
    guide: guideView(guide, href),
    back: linkTo(path, pageOf(site, loom)),
    backText: loom.title,
    markdown: linkTo(path, site.map.guide(loom, 'md')),
  })
  return [page, { path: site.map.guide(loom, 'md'), content: guideMarkdown(installGuide(facts, procedures)) }]
}
