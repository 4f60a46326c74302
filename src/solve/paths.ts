import type { Half, Link, Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import { type Lay, makeLay } from './lay.ts'
import { makeNetPins, type NetPins } from './net-pins.ts'
import { type Crosses, type Tree, throughFuses, walk } from './reach.ts'
import { makeSupplyPaths, type SupplyPaths } from './supply-paths.ts'
import { type HighestVolts, makeVoltsReach } from './volts-reach.ts'

/** The questions rules share about a loom: its nets, its supplies, its paths. Built on demand, kept for the life of the object. */
export interface Paths {
  readonly nets: NetPins
  readonly supply: SupplyPaths
  /** Highest DC voltage that can stand on a terminal with everything closed. */
  highestVolts(terminal: Terminal): HighestVolts | undefined
  /** How a loom lies; undefined where its branches are not described. */
  lay(use: LoomUse): Lay | undefined
  /** Fewest links between two terminals; metal and fuses unless told otherwise. Empty for one and the same, undefined if none. */
  between(a: Terminal, b: Terminal, crosses?: Crosses): readonly Link[] | undefined
  /** Everything reached from a terminal. */
  from(terminal: Terminal, crosses?: Crosses): Tree
  /** The same with one connector pulled apart: what stays joined to a terminal when the half is unplugged. */
  unplugged(terminal: Terminal, half: Half, crosses?: Crosses): Tree
}

/** Makes the answers for one loom. */
export function makePaths(loom: Loom): Paths {
  const parts: { nets?: NetPins; supply?: SupplyPaths; volts?: ReturnType<typeof makeVoltsReach> } = {}
  const lays = new Map<LoomUse, Lay | undefined>()
  const nets = (): NetPins => {
    parts.nets ??= makeNetPins(loom)
    return parts.nets
  }
  return {
    get nets() {
      return nets()
    },
    get supply() {
      parts.supply ??= makeSupplyPaths(loom)
      return parts.supply
    },
    highestVolts: (terminal) => {
      parts.volts ??= makeVoltsReach(loom, (to) => isHeld(nets(), to))
      return parts.volts(terminal)
    },
    lay: (use) => {
      if (!lays.has(use)) lays.set(use, makeLay(use, loom.conductors))
      return lays.get(use)
    },
    between: (a, b, crosses = throughFuses) => walk(loom, a, crosses).pathTo(b),
    from: (terminal, crosses = throughFuses) => walk(loom, terminal, crosses),
    unplugged: (terminal, half, crosses = throughFuses) =>
      walk(loom, terminal, (link, from) => !isMateOf(link, half) && crosses(link, from)),
  }
}

/** Whether a link is a contact of that half. */
function isMateOf(link: Link, half: Half): boolean {
  return link.kind === 'mate' && (link.a.half === half || link.b.half === half)
}

function isHeld(nets: NetPins, terminal: Terminal): boolean {
  const net = nets.net(terminal)
  return nets.isGround(net) || nets.pins(net, 'supply-out').length > 0
}
