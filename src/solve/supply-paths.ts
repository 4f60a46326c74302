import type { ComponentUse, Conductor, Link, Loom, Terminal } from '../resolve/loom.ts'
import { across, type Crosses, type Tree, throughSupply, walk } from './reach.ts'
import { returnPin } from './return-pin.ts'

/** One way in which a supply reaches a terminal. */
export interface Supply {
  readonly source: Terminal
  /** The terminal reached. */
  readonly to: Terminal
  /** Links from the source to the terminal, in order. */
  readonly links: readonly Link[]
  /** Fuses on the way, nearest the source first. */
  readonly fuses: readonly ComponentUse[]
}

/** A fuse met first on the way from a source, and what lies before it. */
export interface FirstFuse {
  readonly fuse: ComponentUse
  readonly links: readonly Link[]
  /** Conductor length from the source to the fuse; undefined where a length is not given. */
  readonly lengthMm: number | undefined
}

export interface Unfused {
  readonly source: Terminal
  /** Conductors that carry the source's energy with no fuse before them. */
  readonly conductors: readonly Conductor[]
  readonly firstFuses: readonly FirstFuse[]
  /** Loads (supply inputs) reached with no fuse on the way. */
  readonly loads: readonly Supply[]
  /** Conductors before a fuse whose whole branch never meets one: the far end is no fuse. */
  readonly dead: readonly Conductor[]
}

export interface SupplyPaths {
  /** Supply pins of equipment: batteries first. */
  readonly sources: readonly Terminal[]
  /** Everything a source can feed. */
  tree(source: Terminal): Tree
  /** The supplies that can reach a terminal, with path and fuses. Its own pin is no supply to itself. */
  supplies(terminal: Terminal): readonly Supply[]
  /** What lies between a source and the first fuses. */
  unfused(source: Terminal): Unfused
  /** The supplies of a conductor with the fuses before it; the last of them protects it. */
  above(conductor: Conductor): readonly Supply[]
  /** The fuses nearest above a conductor; with no fuse above for a source, `undefined` in the list. */
  protectors(
    conductor: Conductor,
  ): readonly { readonly source: Terminal; readonly fuse: ComponentUse | undefined }[]
  /** Conductors below a fuse as far as the next fuses, on the side away from the source. */
  conductorsBelow(fuse: ComponentUse): readonly Conductor[]
  /** Supply inputs below a fuse, through further fuses too. */
  loadsBelow(fuse: ComponentUse): readonly Terminal[]
  /** From a load's return pin to the return of the source that feeds it. Undefined without a way back. */
  returnPath(
    load: Terminal,
    source: Terminal,
  ): { readonly from: Terminal; readonly to: Terminal; readonly links: readonly Link[] } | undefined
}

const fusesOn = (links: readonly Link[]): ComponentUse[] =>
  links.flatMap((link) => (link.kind === 'fuse' && link.component ? [link.component] : []))

/** The supply side of a loom: which source feeds what, through which fuses. One walk a source, kept. */
export function makeSupplyPaths(loom: Loom): SupplyPaths {
  const sources = loom.terminals
    .filter((terminal) => terminal.on === 'equipment' && terminal.does.kind === 'supply-out')
    .sort((a, b) => Number(isBattery(b)) - Number(isBattery(a)) || a.index - b.index)
  const trees = new Map<Terminal, Tree>()
  const tree = (source: Terminal): Tree => {
    const kept = trees.get(source)
    if (kept) return kept
    const made = walk(loom, source, throughSupply)
    trees.set(source, made)
    return made
  }
  const supplies = (terminal: Terminal): Supply[] =>
    sources.flatMap((source) => {
      const links = source === terminal ? undefined : tree(source).pathTo(terminal)
      return links ? [{ source, to: terminal, links, fuses: fusesOn(links) }] : []
    })
  const above = (conductor: Conductor): Supply[] => {
    const { from, to } = conductor
    if (!from || !to) return []
    return sources.flatMap((source) => {
      const reached = tree(source)
      const [a, b] = [reached.rank(from), reached.rank(to)]
      if (a < 0 || b < 0) return []
      const near = a <= b ? from : to
      const links = reached.pathTo(near) ?? []
      return [{ source, to: near, links, fuses: fusesOn(links) }]
    })
  }
  return {
    sources,
    tree,
    supplies,
    above,
    unfused: (source) => beforeFuses(loom, source),
    protectors: (conductor) => above(conductor).map(({ source, fuses }) => ({ source, fuse: fuses.at(-1) })),
    conductorsBelow: (fuse) => below(loom, sources, tree, fuse, true).conductors,
    loadsBelow: (fuse) => below(loom, sources, tree, fuse, false).loads,
    returnPath: makeReturnPath(loom),
  }
}

