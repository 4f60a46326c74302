import { colourLabel } from '../base/colour.ts'
import { bothSizes } from '../base/wire-size.ts'
import type { Conductor } from '../resolve/loom.ts'
import { sheetHead } from '../sheets/head.ts'
import { marginLine } from '../sheets/head-view.ts'
import { cableText, cableTitle, lengthText, pinName } from '../sheets/names.ts'
import { markup } from '../sheets/templates.ts'
import { anchor } from './anchor.ts'
import { countsOf, findingViews, notCheckedViews } from './finding-view.ts'
import type { HarnessEntry } from './harness-entries.ts'
import { historyPath } from './history-path.ts'
import { labelLinks } from './label-pages.ts'
import { netsHref } from './net-pages.ts'
import { ownPart } from './own-part.ts'
import { linkTo, makePage, type Site } from './page.ts'
import { paperLinks } from './paper-pages.ts'
import { pathData, pathMarkup } from './path-data.ts'
import { halfView } from './pinout-view.ts'
import type { Job, SiteFile } from './site-input.ts'
import { usesOfHarness } from './where-used.ts'

/** The page of one harness: drawing, papers, findings, every connector with its faces, every wire. */
export function harnessPage(site: Site, entry: HarnessEntry): SiteFile {
  const { harness, job, use } = entry
  const path = site.map.harness(harness.id) ?? ''
  const { loom } = job
  const own = ownPart(entry)
  const { context } = site.papers(entry)
  const wires = loom.conductors.filter((conductor) => conductor.loom === use)
  const facts = {
    path,
    title: harness.title,
    about: `Harness ${harness.id}: drawing, pinouts and working papers.`,
    margin: marginLine('Harness page', sheetHead(loom, use, 'Harness page')),
    scripts: ['path.js'],
  }
  return makePage(site, 'harness', facts, {
    id: harness.id,
    title: harness.title,
    revision: harness.revision ?? '',
    state: harness.state ?? 'draft',
    date: harness.date ?? '',
    notes: harness.notes ?? [],
    counts: countsOf(own.findings, own.notChecked),
    findings: findingViews(site, path, own),
    notChecked: notCheckedViews(site, path, own),
    drawings: site.input.pictures
      .harness(harness.id)
      .map((svg, index) => ({ svg: markup(svg), number: index + 1 })),
    formboard: markup(site.input.pictures.formboard?.(harness.id) ?? ''),
    hasFormboard: site.input.pictures.formboard?.(harness.id) !== undefined,
    benchHref: linkTo(path, site.map.bench(harness.id)),
    papers: [...paperLinks(site, path, entry), ...labelLinks(site, path, entry)],
    uses: usesOfHarness(site, path, harness.id),
    connectors: use.halves.map((half) => halfView(site, path, loom, half, context)),
    wires: wires.map((wire) => wireView(site, path, job, wire)),
    cables: use.cables.map((cable) => ({
      anchor: anchor('cable', cable.id),
      id: cable.id,
      title: cableTitle(cable),
      length: lengthText(loom, cable.source.length) || 'not stated',
      cores: cable.conductors.map((core) => ({ id: core.id, href: `#${anchor('wire', core.id)}` })),
    })),
    netsHref: netsHref(site, path, loom),
    parts: partViews(entry),
    revisions: harness.revisions ?? [],
    historyHref: linkTo(path, historyPath(site, harness)),
    paths: pathMarkup(pathData(site, path, loom, use)),
  })
}

function wireView(site: Site, path: string, job: Job, wire: Conductor) {
  const end = (terminal: Conductor['from']) => ({
    text: terminal ? pinName(terminal) : 'cut back',
    href: terminal ? linkTo(path, site.map.place(job.loom, terminal.address)) : '',
  })
  const link = job.loom.links.find((one) => one.conductor === wire)
  const joined = wire.from ?? wire.to
  const net = joined && job.loom.nets[job.loom.netOf[joined.index] ?? -1]
  return {
    anchor: anchor('wire', wire.id),
    address: wire.address,
    id: wire.id,
    net: { text: net?.name ?? '', href: linkTo(path, net && site.map.net(job.loom, net)) },
    from: end(wire.from),
    to: end(wire.to),
    colour: wire.colour ? colourLabel(wire.colour) : '',
    size: wire.size ? bothSizes(wire.size) : '',
    length: lengthText(job.loom, wire.lengthMm),
    cable: cableText(wire),
    sum: (link && job.solution.linkOhms[link.index]?.sum) ?? '',
    note: wire.source.note ?? '',
  }
}

/** Fuses, relays and splices of the run, each with its anchor. */
function partViews({ harness, job, use }: HarnessEntry) {
  const components = job.loom.components.filter((component) => component.loom === use)
  const splices = harness.splices ?? []
  const anchors = new Set<string>()
  return [
    ...components.map((component) => ({
      anchor: anchor('part', component.id),
      id: component.id,
      what: [component.source.kind, component.fusePart?.title ?? '', component.source.title ?? '']
        .filter((text) => text !== '')
        .join(', '),
    })),
    ...splices.map((splice) => ({
      anchor: anchor('splice', splice.id),
      id: splice.id,
      what: `${splice.kind ?? ''} splice${splice.zone ? `, ${splice.zone}` : ''}`.trim(),
    })),
  ].filter((part) => !anchors.has(part.anchor) && anchors.add(part.anchor))
}
