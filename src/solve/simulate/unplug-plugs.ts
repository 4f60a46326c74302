import type { Half, Link, Loom, Terminal } from '../../resolve/loom.ts'
import type { Paths } from '../paths.ts'
import { sensePin } from '../sense-pin.ts'
import type { Solution } from '../solution.ts'
import { heaviestState } from './load-network.ts'

/** What stops, and what is left half joined, with one plug pulled. */
export interface UnpluggedPlug {
  readonly half: Half
  /** Loads that no supply reaches any more. */
  readonly dead: readonly Terminal[]
  /** Loads that are still fed and have lost their return: their current looks for another way. */
  readonly unreturned: readonly Terminal[]
  /** Loads that are still fed and that the plug's loss puts to sleep: their sense pin is dead. */
  readonly asleep: readonly Terminal[]
  /** What the dead loads drew, in the state with the greatest current. */
  readonly amps: number
}

/** Plugs a hand pulls; rings, studs and screw terminals are taken off with a tool and are tried as ground joints. */
const PULLED: ReadonlySet<string> = new Set(['housing', 'circular', 'dsub', 'modular', 'jack', 'coax'])

const isPulled = (half: Half): boolean =>
  half.side === 'harness' && half.mates.length > 0 && PULLED.has(half.family?.style ?? '')

const goesThrough = (links: readonly Link[], half: Half): boolean =>
  links.some(({ kind, a, b }) => kind === 'mate' && (a.half === half || b.half === half))

interface Ways {
  readonly load: Terminal
  readonly feeds: readonly (readonly Link[])[]
  readonly backs: readonly (readonly Link[])[]
  /** Feeds of the pin that wakes it; empty for a load without one. */
  readonly wakes: readonly (readonly Link[])[]
}

/** Every feed of a load with its way back, found once for all plugs. */
function waysOf(load: Terminal, { supply }: Paths): Ways {
  const supplies = supply.supplies(load)
  const sense = sensePin(load)
  return {
    load,
    feeds: supplies.map(({ links }) => links),
    backs: supplies.flatMap(({ source }) => {
      const back = supply.returnPath(load, source)
      return back ? [back.links] : []
    }),
    wakes: sense ? supply.supplies(sense).map(({ links }) => links) : [],
  }
}

/** Pulls each plug in turn: which loads go dead, and which keep their feed and lose their return. */
export function unplugPlugs(loom: Loom, paths: Paths, solution: Solution): readonly UnpluggedPlug[] {
  const state = heaviestState(solution)
  const amps = new Map(state?.loads.map((load) => [load.terminal, load.amps]))
  const loads = loom.terminals
    .filter((pin) => pin.on === 'equipment' && pin.does.kind === 'supply-in')
    .map((pin) => waysOf(pin, paths))
    .filter(({ feeds }) => feeds.length > 0)
  return loom.halves.filter(isPulled).map((half): UnpluggedPlug => {
    const cut = (ways: readonly (readonly Link[])[]) =>
      ways.length > 0 && ways.every((links) => goesThrough(links, half))
    const dead = loads.filter(({ feeds }) => cut(feeds)).map(({ load }) => load)
    const asleep = loads.filter(({ feeds, wakes }) => !cut(feeds) && cut(wakes)).map(({ load }) => load)
    const unreturned = loads.filter(({ feeds, backs }) => !cut(feeds) && cut(backs)).map(({ load }) => load)
    return {
      half,
      dead,
      unreturned,
      asleep,
      amps: dead.reduce((sum, load) => sum + (amps.get(load) ?? 0), 0),
    }
  })
}
