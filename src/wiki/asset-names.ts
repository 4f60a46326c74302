import { uniqueSlugs } from '../base/slug.ts'
import type { AssetRecord } from '../commission/asset-record.ts'

/** A file name for each visit to each asset, without its ending. The visit that counts has the plain name, older ones their date. */
export function assetNames(records: readonly AssetRecord[]): ReadonlyMap<AssetRecord, string> {
  const texts = new Map<AssetRecord, string>()
  const taken = new Set<string>()
  for (const record of records) {
    const { installation, asset, date } = record.readings
    const base = record.superseded ? `${installation} ${asset} ${date}` : `${installation} ${asset}`
    let text = base
    for (let count = 2; taken.has(text); count++) text = `${base} ${count}`
    taken.add(text)
    texts.set(record, text)
  }
  const slugs = uniqueSlugs(taken)
  return new Map([...texts].map(([record, text]) => [record, slugs.get(text) ?? 'asset']))
}
