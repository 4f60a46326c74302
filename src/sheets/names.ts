import { formatLength, formatLengthInFeet } from '../base/format-quantity.ts'
import { sortNaturally } from '../base/natural-order.ts'
import { bothSizes, type WireGauge } from '../base/wire-size.ts'
import type { CableUse, Conductor, Half, Loom, Terminal } from '../resolve/loom.ts'

/** `P1` on a loom, `radio J1` on a unit. */
export const halfName = (half: Half): string => (half.unit ? `${half.unit.id} ${half.id}` : half.id)

/** A terminal as people say it: `P1-2`, `radio J1-2`, `F1-in`, `SP1`. */
export function pinName(terminal: Terminal): string {
  if (terminal.half) {
    // Rings, studs and other one-pin halves are called by their own name.
    const only = terminal.half.pins.size === 1
    return only ? halfName(terminal.half) : `${halfName(terminal.half)}-${terminal.name}`
  }
  if (terminal.component) {
    const { component } = terminal
    return `${component.unit ? `${component.unit.id} ` : ''}${component.id}-${terminal.name}`
  }
  return terminal.name
}

/** Names of pins of one half in natural order: `1, 2, 10`. */
export const pinNames = (pins: readonly Terminal[]): string =>
  sortNaturally(
    pins.map(({ name }) => name),
    (name) => name,
  ).join(', ')

/** `1.5 mm² (16 AWG)`, or empty. */
export const sizeText = (size: WireGauge | undefined): string => (size ? bothSizes(size) : '')

/** A length in m or mm, with feet and inches beside it where the shop asks. */
export function lengthText(loom: Loom, lengthMm: number | undefined): string {
  if (lengthMm === undefined) return ''
  const metric = formatLength(lengthMm)
  return loom.settings.stated.units === 'both' ? `${metric} (${formatLengthInFeet(lengthMm)})` : metric
}

/** `W1 core 2, pair1` for a core; empty for a single wire unless it is twisted with another. */
export function cableText(conductor: Conductor): string {
  const pair = conductor.pair?.split('.').at(-1)
  if (!conductor.cable) return pair ? `twisted ${pair}` : ''
  const core = conductor.kind === 'shield' ? (conductor.core ?? 'screen') : `core ${conductor.core ?? '?'}`
  return `${conductor.cable.id} ${core}${pair && conductor.kind !== 'shield' ? `, ${pair}` : ''}`
}

/** What a cable is made of: its title, else the part name. */
export const cableTitle = (cable: CableUse): string => cable.part?.title ?? cable.source.part
