import { colourLabel } from '../base/colour.ts'
import { formatLength } from '../base/format-quantity.ts'
import { bothSizes } from '../base/wire-size.ts'
import type { Conductor, LoomUse, Terminal } from '../resolve/loom.ts'

/** A terminal as people say it, without the name of its loom: `P2-14`, `F1-in`, `SP1`, `R1`. */
export function endName(terminal: Terminal): string {
  const { half, component } = terminal
  if (half) {
    const unit = half.unit ? `${half.unit.id} ` : ''
    return half.pins.size === 1 ? `${unit}${half.id}` : `${unit}${half.id}-${terminal.name}`
  }
  if (component) return `${component.unit ? `${component.unit.id} ` : ''}${component.id}-${terminal.name}`
  return terminal.name
}

/** An address within its loom: `P2.14` for `main.P2.14`. */
export function localAddress(use: LoomUse, address: string): string {
  return address.startsWith(`${use.id}.`) ? address.slice(use.id.length + 1) : address
}

/** `GY grey, 0.75 mm² (≈18 AWG), 3 m, W2 core 1a` */
export function conductorFacts(conductor: Conductor): string {
  const { colour, size, lengthMm, cable, core } = conductor
  return [
    colour === undefined ? undefined : colourLabel(colour),
    size === undefined ? undefined : bothSizes(size),
    lengthMm === undefined ? undefined : formatLength(lengthMm),
    cable === undefined
      ? undefined
      : `${cable.id} ${conductor.kind === 'shield' ? 'shield' : 'core'} ${core ?? ''}`.trim(),
  ]
    .filter((fact) => fact !== undefined)
    .join(', ')
}

export const endsText = ({ from, to }: Conductor): string =>
  `from ${from ? endName(from) : 'a cut end'} to ${to ? endName(to) : 'a cut end'}`
