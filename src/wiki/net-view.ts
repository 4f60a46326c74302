import { colourLabel } from '../base/colour.ts'
import { formatAmps, formatOhms, formatVolts } from '../base/format-quantity.ts'
import { bothSizes } from '../base/wire-size.ts'
import type { Conductor, Link, Net, Terminal } from '../resolve/loom.ts'
import { functionWords } from '../sheets/function-words.ts'
import { cableText, halfName, lengthText, pinName } from '../sheets/names.ts'
import type { Sheet } from '../sheets/sheet.ts'
import { addressIn } from './address-in.ts'
import { anchor } from './anchor.ts'
import { findingHref, LEVEL_MARKS, LEVEL_WORDS } from './finding-view.ts'
import type { HarnessEntry } from './harness-entries.ts'
import { linkTo, type Site } from './page.ts'
import type { Job } from './site-input.ts'
import { owningUse } from './terminal-owner.ts'

interface LinkView {
  readonly text: string
  readonly href: string
}

/** What the nets of one job are shown with. */
export interface NetContext {
  readonly site: Site
  /** Page the views stand on. */
  readonly path: string
  readonly job: Job
  /** Harnesses of the job with their papers: a harness has one set of papers, made where it is shown. */
  readonly harnesses: readonly HarnessEntry[]
  readonly linkOf: ReadonlyMap<Conductor, Link>
}

/** One net with everything on it, as the template sees it. */
export function netView(context: NetContext, net: Net) {
  const { job } = context
  const wires = net.conductors.map((wire) => wireView(context, wire))
  return {
    id: anchor('net', net.name),
    name: net.name,
    words: netWords(job, net),
    states: voltsOf(job, net),
    feeds: feedsOf(context, net),
    pins: net.terminals
      .filter((terminal) => terminal.on !== 'splice')
      .map((terminal) => pinView(context, terminal)),
    wires,
    hasCable: wires.some(({ cable }) => cable !== ''),
    hasAmps: wires.some(({ amps }) => amps !== ''),
    splices: net.terminals
      .filter((terminal) => terminal.on === 'splice')
      .map((terminal) => placed(context, terminal.address, ownName(context, terminal))),
    joints: jointsOf(context, net),
    findings: findingsOf(context, net),
    ringOut: ringOutOf(context, net),
  }
}

function placed({ site, path, job }: NetContext, address: string, text: string): LinkView {
  return { text, href: linkTo(path, site.map.place(job.loom, address)) }
}

/** A pin by its name, behind that of its harness where the job has several. */
function ownName({ job }: NetContext, terminal: Terminal): string {
  const use = owningUse(job.loom, terminal)
  return use && job.loom.looms.length > 1 ? `${use.id} ${pinName(terminal)}` : pinName(terminal)
}

/** What a net is for, in a few words: ground, supply, or the signals that its equipment pins name. */
function netWords({ loom, solution }: Job, net: Net): string {
  const { nets, supply } = solution.paths
  const ground = nets.groundAt(net)
  if (ground) return `ground, at ${pinName(ground)}`
  const [first] = net.terminals
  if (net.terminals.some(({ does }) => does.kind === 'supply-out')) return 'supply, straight from its source'
  if (first && supply.supplies(first).length > 0) return 'supply'
  const types = net.terminals
    .filter((terminal) => terminal.on === 'equipment' && terminal.does.kind !== 'unstated')
    .map(({ does }) => functionWords(does).type)
  const words = [...new Set(types)].slice(0, 4)
  return words.length > 0 ? words.join('; ') : loom.kind === 'harness' ? 'use not stated' : ''
}

/** Volts in each state against the battery's return, where the solver has a figure. */
function voltsOf({ solution }: Job, net: Net) {
  return solution.states.flatMap(({ state, volts }) => {
    const known = net.terminals.map((terminal) => volts[terminal.index] ?? Number.NaN).filter(Number.isFinite)
    if (known.length === 0) return []
    const [low, high] = [Math.min(...known), Math.max(...known)].map((value) => formatVolts(value))
    return [{ state: state.title, text: low === high ? `${low}` : `${low} to ${high}` }]
  })
}

/** Each supply that reaches the net, with the fuses it comes through. */
function feedsOf(context: NetContext, net: Net) {
  const { solution } = context.job
  const [first] = net.terminals
  if (!first || solution.paths.nets.isGround(net)) return []
  return solution.paths.supply.supplies(first).map(({ source, fuses }) => ({
    source: placed(context, source.address, pinName(source)),
    volts: functionWords(source.does).volts,
    fuses: fuses.map((fuse) => {
      const rating = fuse.source.kind === 'fuse' ? (fuse.source.rating ?? fuse.fusePart?.rating) : undefined
      const owner = fuse.unit?.id ?? (context.job.loom.looms.length > 1 ? fuse.loom?.id : undefined)
      const name = owner === undefined ? fuse.id : `${owner} ${fuse.id}`
      return placed(
        context,
        fuse.address,
        `${name}, ${rating === undefined ? 'rating not stated' : formatAmps(rating)}`,
      )
    }),
  }))
}

