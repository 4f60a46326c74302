import { asFittedHead, asFittedMarkdown } from '../commission/as-fitted.ts'
import { type AssetRecord, attentionOf } from '../commission/asset-record.ts'
import {
  ATTENTION_MARKS,
  ATTENTION_WORDS,
  issueWords,
  STANDING_WORDS,
  VERDICT_MARKS,
  VERDICT_WORDS,
} from '../commission/attention-words.ts'
import { GROUPS, RECORD_LIMITS } from '../commission/groups.ts'
import { type Judged, limitText, marginText } from '../commission/judge.ts'
import { GROUP_IDS } from '../commission/limit.ts'
import { headView, issueLine, runningLine } from '../sheets/head-view.ts'
import { qrMarkup } from '../sheets/qr.ts'
import { placeNear } from './finding-view.ts'
import { historyPath } from './history-path.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { SiteFile } from './site-input.ts'

const TITLE = 'As-fitted record'

/** What stands in one asset: equipment, looms, deviations, readings with verdicts, open points. A page to print, and Markdown. */
export function assetPages(site: Site, record: AssetRecord): SiteFile[] {
  const { readings, loom, counts } = record
  const path = site.map.asset(record, 'html')
  const attention = attentionOf(record)
  const head = asFittedHead(record)
  const page = makePage(
    site,
    'asset',
    {
      path,
      title: `${TITLE}: ${readings.asset}`,
      about: `What was fitted to ${readings.asset} and what was measured on it.`,
      paper: true,
    },
    {
      title: TITLE,
      subject: head.subject,
      match: head.match,
      head: headView(head),
      qr: qrMarkup(issueLine(head)),
      running: runningLine(TITLE, head),
      asset: readings.asset,
      superseded: record.superseded,
      attentionClass: attention.replaceAll(' ', '-'),
      attentionMark: ATTENTION_MARKS[attention],
      attentionWords: ATTENTION_WORDS[attention],
      counts,
      back: linkTo(path, 'fleet.html'),
      markdown: linkTo(path, site.map.asset(record, 'md')),
      links: linksOf(site, path, record),
      facts: factsOf(record),
      looms: loomsOf(site, path, record),
      equipment: equipmentOf(site, path, record),
      deviations: (readings.deviations ?? []).map((one) => ({
        at: one.at ?? '',
        href: one.at === undefined ? '' : linkTo(path, placeNear(site, loom, one.at)),
        what: one.what,
        why: one.why ?? '',
        by: one.by ?? '',
      })),
      open: readings.open ?? [],
      waivers: waiversOf(site, record),
      ...standingOpen(site, path, record),
      fails: record.lines
        .filter(({ verdict }) => verdict === 'fail')
        .map((line) => lineView(site, path, record, line)),
      groups: GROUP_IDS.map((group) => ({
        title: GROUPS[group].title,
        lines: record.lines
          .filter(({ limit }) => limit.group === group)
          .map((line) => lineView(site, path, record, line)),
      })).filter(({ lines }) => lines.length > 0),
      missing: record.limits.missing.map(({ what, needs }) => `${what}: the description lacks ${needs}`),
      older: olderOf(site, path, record),
      names: [
        ['Measured by', readings.by],
        ['Checked by', readings.checkedBy],
        ['Taken over by', readings.customer],
        ['Date', readings.date],
        ['Paper kept at', readings.kept],
      ].map(([name, value]) => ({ name, value: value ?? '' })),
      limits: RECORD_LIMITS,
    },
  )
  return [page, { path: site.map.asset(record, 'md'), content: asFittedMarkdown(record) }]
}

function linksOf(site: Site, path: string, { loom }: AssetRecord) {
  const { map } = site
  const installation = map.installation(loom.id) ?? ''
  return [
    {
      text: `Installation drawing, ${loom.title}`,
      href: linkTo(path, { path: installation, anchor: 'drawing' }),
    },
    ...loom.looms.map((use) => ({
      text: `Drawing and pinouts of ${use.id}, ${use.harness.title}`,
      href: linkTo(path, map.harness(use.harness.id)),
    })),
    { text: 'Install guide', href: linkTo(path, map.guide(loom, 'html')) },
    { text: 'Commissioning record, to measure again', href: linkTo(path, map.record(loom, 'html')) },
  ]
}

