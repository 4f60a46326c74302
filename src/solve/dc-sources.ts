import { formatVolts } from '../base/format-quantity.ts'
import type { Loom, State, Terminal } from '../resolve/loom.ts'
import type { UnionFind } from '../resolve/union-find.ts'
import { LEAST_OHMS } from './dc-elements.ts'
import { returnPin } from './return-pin.ts'
import { isBattery } from './supply-paths.ts'

/** A supply pin that is live in a state. */
export interface Source {
  readonly terminal: Terminal
  readonly back: Terminal | undefined
  readonly volts: number
  /** Resistance inside the source; 0 for an ideal one. */
  readonly ohms: number
}

/** Supply pins that are live in a state: permanent ones always, ignition, accessory and switched ones with the ignition. */
export function liveSources(loom: Loom, state: State, assumed: Set<string>): Source[] {
  const sources: Source[] = []
  for (const terminal of loom.terminals) {
    const { does } = terminal
    if (terminal.on !== 'equipment' || does.kind !== 'supply-out') continue
    if (does.feed !== undefined && does.feed !== 'permanent' && !state.ignition) continue
    sources.push({
      terminal,
      back: returnPin(terminal),
      volts: sourceVoltage(loom, terminal, assumed),
      ohms: does.resistance ?? 0,
    })
  }
  const order = (source: Source): number => (isBattery(source.terminal) ? 0 : source.back ? 1 : 2)
  return sources.sort((a, b) => order(a) - order(b) || a.terminal.index - b.terminal.index)
}

/**
 * The voltage a source is taken at: the system voltage of the installation where the source's range allows it, else the
 * top of its range. Without either 12 V, so that currents can still be followed.
 */
function sourceVoltage(loom: Loom, terminal: Terminal, assumed: Set<string>): number {
  const range = terminal.does.kind === 'supply-out' ? terminal.does.volts : undefined
  const system = loom.supplyVolts
  if (range && system !== undefined && system >= range.min && system <= range.max) return system
  if (range) {
    if (range.max > range.min)
      assumed.add(`${terminal.address} at ${formatVolts(range.max)}, the top of its range`)
    return range.max
  }
  if (system !== undefined) return system
  assumed.add(`${terminal.address} at 12.00 V, since no voltage is given`)
  return 12
}

/** Which nodes are held at which volts, and the sources that stand between two nodes. */
export interface Held {
  readonly volts: Map<number, number>
  readonly between: readonly Source[]
}

/** What a piece of the network hangs together by. */
export interface Pieces {
  /** All resistances, coils and resistors too. */
  readonly all: UnionFind
  /** Metal only: what one stud or return pin holds at zero. */
  readonly metal: UnionFind
  /** Nodes where current comes back: returns of fed loads, ends of coils and resistors. */
  readonly backs: readonly number[]
}

/**
 * Chooses the zero of each separate return: the return pin of the first source in it, batteries first. A source whose
 * return is already somebody else's zero at another place stands between its two pins. A source without a return of its own
 * counts against zero. Body studs that nothing ties to a return are the battery's negative where the structure is metal.
 */
export function holdSources(
  loom: Loom,
  sources: readonly Source[],
  pieces: Pieces,
  assumed: Set<string>,
): Held {
  const sets = pieces.all
  const volts = new Map<number, number>()
  const held = new Set<number>()
  const between: Source[] = []
  const hold = (node: number, value: number): void => {
    volts.set(node, value)
    held.add(sets.find(node))
  }
  for (const source of sources) {
    const { back, terminal } = source
    if (back && !held.has(sets.find(back.index))) hold(back.index, 0)
    if (back && volts.get(back.index) !== 0) between.push(source)
    else if (source.ohms > 0) {
      between.push(source)
      held.add(sets.find(terminal.index))
    } else hold(terminal.index, source.volts)
  }
  holdBody(loom, volts, pieces, assumed)
  for (const source of between) {
    const back = source.back?.index
    if (back !== undefined && volts.get(back) !== 0) sets.join(source.terminal.index, back)
  }
  return { volts, between }
}

function holdBody(loom: Loom, volts: Map<number, number>, pieces: Pieces, assumed: Set<string>): void {
  if (loom.structure !== 'metal' || volts.size === 0) return
  const { metal } = pieces
  const held = new Set([...volts.keys()].map((node) => metal.find(node)))
  const used = new Set(pieces.backs.map((node) => metal.find(node)))
  for (const unit of loom.units) {
    if (unit.equipment.role !== 'chassis') continue
    for (const half of unit.halves)
      for (const pin of half.pins.values()) {
        const piece = metal.find(pin.index)
        if (pin.does.kind !== 'chassis' || held.has(piece) || !used.has(piece)) continue
        volts.set(pin.index, 0)
        held.add(piece)
        assumed.add(`${pin.address} is body metal, taken as the battery’s negative`)
      }
  }
}

/** Resistance a source that stands between two nodes is reckoned with. */
export const innerOhms = (source: Source): number => Math.max(source.ohms, LEAST_OHMS)