export function isBattery(terminal: Terminal): boolean {
  if (terminal.does.kind !== 'supply-out') return false
  return terminal.does.battery === true || terminal.half?.unit?.equipment.role === 'battery'
}

function beforeFuses(loom: Loom, source: Terminal): Unfused {
  const tree = walk(loom, source, (link, from) => link.kind !== 'fuse' && throughSupply(link, from))
  const conductors = new Set<Conductor>()
  const toFuse = new Set<Conductor>()
  const firstFuses: FirstFuse[] = []
  const loads: Supply[] = []
  for (const terminal of tree.order) {
    for (const link of loom.linksAt[terminal.index] ?? []) {
      if (link.conductor) conductors.add(link.conductor)
      if (
        link.kind !== 'fuse' ||
        !link.component ||
        firstFuses.some((first) => first.fuse === link.component)
      )
        continue
      const links = tree.pathTo(terminal) ?? []
      for (const before of links) if (before.conductor) toFuse.add(before.conductor)
      firstFuses.push({ fuse: link.component, links, lengthMm: totalLength(links) })
    }
    if (terminal.on === 'equipment' && terminal.does.kind === 'supply-in')
      loads.push({ source, to: terminal, links: tree.pathTo(terminal) ?? [], fuses: [] })
  }
  const all = [...conductors]
  return {
    source,
    conductors: all,
    firstFuses,
    loads,
    dead: all.filter((conductor) => !toFuse.has(conductor)),
  }
}

/** Conductor length along a path; undefined where one is not given. */
export function totalLength(links: readonly Link[]): number | undefined {
  let sum = 0
  for (const link of links) {
    if (!link.conductor) continue
    if (link.conductor.lengthMm === undefined) return undefined
    sum += link.conductor.lengthMm
  }
  return sum
}

function below(
  loom: Loom,
  sources: readonly Terminal[],
  tree: (source: Terminal) => Tree,
  fuse: ComponentUse,
  stop: boolean,
): { conductors: Conductor[]; loads: Terminal[] } {
  const start = downstream(fuse, sources, tree)
  const own = loom.links.find((link) => link.component === fuse && link.kind === 'fuse')
  if (!start || !own) return { conductors: [], loads: [] }
  const reached = walk(
    loom,
    start,
    (link, from) => link !== own && !(stop && link.kind === 'fuse') && throughSupply(link, from),
  )
  const conductors = new Set<Conductor>()
  for (const terminal of reached.order)
    for (const link of loom.linksAt[terminal.index] ?? [])
      if (link.conductor && reached.has(across(link, terminal))) conductors.add(link.conductor)
  const loads = reached.order.filter(
    (terminal) => terminal.on === 'equipment' && terminal.does.kind === 'supply-in',
  )
  return { conductors: [...conductors], loads }
}

/** The terminal of a fuse that is farther from the source; its `out` where no source reaches it. */
function downstream(
  fuse: ComponentUse,
  sources: readonly Terminal[],
  tree: (source: Terminal) => Tree,
): Terminal | undefined {
  const [near, far] = [fuse.terminals.get('in'), fuse.terminals.get('out')]
  if (!near || !far) return undefined
  for (const source of sources) {
    const [a, b] = [tree(source).rank(near), tree(source).rank(far)]
    if (a >= 0 && b >= 0) return a < b ? far : near
  }
  return far
}

/** Ways back, by walking from where they end: many loads share an end, and each tree is walked once. */
function makeReturnPath(loom: Loom): SupplyPaths['returnPath'] {
  const trees = new Map<Terminal, Tree>()
  const treeTo = (end: Terminal): Tree => {
    const kept = trees.get(end)
    if (kept) return kept
    const made = walk(loom, end, againstSupply)
    trees.set(end, made)
    return made
  }
  const common = batteryReturns(loom)
  return (load, source) => {
    const from = returnPin(load)
    if (!from) return undefined
    const own = returnPin(source)
    for (const to of own ? [own, ...common] : common) {
      const links = treeTo(to).pathTo(from)
      if (links) return { from, to, links: [...links].reverse() }
    }
    return undefined
  }
}

/** The ways supply current can come from: as `throughSupply`, walked against it. */
const againstSupply: Crosses = (link, from) => throughSupply(link, across(link, from))

/** Return pins of batteries, and of a chassis that stands for their negative. */
function batteryReturns(loom: Loom): Terminal[] {
  const returns: Terminal[] = []
  for (const unit of loom.units) {
    const { role } = unit.equipment
    if (role !== 'battery' && role !== 'chassis') continue
    for (const half of unit.halves)
      for (const pin of half.pins.values())
        if (pin.does.kind === 'return' || pin.does.kind === 'chassis') returns.push(pin)
  }
  return returns
}
