import type { FunctionOf } from '../../describe/function.ts'
import type { Net, Terminal } from '../../resolve/loom.ts'
import type { RuleContext } from '../rule.ts'

export type CanPin = Terminal & { readonly does: FunctionOf<'data'> }

/** A resistor that ends a bus, and the terminal of it on the high line. */
export interface BusEnd {
  readonly address: string
  readonly ohms: number
  readonly on: Terminal
}

/** One CAN bus: its two nets, the equipment pins on the high line, and its terminators. */
export interface CanBus {
  readonly high: Net
  readonly low: Net
  readonly pins: readonly CanPin[]
  readonly ends: readonly BusEnd[]
}

/** Each terminator of a CAN bus (ISO 11898-2). */
export const BUS_END_OHMS = 120

const isCan = (pin: Terminal, leg: 'H' | 'L'): pin is CanPin =>
  pin.on === 'equipment' &&
  pin.does.kind === 'data' &&
  pin.does.standard === 'can' &&
  pin.does.line.toUpperCase().endsWith(leg)

/** The low line of a bus: that of the same connector as a pin of its high line. */
function lowOf({ paths }: RuleContext, pins: readonly CanPin[]): Net | undefined {
  for (const { half, does } of pins) {
    const lows = [...(half?.pins.values() ?? [])].filter((pin) => isCan(pin, 'L'))
    const low = lows.find((pin) => pin.does.port === does.port) ?? lows[0]
    if (low) return paths.nets.net(low)
  }
  return undefined
}

function endsOf({ loom, paths }: RuleContext, high: Net, low: Net, pins: readonly CanPin[]): BusEnd[] {
  const resistors = high.terminals.flatMap((terminal) =>
    (loom.linksAt[terminal.index] ?? []).flatMap((link): BusEnd[] => {
      const source = link.component?.source
      if (link.kind !== 'resistor' || source?.kind !== 'resistor' || !link.component) return []
      const far = link.a === terminal ? link.b : link.a
      if (paths.nets.net(far) !== low) return []
      return [{ address: link.component.address, ohms: link.ohms ?? BUS_END_OHMS, on: terminal }]
    }),
  )
  const builtIn = pins.flatMap((pin): BusEnd[] => {
    const pair = [...(pin.half?.pins.values() ?? [])].find(
      (other) => isCan(other, 'L') && paths.nets.net(other) === low && other.does.terminates !== undefined,
    )
    const ohms = pin.does.terminates ?? (pair?.does.kind === 'data' ? pair.does.terminates : undefined)
    return ohms === undefined ? [] : [{ address: pin.address, ohms, on: pin }]
  })
  return [...resistors, ...builtIn]
}

/** Every CAN bus that joins at least two units. */
export function canBuses(context: RuleContext): readonly CanBus[] {
  return context.loom.nets.flatMap((high) => {
    const pins = high.terminals.filter((pin): pin is CanPin => isCan(pin, 'H'))
    if (new Set(pins.map((pin) => pin.half?.unit)).size < 2) return []
    const low = lowOf(context, pins)
    return low && low !== high ? [{ high, low, pins, ends: endsOf(context, high, low, pins) }] : []
  })
}
