import type { Terminal } from '../resolve/loom.ts'
import type { Piece } from './bench.ts'

/** Components whose terminals a probe can reach, because the component plugs out or has screws. */
const OPEN_TERMINALS: ReadonlySet<string> = new Set(['relay', 'switch', 'transformer'])

/** Whether a probe can touch a terminal of a finished loom. Splices and moulded-in parts are under sleeve. */
export function isProbed(terminal: Terminal): boolean {
  if (terminal.half) return true
  return terminal.component !== undefined && OPEN_TERMINALS.has(terminal.component.source.kind)
}

/** The probe points of a piece in walking order. */
export function probesOf(piece: Piece): Terminal[] {
  return piece.terminals.filter(isProbed).sort((a, b) => a.index - b.index)
}

/** Where to put the probe to touch a piece: its first probe point, else any terminal. */
export const probeOf = (piece: Piece): Terminal | undefined => probesOf(piece)[0] ?? piece.terminals[0]
