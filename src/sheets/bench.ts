import type { Link, Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'

/** Links that a meter sees as closed on the bench, with fuses fitted. */
const CLOSED: ReadonlySet<Link['kind']> = new Set(['conductor', 'bond', 'fuse'])

/** Metal of one loom that a meter sees as one piece on the bench, unmated and with its fuses fitted. */
export interface Piece {
  readonly index: number
  readonly terminals: readonly Terminal[]
  /** Closed links between them. */
  readonly links: readonly Link[]
  /** The same links by the terminals they end at. */
  readonly linksAt: ReadonlyMap<number, readonly Link[]>
}

/** One loom lying on the bench: no equipment, no other loom. */
export interface Bench {
  readonly use: LoomUse
  readonly pieces: readonly Piece[]
  /** Piece of each terminal of the loom by terminal index. */
  readonly pieceOf: ReadonlyMap<number, Piece>
  /** Resistors, diodes, coils and other components between pieces. */
  readonly parts: readonly Link[]
}

/** Every terminal of a loom: pins of its connectors, terminals of its components, its splices. */
function terminalsOf(loom: Loom, use: LoomUse): Terminal[] {
  const pins = use.halves.flatMap((half) => [...half.pins.values()])
  const parts = loom.components.filter((c) => c.loom === use).flatMap((c) => [...c.terminals.values()])
  const ends = loom.conductors.filter((c) => c.loom === use).flatMap((c) => [c.from, c.to])
  const all = [...pins, ...parts, ...ends.filter((end) => end !== undefined)]
  return [...new Set(all)]
}

/** Takes one loom out of the installation and finds what is joined in it. */
export function onTheBench(loom: Loom, use: LoomUse): Bench {
  const terminals = terminalsOf(loom, use)
  const own = loom.links.filter((link) => link.conductor?.loom === use || link.component?.loom === use)
  const closed = own.filter((link) => CLOSED.has(link.kind))
  const next = new Map<number, Link[]>(terminals.map((terminal) => [terminal.index, []]))
  for (const link of closed) {
    next.get(link.a.index)?.push(link)
    next.get(link.b.index)?.push(link)
  }
  const pieceOf = new Map<number, Piece>()
  const pieces: Piece[] = []
  for (const start of terminals) {
    if (pieceOf.has(start.index)) continue
    const piece = flood(start, next, pieces.length)
    pieces.push(piece)
    for (const terminal of piece.terminals) pieceOf.set(terminal.index, piece)
  }
  return { use, pieces, pieceOf, parts: own.filter((link) => !CLOSED.has(link.kind)) }
}

function flood(start: Terminal, next: ReadonlyMap<number, readonly Link[]>, index: number): Piece {
  const seen = new Set([start])
  const links = new Set<Link>()
  for (const terminal of seen) {
    for (const link of next.get(terminal.index) ?? []) {
      links.add(link)
      seen.add(link.a === terminal ? link.b : link.a)
    }
  }
  return { index, terminals: [...seen], links: [...links], linksAt: next }
}

/** A way through one piece: the links in order, and its resistance where every link has one. */
export interface Way {
  readonly to: Terminal
  readonly links: readonly Link[]
  /** Sum along the way; undefined where a length or size is missing. */
  readonly ohms: number | undefined
}

/** The shortest way, in links, from one terminal to every other of its piece. */
export function waysFrom(piece: Piece, start: Terminal, solution: Solution | undefined): Map<number, Way> {
  const ways = new Map<number, Way>([[start.index, { to: start, links: [], ohms: 0 }]])
  for (const way of ways.values()) {
    for (const link of piece.linksAt.get(way.to.index) ?? []) {
      const to = link.a === way.to ? link.b : link.a
      if (ways.has(to.index)) continue
      const step = solution?.linkOhms[link.index]?.ohms ?? link.ohms
      const ohms = way.ohms === undefined || step === undefined ? undefined : way.ohms + step
      ways.set(to.index, { to, links: [...way.links, link], ohms })
    }
  }
  return ways
}

/** Names of what a way goes through: wires, splices and fuses in order. */
export function wayText(way: Way): string {
  return way.links
    .map((link) => link.conductor?.id ?? link.component?.id ?? '')
    .filter((id) => id !== '')
    .join(' · ')
}
