import type { PinKind } from '../describe/function.ts'
import type { Circuit, Conductor, Loom, Net, Terminal } from '../resolve/loom.ts'

/** Questions about nets and the equipment pins on them. */
export interface NetPins {
  net(terminal: Terminal): Net
  circuit(net: Net): Circuit
  /** Pins of equipment on a net, all or of some kinds. */
  pins(net: Net, ...kinds: readonly PinKind[]): readonly Terminal[]
  /** Pins that put a level on a net: supplies, audio outputs, switched outputs, data outputs. */
  drivers(net: Net): readonly Terminal[]
  /** The pin that makes a net ground (chassis, battery negative, a power return that is not isolated), through fuses too. */
  groundAt(net: Net): Terminal | undefined
  isGround(net: Net): boolean
  readonly groundNets: ReadonlySet<Net>
  /** Contacts mated with a pin. */
  matesOf(terminal: Terminal): readonly Terminal[]
  /** Conductors that land on a pin, or on the contacts mated with it. */
  conductorsAt(terminal: Terminal): readonly Conductor[]
  /** Twisted pairs that a pin's conductors ride; undefined in the list for a conductor in no pair. */
  pairsAt(terminal: Terminal): readonly (string | undefined)[]
  /** The pin of the same unit, port and kind with the opposite leg; for a single-ended pin the return of its port. */
  otherLeg(terminal: Terminal): Terminal | undefined
}

/** Builds the answers once for a loom; each is found in time that grows with the net asked about. */
export function makeNetPins(loom: Loom): NetPins {
  const net = (terminal: Terminal): Net => at(loom.nets, loom.netOf[terminal.index])
  const circuit = (of: Net): Circuit => at(loom.circuits, loom.circuitOf[of.index])
  const grounds = groundsByCircuit(loom, net)
  const pins: NetPins['pins'] = (of, ...kinds) =>
    of.terminals.filter(
      (terminal) => terminal.on === 'equipment' && (kinds.length === 0 || kinds.includes(terminal.does.kind)),
    )
  const matesOf = (terminal: Terminal): Terminal[] =>
    (loom.linksAt[terminal.index] ?? [])
      .filter((link) => link.kind === 'mate')
      .map((link) => (link.a === terminal ? link.b : link.a))
  const landing = (terminal: Terminal): Conductor[] =>
    (loom.linksAt[terminal.index] ?? []).flatMap((link) => (link.conductor ? [link.conductor] : []))
  const conductorsAt = (terminal: Terminal): Conductor[] => [
    ...landing(terminal),
    ...matesOf(terminal).flatMap(landing),
  ]
  const groundAt = (of: Net): Terminal | undefined => grounds.get(loom.circuitOf[of.index] ?? -1)
  return {
    net,
    circuit,
    pins,
    drivers: (of) => of.terminals.filter((terminal) => terminal.on === 'equipment' && drives(terminal)),
    groundAt,
    isGround: (of) => groundAt(of) !== undefined,
    groundNets: new Set(loom.nets.filter((of) => groundAt(of) !== undefined)),
    matesOf,
    conductorsAt,
    pairsAt: (terminal) => [...new Set(conductorsAt(terminal).map((conductor) => conductor.pair))],
    otherLeg,
  }
}

function at<T>(list: readonly T[], index: number | undefined): T {
  const found = list[index ?? -1]
  if (found === undefined) throw new RangeError('the terminal is of another loom')
  return found
}

/** Whether a pin puts a level on its net. */
export function drives(terminal: Terminal): boolean {
  const { does } = terminal
  if (does.kind === 'supply-out' || does.kind === 'audio-out' || does.kind === 'switch-out') return true
  return does.kind === 'data' && does.direction === 'out'
}

function isGroundPin(terminal: Terminal): boolean {
  const { does } = terminal
  if (terminal.on !== 'equipment') return false
  return does.kind === 'chassis' || (does.kind === 'return' && !does.isolated)
}

/** By circuit, its strongest ground pin: chassis before battery negative before any other return. */
function groundsByCircuit(loom: Loom, net: (terminal: Terminal) => Net): Map<number, Terminal> {
  const found = new Map<number, Terminal>()
  const rank = (terminal: Terminal): number => {
    if (terminal.does.kind === 'chassis') return 0
    return terminal.half?.unit?.equipment.role === 'battery' ? 1 : 2
  }
  for (const terminal of loom.terminals) {
    if (!isGroundPin(terminal)) continue
    const circuit = loom.circuitOf[net(terminal).index] ?? -1
    const best = found.get(circuit)
    if (!best || rank(terminal) < rank(best)) found.set(circuit, terminal)
  }
  return found
}

function otherLeg(terminal: Terminal): Terminal | undefined {
  const { does } = terminal
  const unit = terminal.half?.unit
  if (!unit || does.port === undefined) return undefined
  const pins = unit.halves.flatMap((half) => [...half.pins.values()])
  const same = pins.filter((pin) => pin !== terminal && pin.does.port === does.port)
  const leg = 'leg' in does ? does.leg : undefined
  const opposite = same.find(
    (pin) =>
      pin.does.kind === does.kind && 'leg' in pin.does && pin.does.leg !== undefined && pin.does.leg !== leg,
  )
  if (opposite) return opposite
  const back = ['signal-return', 'return', 'chassis']
  return same.find((pin) => back.includes(pin.does.kind)) ?? same.find((pin) => pin.does.kind === does.kind)
}