function pinView(context: NetContext, terminal: Terminal) {
  const { half, component } = terminal
  // A loom's pin only repeats what the equipment pin it fits is for; where there is none, it is all there is.
  const told = terminal.on === 'equipment' || (half && !half.mate)
  const words = functionWords(told ? terminal.does : { kind: 'unstated' })
  const owner =
    half?.unit?.title ?? half?.loom?.harness.title ?? component?.unit?.title ?? component?.loom?.harness.title
  return {
    ...placed(context, terminal.address, ownName(context, terminal)),
    on: [half?.title ?? component?.source.title ?? component?.source.kind ?? '', owner ?? '']
      .filter((text) => text !== '')
      .join(', '),
    signal: words.signal,
    does:
      !told || terminal.does.kind === 'unstated'
        ? ''
        : [words.type, words.direction].filter((text) => text !== '').join(', '),
    figures: [words.volts, words.amps, words.level].filter((text) => text !== '').join(', '),
  }
}

function wireView(context: NetContext, wire: Conductor) {
  const { job } = context
  const link = context.linkOf.get(wire)
  const worst = job.solution.worstAmps.get(wire)
  const ohms = link && job.solution.linkOhms[link.index]
  const several = job.loom.looms.length > 1
  return {
    ...placed(context, wire.address, several ? `${wire.loom.id} ${wire.id}` : wire.id),
    from: wire.from ? pinName(wire.from) : 'cut back',
    to: wire.to ? pinName(wire.to) : 'cut back',
    colour: wire.colour ? colourLabel(wire.colour) : '',
    size: wire.size ? bothSizes(wire.size) : '',
    length: lengthText(job.loom, wire.lengthMm),
    cable: cableText(wire),
    ohms: ohms ? formatOhms(ohms.ohms) : '',
    amps: worst && worst.amps > 0 ? `${formatAmps(worst.amps)}, ${worst.state.title}` : '',
  }
}

/** Mated halves that the net passes through. */
function jointsOf(context: NetContext, net: Net) {
  const seen = new Map<string, { a: LinkView; b: LinkView }>()
  for (const terminal of net.terminals)
    for (const link of context.job.loom.linksAt[terminal.index] ?? []) {
      const [a, b] = [link.a.half, link.b.half]
      if (link.kind !== 'mate' || !a || !b) continue
      const side = (half: typeof a) =>
        placed(
          context,
          half.address,
          half.loom && context.job.loom.looms.length > 1 ? `${half.loom.id} ${half.id}` : halfName(half),
        )
      seen.set(`${a.address} ${b.address}`, { a: side(a), b: side(b) })
    }
  return [...seen.values()]
}

/** Findings about anything on the net, with the place where each is told in full. */
function findingsOf({ site, path, job }: NetContext, net: Net) {
  const own = new Set([...net.terminals, ...net.conductors].map(({ address }) => address))
  return job.findings.flatMap((finding, index) => {
    const places = [addressIn(job.loom, finding.subject), ...finding.marks]
    if (!places.some((place) => own.has(place))) return []
    const { level, what } = finding
    return [
      {
        level,
        levelWord: LEVEL_WORDS[level],
        levelMark: LEVEL_MARKS[level],
        what,
        href: findingHref(site, path, job.loom, index),
      },
    ]
  })
}

/** What the ring-out sheets of its harnesses ask about the net. */
function ringOutOf({ site, path, harnesses }: NetContext, net: Net) {
  return harnesses.flatMap((entry) => {
    const { use } = entry
    const own = net.terminals.filter((terminal) => terminal.address.startsWith(`${use.id}.`))
    const sheet = site.papers(entry).sheets.find(({ id }) => id === 'ring-out')
    if (!sheet || own.length === 0) return []
    const steps = stepsAt(sheet, new Set(own.map(pinName)), new Set(own.map(({ address }) => address)))
    const href = linkTo(path, site.map.paper(entry.harness.id, 'ring-out', 'html'))
    return steps.length === 0 ? [] : [{ title: entry.harness.title, href, steps }]
  })
}

/** Steps with a probe on one of these pins. */
function stepsAt(sheet: Sheet, names: ReadonlySet<string>, addresses: ReadonlySet<string>) {
  return sheet.sections.flatMap(({ title, rows }) =>
    rows
      .filter(
        ({ cells, address }) =>
          names.has(cells.a ?? '') ||
          names.has(cells.b ?? '') ||
          (title === 'Continuity' && address !== undefined && addresses.has(address)),
      )
      .map(({ cells }) => ({
        step: cells.step ?? '',
        a: cells.a ?? '',
        b: cells.b ?? '',
        through: cells.through ?? '',
        expect: cells.expect ?? '',
      })),
  )
}
