import { cautionsOf, GROUPS, RECORD_LIMITS } from '../commission/groups.ts'
import { limitText } from '../commission/judge.ts'
import { GROUP_IDS, type Limit } from '../commission/limit.ts'
import { limitsOf } from '../commission/limits-of.ts'
import { pageLimit } from '../commission/page-limits.ts'
import { cannotPass, expectedText, recordPaper, recordTable } from '../commission/record-paper.ts'
import { READINGS_VERSION } from '../describe/readings.ts'
import type { Unit } from '../resolve/loom.ts'
import { toCsv } from '../sheets/csv.ts'
import { toMarkdown } from '../sheets/markdown.ts'
import { matchCodeOf } from '../sheets/match-code.ts'
import { sheetView } from '../sheets/sheet-view.ts'
import { anchor } from './anchor.ts'
import { placeNear } from './finding-view.ts'
import { linkTo, makePage, type Site } from './page.ts'
import type { Job, SiteFile } from './site-input.ts'

/** The commissioning record of an installation as a page that is filled in and judges on the spot, as Markdown, and as CSV. */
export function recordPages(site: Site, job: Job): SiteFile[] {
  const { loom, solution } = job
  const limits = limitsOf(loom, solution)
  const path = site.map.record(loom, 'html')
  const sheet = recordPaper(loom, solution.paths, limits)
  const page = makePage(
    site,
    'record',
    {
      path,
      title: `Commissioning record: ${loom.title}`,
      about: `Commissioning record of ${loom.title}: limits worked out from the job, readings judged on the spot.`,
      scripts: ['record.js'],
      paper: true,
    },
    {
      sheet: sheetView(sheet),
      back: linkTo(path, site.map.installation(loom.id)),
      backText: loom.title,
      markdown: linkTo(path, site.map.record(loom, 'md')),
      csv: linkTo(path, site.map.record(loom, 'csv')),
      fleet: site.map.assets.length > 0 ? linkTo(path, 'fleet.html') : '',
      looms: loom.looms.map((use) => ({
        id: use.id,
        title: use.harness.title,
        href: linkTo(path, site.map.harness(use.harness.id)),
        revision: use.harness.revision ?? '',
        match: matchCodeOf(loom, use),
      })),
      units: loom.units.filter(hasFirmware).map(({ id, title }) => ({ id, title })),
      plainUnits: loom.units.filter((unit) => !hasFirmware(unit)).map(({ id, title }) => ({ id, title })),
      groups: GROUP_IDS.map((group) => ({
        id: group,
        title: GROUPS[group].title,
        note: GROUPS[group].note,
        cautions: cautionsOf(loom, solution.paths, group).map(({ title, text, hazard }) => ({
          title,
          text,
          hazard,
        })),
        lines: limits.limits
          .filter((limit) => limit.group === group)
          .map((limit) => lineView(site, path, job, limit)),
      })).filter(({ lines }) => lines.length > 0),
      missing: limits.missing.map(({ what, needs, address }) => ({
        what,
        needs,
        href: address === undefined ? '' : linkTo(path, placeNear(site, loom, address)),
      })),
      limits: RECORD_LIMITS,
      data: JSON.stringify({
        version: READINGS_VERSION,
        installation: loom.id,
        revision: loom.source.revision,
        match: sheet.head.match,
        limits: Object.fromEntries(limits.limits.map((limit) => [limit.id, pageLimit(limit)])),
      }),
    },
  )
  return [
    page,
    { path: site.map.record(loom, 'md'), content: toMarkdown(sheet) },
    { path: site.map.record(loom, 'csv'), content: toCsv(recordTable(loom, solution.paths, limits)) },
  ]
}

const WITH_FIRMWARE: ReadonlySet<Unit['equipment']['role']> = new Set([
  'transceiver',
  'control',
  'modem',
  'console',
  'intercom',
  'instrument',
])

/** Whether a unit may hold programs and settings; a foot switch called "control" has no supply of its own. */
const hasFirmware = (unit: Unit): boolean =>
  WITH_FIRMWARE.has(unit.equipment.role) &&
  unit.halves.some((half) => [...half.pins.values()].some(({ does }) => does.kind === 'supply-in'))

function lineView(site: Site, path: string, { loom }: Job, limit: Limit) {
  return {
    anchor: anchor('limit', limit.id),
    id: limit.id,
    what: limit.what,
    how: limit.how,
    limit: limitText(limit),
    expected: expectedText(limit),
    look: limit.kind === 'look',
    example:
      limit.kind === 'figure' ? `in ${limit.unit.startsWith(':') ? 'x:1, dB, or W / W' : limit.unit}` : '',
    cannotPass: cannotPass(limit),
    sum: limit.sum,
    source: limit.source,
    rule: limit.rule ?? '',
    ruleHref: limit.rule === undefined ? '' : linkTo(path, site.map.rule(limit.rule)),
    href: limit.address === undefined ? '' : linkTo(path, placeNear(site, loom, limit.address)),
  }
}
