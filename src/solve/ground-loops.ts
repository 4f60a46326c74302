import type { Conductor, Link, Loom, Net } from '../resolve/loom.ts'
import { across, throughMetal } from './reach.ts'

/** What a conductor of a loop is for. */
export type LoopLeg = 'shield' | 'coax' | 'signal' | 'power' | 'bond'

/** A closed way through zero-volt metal: conductors, contacts, cases and body. */
export interface GroundLoop {
  readonly links: readonly Link[]
  readonly conductors: readonly Conductor[]
  readonly legs: ReadonlySet<LoopLeg>
  /** Names of the units it goes through, in order. */
  readonly units: readonly string[]
}

export interface GroundLoops {
  readonly loops: readonly GroundLoop[]
  /** Loops beyond the bound, not followed. */
  readonly left: number
}

/** Loops followed in one loom; each costs a search of its net. */
const MOST_LOOPS = 48

/**
 * A cycle basis of the ground nets: for each link that closes a loop, the loop with the fewest links through it. A loom of
 * trees has none.
 */
export function groundLoops(loom: Loom): GroundLoops {
  const closing = loom.nets.filter(isGroundNet).flatMap((net) => closingLinks(loom, net))
  const loops = new Map<string, GroundLoop>()
  for (const link of closing.slice(0, MOST_LOOPS)) {
    const rest = shortestWithout(loom, link)
    if (!rest) continue
    const links = [link, ...rest]
    const conductors = links.flatMap(({ conductor }) => (conductor ? [conductor] : []))
    if (conductors.length === 0) continue
    const key = links
      .map(({ index }) => index)
      .sort((a, b) => a - b)
      .join(' ')
    loops.set(key, { links, conductors, legs: legsOf(links), units: unitsOf(links) })
  }
  return { loops: [...loops.values()], left: Math.max(0, closing.length - MOST_LOOPS) }
}

const isGroundNet = (net: Net): boolean =>
  net.terminals.some(
    ({ on, does }) =>
      on === 'equipment' &&
      (does.kind === 'chassis' || does.kind === 'return' || does.kind === 'signal-return'),
  )

/** Links of a net that a spanning tree leaves out; those of wires before those of cases. */
function closingLinks(loom: Loom, net: Net): Link[] {
  const root = net.terminals[0]
  if (!root) return []
  const met = new Set([root])
  const used = new Set<Link>()
  const over = new Set<Link>()
  for (const from of met)
    for (const link of loom.linksAt[from.index] ?? []) {
      if (!throughMetal(link, from) || used.has(link)) continue
      used.add(link)
      const to = across(link, from)
      if (met.has(to)) over.add(link)
      else met.add(to)
    }
  return [...over].sort((a, b) => Number(b.kind === 'conductor') - Number(a.kind === 'conductor'))
}

/** The shortest way between the ends of a link that does not use it. */
function shortestWithout(loom: Loom, without: Link): Link[] | undefined {
  const back = new Map<number, Link | undefined>([[without.a.index, undefined]])
  const queue = [without.a]
  for (const from of queue) {
    if (from === without.b) break
    for (const link of loom.linksAt[from.index] ?? []) {
      if (link === without || !throughMetal(link, from)) continue
      const to = across(link, from)
      if (back.has(to.index)) continue
      back.set(to.index, link)
      queue.push(to)
    }
  }
  if (!back.has(without.b.index)) return undefined
  const links: Link[] = []
  for (let at = without.b; at !== without.a; ) {
    const link = back.get(at.index)
    if (!link) return undefined
    links.push(link)
    at = across(link, at)
  }
  return links
}

/** What a link of a loop is for, by the pins it lands on. */
export function legOf({ conductor, kind, a, b }: Link): LoopLeg | undefined {
  if (conductor?.cable?.part?.use === 'coax') return 'coax'
  if (conductor?.kind === 'shield') return 'shield'
  const does = [a, b].map((end) => end.does.kind)
  if (does.includes('signal-return')) return conductor ? 'signal' : undefined
  if (does.includes('return')) return 'power'
  return does.includes('chassis') && (conductor || kind === 'mate') ? 'bond' : undefined
}

const legsOf = (links: readonly Link[]): ReadonlySet<LoopLeg> =>
  new Set(links.flatMap((link) => legOf(link) ?? []))

const unitsOf = (links: readonly Link[]): readonly string[] => [
  ...new Set(links.flatMap(({ a, b }) => [a, b].flatMap((end) => end.half?.unit?.id ?? []))),
]