function factsOf({ readings, loom, fitted, standing, now }: AssetRecord) {
  const installed = `${issueWords(fitted)}; ${STANDING_WORDS[standing]}${standing === 'current' || standing === 'not stated' ? '' : ` (${issueWords(now)})`}`
  return [
    ['Installation', `${loom.title} (${loom.id})`],
    ['Fitted to', installed],
    ['Odometer or hours', readings.odometer],
    ['Test set', readings.testSet],
  ].flatMap(([name, value]) => (value === undefined ? [] : [{ name, value }]))
}

function loomsOf(site: Site, path: string, record: AssetRecord) {
  return record.looms.map((one) => {
    const harness = one.use?.harness
    return {
      id: one.id,
      title: harness?.title ?? '',
      href: linkTo(path, harness && site.map.harness(harness.id)),
      serial: one.serial,
      fitted: issueWords(one.fitted),
      standing: STANDING_WORDS[one.standing],
      now: one.standing === 'older' || one.standing === 'changed' ? issueWords(one.now) : '',
      stale: one.standing === 'older' || one.standing === 'changed',
      history: linkTo(path, harness && historyPath(site, harness)),
      later: one.later,
      bench:
        one.asBuilt === undefined
          ? ''
          : `made by ${one.asBuilt.madeBy || 'nobody named'}, tested by ${one.asBuilt.testedBy || 'nobody named'}, ${one.asBuilt.finished.slice(0, 10)}`,
      gaps: one.gaps,
    }
  })
}

function equipmentOf(site: Site, path: string, { loom, readings }: AssetRecord) {
  const told = new Map((readings.equipment ?? []).map((one) => [one.unit, one]))
  return loom.units.map((unit) => ({
    id: unit.id,
    title: unit.title,
    zone: unit.zone ?? '',
    href: linkTo(path, site.map.equipmentPage(unit.equipment.id)),
    serial: told.get(unit.id)?.serial ?? '',
    firmware: told.get(unit.id)?.firmware ?? '',
    settings: told.get(unit.id)?.settings ?? '',
  }))
}

/** Questions of the job that nobody has answered, and findings of its description, both of which stand for every asset. */
function standingOpen(site: Site, path: string, { loom }: AssetRecord) {
  const job = site.map.installations.find((one) => one.loom === loom)
  const questions = (job?.questions ?? []).filter(({ state }) => state === 'open')
  const open = (job?.findings ?? []).filter(({ level }) => level !== 'note')
  return {
    unanswered: questions.map(({ asking }) => asking.text),
    findings: open.map(({ what, level }) => ({ what, level })),
    findingsHref: linkTo(path, { path: site.map.installation(loom.id) ?? '', anchor: 'findings' }),
  }
}

/** What the shop has accepted on this installation. */
function waiversOf(site: Site, { loom }: AssetRecord) {
  const waivers = site.input.shop.policy?.value.waivers ?? []
  return waivers
    .filter(
      ({ at }) =>
        at === loom.id ||
        at.startsWith(`${loom.id}/`) ||
        loom.terminalAt.has(at) ||
        loom.conductorAt.has(at) ||
        loom.halfAt.has(at),
    )
    .map(({ rule, at, reason, by, date }) => ({ rule, at, reason, by, date }))
}

function lineView(site: Site, path: string, { loom }: AssetRecord, line: Judged) {
  const { limit, verdict, reading, note } = line
  return {
    what: limit.what,
    href: limit.address === undefined ? '' : linkTo(path, placeNear(site, loom, limit.address)),
    limit: limitText(limit),
    reading,
    verdict: VERDICT_WORDS[verdict],
    mark: VERDICT_MARKS[verdict],
    fails: verdict === 'fail',
    margin: marginText(line),
    note: note ?? '',
    sum: limit.sum,
    how: limit.how,
  }
}

/** Other visits to the same asset, latest first. */
function olderOf(site: Site, path: string, record: AssetRecord) {
  const { asset, installation } = record.readings
  return site.map.assets
    .filter(
      (one) => one !== record && one.readings.asset === asset && one.readings.installation === installation,
    )
    .sort((a, b) => (a.readings.date < b.readings.date ? 1 : -1))
    .map((one) => ({
      text: `${one.readings.date}${one.superseded ? '' : ', the one that counts'}`,
      href: linkTo(path, site.map.asset(one, 'html')),
      fails: one.counts.fail,
    }))
}
