import { decidedIn } from '../report/policy-settings.ts'
import { makePage, type Site } from './page.ts'
import type { SiteFile } from './site-input.ts'

export const POLICY_PATH = 'policy.html'

/** What the shop has decided, with the reasons, and what it left at its default. */
export function policyPage(site: Site): SiteFile {
  const decided = decidedIn(site.input.shop.policy?.value)
  const rows = decided.map((row, index) => ({
    ...row,
    anchor: row.id.replace('.', '-'),
    from: row.stated ? 'this shop' : 'default',
    ownReason: row.ownReason ?? '',
    disagrees: row.disagrees ?? '',
    // Limits that belong together share their words; once is enough.
    tellsWho: row.disagrees !== undefined && row.disagrees !== decided[index - 1]?.disagrees,
  }))
  const facts = {
    path: POLICY_PATH,
    title: 'What the shop has decided',
    about: `Limits and choices of ${site.shopName}, each with its reason.`,
  }
  return makePage(site, 'policy', facts, {
    open: rows.filter(({ disagrees }) => disagrees !== ''),
    rest: rows.filter(({ disagrees }) => disagrees === ''),
  })
}
