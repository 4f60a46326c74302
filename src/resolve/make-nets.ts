import type { GraphBuilder } from './graph-builder.ts'
import type { Circuit, Conductor, Link, Net, Terminal } from './loom.ts'
import { nameNets } from './net-names.ts'
import { UnionFind } from './union-find.ts'

const metal: ReadonlySet<Link['kind']> = new Set(['conductor', 'mate', 'join', 'bond'])

export interface Nets {
  readonly nets: readonly Net[]
  readonly circuits: readonly Circuit[]
  readonly netOf: Int32Array
  readonly circuitOf: Int32Array
  readonly linksAt: readonly (readonly Link[])[]
}

/** Unions all metal into nets, and nets that a fuse joins into circuits. */
export function makeNets(b: GraphBuilder): Nets {
  const { terminals, links } = b
  const sets = new UnionFind(terminals.length)
  for (const link of links) if (metal.has(link.kind)) sets.join(link.a.index, link.b.index)
  const { of: netOf, count } = sets.sets()
  const members = group(terminals, count, (terminal) => netOf[terminal.index] ?? 0)
  const wires = group(b.conductors, count, (wire) => {
    const end = wire.from ?? wire.to
    return end ? (netOf[end.index] ?? 0) : -1
  })
  const names = nameNets(members, wires)
  const nets = members.map(
    (list, index): Net => ({
      index,
      name: names[index] ?? '',
      terminals: list,
      conductors: wires[index] ?? [],
    }),
  )
  const fused = new UnionFind(count)
  for (const link of links)
    if (link.kind === 'fuse') fused.join(netOf[link.a.index] ?? 0, netOf[link.b.index] ?? 0)
  const { of: circuitOf, count: circuitCount } = fused.sets()
  const circuits = group(nets, circuitCount, (net) => circuitOf[net.index] ?? 0).map(
    (list, index): Circuit => ({ index, nets: list, terminals: list.flatMap((net) => net.terminals) }),
  )
  return { nets, circuits, netOf, circuitOf, linksAt: linksByTerminal(terminals, links) }
}

function group<T>(items: readonly T[], count: number, key: (item: T) => number): T[][] {
  const groups: T[][] = Array.from({ length: count }, () => [])
  for (const item of items) groups[key(item)]?.push(item)
  return groups
}

function linksByTerminal(terminals: readonly Terminal[], links: readonly Link[]): Link[][] {
  const at: Link[][] = terminals.map(() => [])
  for (const link of links) {
    at[link.a.index]?.push(link)
    at[link.b.index]?.push(link)
  }
  return at
}

/** The name a conductor gives its net. */
export function givenName(conductor: Conductor): string | undefined {
  return 'net' in conductor.source ? conductor.source.net : undefined
}
