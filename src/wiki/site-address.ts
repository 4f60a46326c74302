import type { Site } from './page.ts'

/** The full address of a page where the shop says under which its wiki is published; undefined otherwise. */
export function siteAddress(site: Site, path: string | undefined): string | undefined {
  const base = site.input.shop.policy?.value.site
  if (base === undefined || path === undefined) return undefined
  return `${base.replace(/\/+$/, '')}/${path}`
}
