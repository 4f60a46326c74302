import { type AssetRecord, attentionOf } from '../commission/asset-record.ts'
import {
  ATTENTION_MARKS,
  ATTENTION_WORDS,
  issueWords,
  reworkWords,
  STANDING_WORDS,
} from '../commission/attention-words.ts'
import { fleetOf, fleetSheet } from '../commission/fleet.ts'
import { marginText } from '../commission/judge.ts'
import { toCsv } from '../sheets/csv.ts'
import { toMarkdown } from '../sheets/markdown.ts'
import { historyPath } from './history-path.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { SiteFile } from './site-input.ts'

const PATH = 'fleet.html'

/** Which asset has which revision, what deviates, what failed, and what has to be done. None where no asset was measured. */
export function fleetPages(site: Site): SiteFile[] {
  const records = site.map.assets
  if (records.length === 0) return []
  const fleet = fleetOf(records)
  const count = (wanted: string) => fleet.filter((record) => attentionOf(record) === wanted).length
  const page = makePage(
    site,
    'fleet',
    {
      path: PATH,
      title: 'Fleet',
      about: 'Which asset has which revision and what it asks for.',
      scripts: ['fleet.js'],
    },
    {
      counts: (['failed', 'stale', 'deviates', 'not measured', 'in order'] as const).map((attention) => ({
        attention,
        mark: ATTENTION_MARKS[attention],
        words: ATTENTION_WORDS[attention],
        count: count(attention),
      })),
      assets: fleet.map((record, index) => assetView(site, record, index)),
    },
  )
  const sheet = fleetSheet(records, site.input.shop.policy?.value.shop)
  return [
    page,
    { path: 'fleet.csv', content: toCsv(sheet) },
    { path: 'fleet.md', content: toMarkdown(sheet) },
  ]
}

function assetView(site: Site, record: AssetRecord, index: number) {
  const { readings, loom, counts } = record
  const attention = attentionOf(record)
  return {
    rank: index,
    asset: readings.asset,
    href: linkTo(PATH, site.map.asset(record, 'html')),
    attentionClass: attention.replaceAll(' ', '-'),
    mark: ATTENTION_MARKS[attention],
    words: ATTENTION_WORDS[attention],
    installation: loom.title,
    installationHref: linkTo(PATH, site.map.installation(loom.id)),
    date: readings.date,
    by: readings.by ?? '',
    counts,
    looms: record.looms.map((one) => ({
      id: one.id,
      fitted: issueWords(one.fitted),
      standing: STANDING_WORDS[one.standing],
      stale: one.standing === 'older' || one.standing === 'changed',
      now: issueWords(one.now),
      history: linkTo(PATH, one.use && historyPath(site, one.use.harness)),
    })),
    fails: record.lines
      .filter(({ verdict }) => verdict === 'fail')
      .map((line) => ({ what: line.limit.what, reading: line.reading, margin: marginText(line) })),
    deviations: (readings.deviations ?? []).map(({ at, what }) => ({ at: at ?? '', what })),
    open: readings.open ?? [],
    rework: reworkWords(record),
  }
}
