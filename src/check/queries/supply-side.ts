import type { Terminal } from '../../resolve/loom.ts'
import type { Paths } from '../../solve/paths.ts'

/** Whether a terminal is supply plus or supply return, fuses whole; undefined for a signal and for what cannot be told. */
export function supplySide({ nets }: Paths, terminal: Terminal): 'plus' | 'minus' | undefined {
  const net = nets.net(terminal)
  if (nets.isGround(net) || nets.pins(net, 'return').length > 0) return 'minus'
  const pins = nets.circuit(net).terminals.filter(({ on }) => on === 'equipment')
  if (pins.some(({ does }) => does.kind === 'supply-out')) return 'plus'
  return nets.pins(net, 'supply-in').length > 0 ? 'plus' : undefined
}
