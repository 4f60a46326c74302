import type { FunctionOf } from '../../describe/function.ts'
import type { Loom, Net, Terminal } from '../../resolve/loom.ts'
import { across } from '../../solve/reach.ts'

export type DataPin = Terminal & { readonly does: FunctionOf<'data'> }

/** One line of a bus that two wires carry: the pins on its first wire and what ends it. */
export interface DataBus {
  readonly net: Net
  readonly pins: readonly DataPin[]
  /** Terminals where a resistor or a unit ends the line. */
  readonly terminators: readonly Terminal[]
}

const FIRST: Readonly<Record<'can' | 'tia-485', RegExp>> = { can: /(H|HIGH|\+)$/i, 'tia-485': /(A|\+|P)$/i }

/** Buses of one standard that join at least two units, by their high or A line. */
export function dataBuses(loom: Loom, standard: 'can' | 'tia-485'): readonly DataBus[] {
  const isPin = (pin: Terminal): pin is DataPin =>
    pin.on === 'equipment' &&
    pin.does.kind === 'data' &&
    pin.does.standard === standard &&
    FIRST[standard].test(pin.does.line.trim())
  return loom.nets.flatMap((net) => {
    const pins = net.terminals.filter(isPin)
    if (new Set(pins.map((pin) => pin.half?.unit)).size < 2) return []
    const resistors = net.terminals.filter((terminal) =>
      (loom.linksAt[terminal.index] ?? []).some(
        (link) => link.kind === 'resistor' && loom.netOf[across(link, terminal).index] !== net.index,
      ),
    )
    return [
      { net, pins, terminators: [...resistors, ...pins.filter((pin) => pin.does.terminates !== undefined)] },
    ]
  })
}
