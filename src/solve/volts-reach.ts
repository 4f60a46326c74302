import type { Link, Loom, Terminal } from '../resolve/loom.ts'
import { across, throughAnyDc, throughMetal } from './reach.ts'

/** The highest DC voltage that can stand on a terminal with everything closed, and how it gets there. */
export interface HighestVolts {
  readonly volts: number
  /** The pin it comes from: a supply, a bias or a pull-up. */
  readonly source: Terminal
  /** Links from the source. */
  readonly links: readonly Link[]
}

interface Met {
  readonly volts: number
  readonly source: Terminal
  readonly link?: Link
}

/**
 * Spreads the highest voltage of each source through metal, fuses, switches, contacts, forward diodes, resistors and
 * coils, highest source first. It does not pass a resistor or coil into ground or into a net with a supply of its own,
 * since that net holds its own voltage.
 */
export function makeVoltsReach(
  loom: Loom,
  isHeld: (terminal: Terminal) => boolean,
): (terminal: Terminal) => HighestVolts | undefined {
  const met = new Map<number, Met>()
  const starts = loom.terminals
    .flatMap((terminal) => {
      const volts = sourceVolts(terminal)
      return volts === undefined ? [] : [{ terminal, volts }]
    })
    .sort((a, b) => b.volts - a.volts || a.terminal.index - b.terminal.index)
  for (const { terminal, volts } of starts) spread(loom, terminal, volts, met, isHeld)
  return (terminal) => {
    const found = met.get(terminal.index)
    return found && { volts: found.volts, source: found.source, links: pathBack(met, terminal) }
  }
}

function spread(
  loom: Loom,
  source: Terminal,
  volts: number,
  met: Map<number, Met>,
  isHeld: (terminal: Terminal) => boolean,
): void {
  if (met.has(source.index)) return
  met.set(source.index, { volts, source })
  const queue = [source]
  for (const from of queue)
    for (const link of loom.linksAt[from.index] ?? []) {
      const to = across(link, from)
      if (met.has(to.index) || !throughAnyDc(link, from)) continue
      if (!throughMetal(link, from) && (link.kind === 'resistor' || link.kind === 'coil') && isHeld(to))
        continue
      met.set(to.index, { volts, source, link })
      queue.push(to)
    }
}

function pathBack(met: ReadonlyMap<number, Met>, terminal: Terminal): Link[] {
  const links: Link[] = []
  for (let at = terminal; ; ) {
    const link = met.get(at.index)?.link
    if (!link) return links.reverse()
    links.push(link)
    at = across(link, at)
  }
}

/** The highest voltage a pin puts out: of a supply, a microphone bias or phantom, or the rail of a pull-up. */
export function sourceVolts(terminal: Terminal): number | undefined {
  const { does } = terminal
  if (terminal.on !== 'equipment') return undefined
  if (does.kind === 'supply-out') return does.volts?.max
  if (does.kind === 'audio-out' || does.kind === 'audio-in') return does.bias
  if (does.kind === 'switch-in') return does.pull === 'up' ? does.rail : undefined
  return undefined
}
