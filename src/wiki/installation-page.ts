import {
  formatAmps,
  formatCelsius,
  formatDays,
  formatOhms,
  formatVolts,
  formatWatts,
} from '../base/format-quantity.ts'
import type { Terminal } from '../resolve/loom.ts'
import { sheetHead } from '../sheets/head.ts'
import { marginLine } from '../sheets/head-view.ts'
import { halfName, pinName } from '../sheets/names.ts'
import { markup } from '../sheets/templates.ts'
import { anchor } from './anchor.ts'
import { countsOf, findingViews, notCheckedViews } from './finding-view.ts'
import { fleetLinks } from './fleet-links.ts'
import { netsHref } from './net-pages.ts'
import { linkTo, makePage, type Site } from './page.ts'
import { pathData, pathMarkup } from './path-data.ts'
import { questionViews } from './question-views.ts'
import type { Job, SiteFile } from './site-input.ts'

/** The page of one installation: findings, drawing, units, looms, what mates with what, and the figures of every state. */
export function installationPage(site: Site, job: Job): SiteFile {
  const { loom } = job
  const path = site.map.installation(loom.id) ?? ''
  const source = loom.source
  const facts = {
    path,
    title: loom.title,
    about: `Installation ${loom.id}: drawing, findings and figures.`,
    margin: marginLine('Installation page', sheetHead(loom, undefined, 'Installation page')),
    scripts: ['path.js'],
  }
  return makePage(site, 'installation', facts, {
    id: loom.id,
    title: loom.title,
    asset: 'asset' in source ? (source.asset ?? '') : '',
    revision: source.revision ?? '',
    setting: loom.setting,
    supply: loom.supplyVolts === undefined ? '' : formatVolts(loom.supplyVolts),
    ambient: formatCelsius(loom.ambientCelsius),
    notes: source.notes ?? [],
    whatIf: linkTo(path, site.map.whatIf(loom)),
    guideHref: linkTo(path, site.map.guide(loom, 'html')),
    recordHref: linkTo(path, site.map.record(loom, 'html')),
    ...fleetLinks(site, path, loom.id),
    guideMarkdown: linkTo(path, site.map.guide(loom, 'md')),
    counts: countsOf(job.findings, job.notChecked),
    findings: findingViews(site, path, job),
    notChecked: notCheckedViews(site, path, job),
    ...questionViews(site, path, job),
    drawings: site.input.pictures
      .installation(loom.id)
      .map((svg, index) => ({ svg: markup(svg), number: index + 1 })),
    diagram: markup(site.input.pictures.diagram?.(loom.id) ?? ''),
    hasDiagram: site.input.pictures.diagram?.(loom.id) !== undefined,
    units: loom.units.map((unit) => ({
      anchor: anchor('unit', unit.id),
      id: unit.id,
      title: unit.title,
      zone: unit.zone ?? '',
      href: linkTo(path, site.map.equipmentPage(unit.equipment.id)),
    })),
    looms: loom.looms.map((use) => ({
      id: use.id,
      title: use.harness.title,
      href: linkTo(path, site.map.harness(use.harness.id)),
    })),
    mates: matesOf(site, path, job),
    netsHref: netsHref(site, path, loom),
    ...figuresOf(site, path, job),
    paths: pathMarkup(pathData(site, path, loom, undefined)),
  })
}

function linkView(site: Site, path: string, job: Job, terminal: Terminal) {
  return { text: pinName(terminal), href: linkTo(path, site.map.place(job.loom, terminal.address)) }
}

function matesOf(site: Site, path: string, job: Job) {
  const seen = new Set<string>()
  return job.loom.halves.flatMap((half) => {
    if (half.side !== 'harness' || !half.mate || seen.has(half.address)) return []
    seen.add(half.mate.address)
    const side = (one: typeof half) => ({
      text: one.loom ? `${one.loom.id} ${halfName(one)}` : halfName(one),
      href: linkTo(path, site.map.place(job.loom, one.address)),
    })
    return [{ a: side(half), b: side(half.mate) }]
  })
}

/** Volts and amps of every load in every state, drain, and loudspeaker lines. */
function figuresOf(site: Site, path: string, job: Job) {
  const { states, drains, speakers } = job.solution
  return {
    states: states.map(({ state, loads, sources, wattsLost, converged, unsolved }) => ({
      title: state.title,
      converged,
      lost: formatWatts(wattsLost),
      sources: sources
        .filter((one) => one.amps !== 0)
        .map((one) => ({ ...linkView(site, path, job, one.terminal), amps: formatAmps(one.amps) })),
      loads: loads
        .filter((one) => one.amps !== 0)
        .map((one) => ({
          address: one.terminal.address,
          ...linkView(site, path, job, one.terminal),
          amps: formatAmps(one.amps),
          volts: formatVolts(one.volts),
          drop: formatVolts(one.dropVolts),
        })),
      unsolved: unsolved.map((one) => ({ ...linkView(site, path, job, one.terminal), needs: one.needs })),
    })),
    drains: drains.map((drain) => ({
      ...linkView(site, path, job, drain.source),
      amps: formatAmps(drain.amps),
      days:
        drain.days === undefined
          ? 'not known'
          : Number.isFinite(drain.days)
            ? formatDays(drain.days)
            : 'no drain',
      parts: drain.parts.map((part) => ({
        ...linkView(site, path, job, part.terminal),
        amps: formatAmps(part.amps),
        why: part.why,
      })),
    })),
    speakers: speakers.map((network) => ({
      ...linkView(site, path, job, network.hot),
      load: formatOhms(network.loadOhms),
      line: formatOhms(network.lineOhms),
      count: network.speakers.length,
    })),
  }
}
