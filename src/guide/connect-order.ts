import type { Half, Loom, Terminal } from '../resolve/loom.ts'
import { halfName } from '../sheets/names.ts'

/** When a connector is joined: grounds, then loads, then signals, the supply last. */
export type Turn = 'ground' | 'loads' | 'signals' | 'antenna' | 'supply'

export interface Joining {
  readonly plug: Half
  readonly onto: Half
  readonly turn: Turn
  /** Negative post of a battery: on last of all grounds. */
  readonly batteryNegative: boolean
}

const RETURNS: ReadonlySet<string> = new Set(['return', 'chassis', 'shield', 'signal-return'])

/** Every mated pair of the loom with its turn, in the order in which it is joined. */
export function connectOrder(loom: Loom): Joining[] {
  const plugs = loom.looms.flatMap((use) => use.halves)
  const seen = new Set<Half>()
  return plugs.flatMap((plug) => {
    const onto = plug.mate
    // Two looms mated with each other are met from both sides.
    if (!onto || seen.has(plug)) return []
    seen.add(onto)
    const pins = [...onto.pins.values(), ...plug.pins.values()]
    return [{ plug, onto, turn: turnOf(pins), batteryNegative: isBatteryNegative(onto, pins) }]
  })
}

function turnOf(pins: readonly Terminal[]): Turn {
  const kinds = new Set(pins.map((pin) => pin.does.kind))
  if (kinds.has('rf')) return 'antenna'
  if (kinds.has('supply-out')) return 'supply'
  if (kinds.has('supply-in')) return 'loads'
  const told = [...kinds].filter((kind) => kind !== 'unstated' && kind !== 'spare')
  return told.length > 0 && told.every((kind) => RETURNS.has(kind)) ? 'ground' : 'signals'
}

const isBatteryNegative = (onto: Half, pins: readonly Terminal[]): boolean =>
  onto.unit?.equipment.role === 'battery' && pins.some((pin) => pin.does.kind === 'return')

/** `P2 onto radio J2 (accessories)`. */
export function joiningText({ plug, onto }: Joining): string {
  const title = onto.title ?? plug.title
  return `${halfName(plug)} onto ${halfName(onto)}${title ? ` (${title})` : ''}`
}
