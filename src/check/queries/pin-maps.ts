import type { Half, Link, Loom, Terminal, Unit } from '../../resolve/loom.ts'
import { across } from '../../solve/reach.ts'

/** How the pins of one half lead to those of one other unit. */
export interface PinMap {
  readonly half: Half
  readonly unit: Unit
  /** Pins of the half that lead to exactly one pin of the unit. */
  readonly leads: ReadonlyMap<Terminal, Terminal>
}

/** The pins of equipment at the ends of one piece of wiring, by unit; undefined where several pins of the unit are on it. */
type Ends = ReadonlyMap<Unit, Terminal | undefined>

const NO_ENDS: Ends = new Map()

/**
 * Every map between a mated half of equipment and another unit along wires and mated plugs only, of at least `fewest` pins.
 * Each piece of wiring is walked once for all the pins on it, and maps that come to too few are not even begun: a hundred lamps on
 * one feed and one return would otherwise be held against each other.
 */
export function pinMaps(loom: Loom, fewest: number): readonly PinMap[] {
  const wiring = wiringOf(loom)
  return loom.halves.flatMap((half) => {
    if (half.side !== 'equipment' || half.mates.length === 0 || half.pins.size < fewest) return []
    const ends = new Map<Terminal, Ends>()
    for (const pin of half.pins.values()) {
      const found = wiring(pin)
      if (found.size > 0) ends.set(pin, found)
    }
    if (ends.size < fewest) return []
    return candidates([...ends.values()], fewest).flatMap((unit) => {
      if (unit === half.unit) return []
      const leads = new Map<Terminal, Terminal>()
      for (const [pin, there] of ends) {
        const other = there.get(unit)
        if (other) leads.set(pin, other)
      }
      return leads.size >= fewest ? [{ half, unit, leads }] : []
    })
  })
}

/** A unit that `fewest` pins lead to is at the end of one piece at least, even without the `fewest − 1` largest. */
function candidates(ends: readonly Ends[], fewest: number): Unit[] {
  const bySize = [...ends].sort((a, b) => a.size - b.size)
  const small = bySize.slice(0, Math.max(1, bySize.length - fewest + 1))
  return [...new Set(small.flatMap((each) => [...each.keys()]))]
}

const isRun = ({ kind }: Link): boolean => kind === 'conductor' || kind === 'mate'

function addEnd(ends: Map<Unit, Terminal | undefined>, pin: Terminal): void {
  const unit = pin.half?.unit
  if (!unit) return
  ends.set(unit, ends.has(unit) && ends.get(unit) !== pin ? undefined : pin)
}

/**
 * What a pin of equipment is wired to. It does not look through equipment: bonds inside a unit would hide which cavity a wire goes to.
 */
function wiringOf(loom: Loom): (pin: Terminal) => Ends {
  const pieces = new Map<Terminal, Ends>()
  const neighbours = (at: Terminal): Terminal[] =>
    (loom.linksAt[at.index] ?? []).filter(isRun).map((link) => across(link, at))
  const pieceAt = (start: Terminal): Ends => {
    const known = pieces.get(start)
    if (known) return known
    const ends = new Map<Unit, Terminal | undefined>()
    const met = new Set([start])
    for (const at of met) {
      if (at.on === 'equipment') addEnd(ends, at)
      else for (const next of neighbours(at)) met.add(next)
    }
    for (const at of met) if (at.on !== 'equipment') pieces.set(at, ends)
    return ends
  }
  return (pin) => {
    const [first, ...more] = new Set(
      neighbours(pin).map((next) => (next.on === 'equipment' ? directEnd(next) : pieceAt(next))),
    )
    return more.length === 0 ? (first ?? NO_ENDS) : united([first ?? NO_ENDS, ...more])
  }
}

function directEnd(pin: Terminal): Ends {
  const ends = new Map<Unit, Terminal | undefined>()
  addEnd(ends, pin)
  return ends
}

function united(parts: readonly Ends[]): Ends {
  const ends = new Map<Unit, Terminal | undefined>()
  for (const part of parts)
    for (const [unit, pin] of part) {
      if (pin === undefined) ends.set(unit, undefined)
      else addEnd(ends, pin)
    }
  return ends
}
