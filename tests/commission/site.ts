import { readFileSync } from 'node:fs'
import { judgeRecords } from '../../src/commission/judge-records.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { readRecords } from '../../src/describe/shop-records.ts'
import { publishSite } from '../../src/wiki/publish-site.ts'
import type { SiteFile } from '../../src/wiki/site-input.ts'
import { siteInput } from '../wiki/site-parts.ts'
import { fitted } from './fitted-shop.ts'

const scripts = ['record.js', 'fleet.js'].map((name) => [
  name,
  readFileSync(new URL(`../../site/${name}`, import.meta.url), 'utf8'),
])

/** The whole site of a description with the pages of its records. */
export async function siteWith(
  files: readonly (readonly [name: string, data: unknown])[],
  data: DocumentInput = fitted,
): Promise<SiteFile[]> {
  const input = await siteInput(data)
  const { records } = readRecords(files.map(([name, content]) => ({ name, data: content })))
  const commissioned = judgeRecords(records, input.looms)
  return publishSite({ ...input, commissioned, assets: { ...input.assets, ...Object.fromEntries(scripts) } })
}
