import type { Link, Loom, Terminal } from '../resolve/loom.ts'

/** Which links a walk may cross, and in which direction: `from` is the terminal it stands on. */
export type Crosses = (link: Link, from: Terminal) => boolean

const metalKinds: ReadonlySet<Link['kind']> = new Set(['conductor', 'mate', 'join', 'bond'])

/** Metal only: what makes one net. */
export const throughMetal: Crosses = (link) => metalKinds.has(link.kind)

/** Metal and whole fuses: one potential. */
export const throughFuses: Crosses = (link) => metalKinds.has(link.kind) || link.kind === 'fuse'

/** Every way supply current can go with the right things switched on: metal, fuses, switches, contacts, forward diodes. */
export const throughSupply: Crosses = (link, from) =>
  metalKinds.has(link.kind) ||
  link.kind === 'fuse' ||
  link.kind === 'switch' ||
  link.kind === 'relay-contact' ||
  (link.kind === 'diode' && link.a === from)

/** Every way a DC voltage can appear: as for supply, and through resistors and coils. */
export const throughAnyDc: Crosses = (link, from) =>
  throughSupply(link, from) || link.kind === 'resistor' || link.kind === 'coil'

/** A breadth-first tree from one terminal: fewest links, and for equal counts the earlier link. */
export interface Tree {
  readonly root: Terminal
  /** Terminals in the order they were met, root first. */
  readonly order: readonly Terminal[]
  has(terminal: Terminal): boolean
  /** Links from the root to a terminal, in order; empty for the root, undefined if it is not reached. */
  pathTo(terminal: Terminal): readonly Link[] | undefined
  /** The link by which a terminal was met. */
  parent(terminal: Terminal): Link | undefined
  /** Position in the order; −1 if it is not reached. */
  rank(terminal: Terminal): number
}

/** The other end of a link. */
export function across(link: Link, from: Terminal): Terminal {
  return link.a === from ? link.b : link.a
}

/** Walks from a terminal over the links that may be crossed. Work and memory grow with what is reached, not with the loom. */
export function walk(loom: Loom, root: Terminal, crosses: Crosses): Tree {
  const order: Terminal[] = [root]
  const met = new Map<number, { readonly rank: number; readonly link?: Link }>([[root.index, { rank: 0 }]])
  for (const from of order)
    for (const link of loom.linksAt[from.index] ?? []) {
      const to = across(link, from)
      if (met.has(to.index) || !crosses(link, from)) continue
      met.set(to.index, { rank: order.length, link })
      order.push(to)
    }
  const pathTo = (terminal: Terminal): readonly Link[] | undefined => {
    if (!met.has(terminal.index)) return undefined
    const links: Link[] = []
    for (let at = terminal; at !== root; ) {
      const link = met.get(at.index)?.link
      if (!link) break
      links.push(link)
      at = across(link, at)
    }
    return links.reverse()
  }
  return {
    root,
    order,
    has: (terminal) => met.has(terminal.index),
    pathTo,
    parent: (terminal) => met.get(terminal.index)?.link,
    rank: (terminal) => met.get(terminal.index)?.rank ?? -1,
  }
}
