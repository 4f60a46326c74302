import type { Half, Loom, Terminal, Unit } from '../../resolve/loom.ts'
import { walk } from '../../solve/reach.ts'

/** How the pins of one half lead to those of one other unit. */
export interface PinMap {
  readonly half: Half
  readonly unit: Unit
  /** Pins of the half that lead to exactly one pin of the unit. */
  readonly leads: ReadonlyMap<Terminal, Terminal>
}

/**
 * Every map between a mated half of equipment and another unit, along wires and mated plugs only. Halves with fewer pins than
 * asked for are left out before the walk, since lamps and pumps with two pins are many and all hang on one net.
 */
export function pinMaps(loom: Loom, fewestPins = 1): readonly PinMap[] {
  const maps: PinMap[] = []
  for (const half of loom.halves) {
    if (half.side !== 'equipment' || half.mates.length === 0 || half.pins.size < fewestPins) continue
    const byUnit = new Map<Unit, Map<Terminal, Terminal | undefined>>()
    for (const pin of half.pins.values()) collect(loom, pin, byUnit)
    for (const [unit, found] of byUnit) {
      const leads = new Map(
        [...found].filter((entry): entry is [Terminal, Terminal] => entry[1] !== undefined),
      )
      if (leads.size > 0) maps.push({ half, unit, leads })
    }
  }
  return maps
}

/** Does not walk through equipment: bonds inside a unit would hide which cavity a wire goes to. */
function collect(loom: Loom, pin: Terminal, byUnit: Map<Unit, Map<Terminal, Terminal | undefined>>): void {
  const reached = walk(
    loom,
    pin,
    (link, from) =>
      (link.kind === 'conductor' || link.kind === 'mate') && (from === pin || from.on !== 'equipment'),
  )
  for (const other of reached.order) {
    const unit = other.half?.unit
    if (other.on !== 'equipment' || !unit || unit === pin.half?.unit) continue
    const map = byUnit.get(unit) ?? new Map<Terminal, Terminal | undefined>()
    byUnit.set(unit, map.set(pin, map.has(pin) ? undefined : other))
  }
}
