import { naturalOrder } from '../base/natural-order.ts'
import type { PinKind } from '../describe/function.ts'
import type { Circuit, ComponentUse, Conductor, Link, Loom, Terminal } from '../resolve/loom.ts'
import { across, type Tree, throughFuses, walk } from '../solve/reach.ts'

/** One step of a way: contacts that touch each other, a conductor, or a fuse or bond that is gone through. */
export type PathStep = {
  /** Step it is reached from; −1 for the one everything starts at. */
  readonly parent: number
  /** Index of its net. */
  readonly net: number
} & (
  | { readonly kind: 'pins'; readonly terminals: readonly Terminal[] }
  /** `back` where the other end is a place that is reached in another way already: a ring. */
  | { readonly kind: 'conductor'; readonly conductor: Conductor; readonly back?: Terminal }
  | { readonly kind: 'through'; readonly link: Link; readonly component?: ComponentUse }
)

/**
 * Where people start when they follow a wire: what feeds or drives it; for a ground, the battery or the chassis. Smaller
 * comes first.
 */
const START: Readonly<Record<PinKind, number>> = {
  'supply-out': 0,
  chassis: 2,
  'audio-out': 3,
  data: 4,
  rf: 5,
  'switch-out': 6,
  contact: 7,
  return: 8,
  'signal-return': 9,
  'supply-in': 10,
  sense: 11,
  'switch-in': 12,
  'audio-in': 13,
  coil: 14,
  shield: 15,
  unstated: 16,
  reserved: 17,
  spare: 18,
}

function startRank(terminal: Terminal): number {
  const away = terminal.on === 'equipment' ? 0 : terminal.half ? 100 : 200
  const battery = terminal.half?.unit?.equipment.role === 'battery' && terminal.does.kind === 'return'
  return away + (battery ? 1 : START[terminal.does.kind])
}

function startOf(circuit: Circuit): Terminal | undefined {
  let best: Terminal | undefined
  for (const terminal of circuit.terminals)
    if (!best || startRank(terminal) < startRank(best)) best = terminal
  return best
}

/** Grows the steps of one circuit, parents before children. */
class StepBuilder {
  readonly steps: PathStep[] = []
  private readonly at = new Map<Terminal, number>()
  private readonly drawn = new Set<Conductor>()
  private readonly loom: Loom
  private readonly tree: Tree

  constructor(loom: Loom, root: Terminal) {
    this.loom = loom
    this.tree = walk(loom, root, throughFuses)
    for (const terminal of this.tree.order) this.meet(terminal)
  }

  private add(step: PathStep): number {
    return this.steps.push(step) - 1
  }

  private netOf(terminal: Terminal): number {
    return this.loom.netOf[terminal.index] ?? -1
  }

  private meet(terminal: Terminal) {
    const link = this.tree.parent(terminal)
    const from = link && across(link, terminal)
    const parent = from === undefined ? -1 : (this.at.get(from) ?? -1)
    const known = this.steps[parent]
    if (link?.kind === 'mate' && known?.kind === 'pins') {
      this.steps[parent] = { ...known, terminals: [...known.terminals, terminal] }
      this.at.set(terminal, parent)
      return
    }
    const via = link ? this.between(parent, link, from) : -1
    this.at.set(
      terminal,
      this.add({ parent: via, net: this.netOf(terminal), kind: 'pins', terminals: [terminal] }),
    )
  }

  private between(parent: number, link: Link, from: Terminal | undefined): number {
    const net = from ? this.netOf(from) : -1
    const { conductor, component } = link
    if (!conductor)
      return this.add({ parent, net, kind: 'through', link, ...(component ? { component } : {}) })
    this.drawn.add(conductor)
    return this.add({ parent, net, kind: 'conductor', conductor })
  }

  /** Conductors the shortest ways leave out: those that close a ring, and those that end nowhere. */
  addRest(conductors: readonly Conductor[]) {
    for (const conductor of conductors) {
      if (this.drawn.has(conductor)) continue
      const { from, to } = conductor
      const start = from ?? to
      const parent = start && this.at.get(start)
      if (start === undefined || parent === undefined) continue
      const back = from ? to : undefined
      this.drawn.add(conductor)
      this.add({ parent, net: this.netOf(start), kind: 'conductor', conductor, ...(back ? { back } : {}) })
    }
  }
}

/**
 * The ways of one circuit as a tree: from what feeds or drives it, through every conductor, mated half, bond and fuse, to
 * each end. Mated contacts are one step. Empty for a pin nothing is joined to.
 */
export function pathSteps(loom: Loom, circuit: Circuit): PathStep[] {
  const conductors = circuit.nets.flatMap((net) => net.conductors)
  const root = startOf(circuit)
  if (!root || (circuit.terminals.length < 2 && conductors.length === 0)) return []
  const builder = new StepBuilder(loom, root)
  builder.addRest([...conductors].sort((a, b) => naturalOrder(a.address, b.address)))
  return builder.steps
}
