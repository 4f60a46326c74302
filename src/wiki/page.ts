import { cssString } from '../base/escape.ts'
import { markup } from '../sheets/templates.ts'
import type { HarnessEntry } from './harness-entries.ts'
import { type HarnessPapers, rememberPapers } from './harness-papers.ts'
import type { Job, SiteFile, SiteInput } from './site-input.ts'
import { type SiteMap, siteMap, type Target } from './site-map.ts'

/** What every page is made with. */
export interface Site {
  readonly input: SiteInput
  readonly map: SiteMap
  readonly shopName: string
  /** Jobs with the worst first, as they are listed. */
  readonly jobs: readonly Job[]
  /** Papers of a harness and what they share, made once. */
  readonly papers: (entry: HarnessEntry) => HarnessPapers
}

export function openSite(input: SiteInput): Site {
  return {
    input,
    map: siteMap(input),
    shopName: shopNameOf(input),
    jobs: worstFirst(input.looms),
    papers: rememberPapers(input.changeSheets),
  }
}

const weight = ({ findings }: Job): number =>
  findings.reduce((sum, { level }) => sum + (level === 'stop' ? 1e6 : level === 'warning' ? 1e3 : 1), 0)

/** Equal ones keep the order in which they are described. */
const worstFirst = (jobs: readonly Job[]): Job[] => [...jobs].sort((a, b) => weight(b) - weight(a))

const shopNameOf = (input: SiteInput): string => input.shop.policy?.value.shop ?? 'Workshop'

/** The way from a page back to the root of the site: pages are at most one folder deep. */
export const rootOf = (path: string): string => '../'.repeat(path.split('/').length - 1)

/** A link from one page to a spot on another, as it stands in `href`. */
export function linkTo(from: string, target: Target | string | undefined): string {
  if (target === undefined) return ''
  const { path, anchor } = typeof target === 'string' ? { path: target, anchor: undefined } : target
  const hash = anchor === undefined ? '' : `#${anchor}`
  return path === from && hash !== '' ? hash : `${rootOf(from)}${path}${hash}`
}

export interface PageFacts {
  readonly path: string
  readonly title: string
  /** One plain sentence for search engines and shared links. */
  readonly about: string
  readonly scripts?: readonly string[]
  /** Style sheets of this page alone, among {@link OWN_STYLES}. */
  readonly styles?: readonly string[]
  /** Papers are printed without the site around them. */
  readonly paper?: boolean
  /** What the margin of each printed page says besides its number; the title when left out. */
  readonly margin?: string
}

/** Style sheets that only the pages which ask for them load; every other one is loaded by every page. */
const OWN_STYLES: ReadonlySet<string> = new Set(['bench.css'])

/** Fills a page template in and puts it into the layout. */
export function makePage(site: Site, template: string, facts: PageFacts, data: object): SiteFile {
  const root = rootOf(facts.path)
  const common = { root, shop: site.shopName }
  const { templates } = site.input
  const body = templates.render(template, { ...common, ...data })
  const content = templates.render('layout', {
    ...common,
    title: facts.title,
    about: facts.about,
    styles: Object.keys(site.input.assets).filter(
      (name) => name.endsWith('.css') && (!OWN_STYLES.has(name) || facts.styles?.includes(name)),
    ),
    scripts: facts.scripts ?? [],
    paper: facts.paper ?? false,
    margin: cssString(facts.margin ?? facts.title),
    home: facts.path === 'index.html',
    body: markup(body),
  })
  return { path: facts.path, content }
}
