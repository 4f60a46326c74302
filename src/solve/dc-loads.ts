import type { Loom, State, Terminal } from '../resolve/loom.ts'
import type { Live } from './dc-live.ts'
import { type LoadFigure, loadFigure } from './load-figure.ts'
import { returnPin } from './return-pin.ts'
import { sensePin } from './sense-pin.ts'

/** A load that is fed in a state. */
export interface FedLoad {
  readonly terminal: Terminal
  readonly back: Terminal | undefined
  readonly figure: LoadFigure
}

/** Loads whose supply pin is live in a state, with what they draw there. Loads that are not fed draw nothing and are left out. */
export function fedLoads(loom: Loom, live: Live, state: State): FedLoad[] {
  const loads: FedLoad[] = []
  for (const terminal of loom.terminals) {
    if (terminal.on !== 'equipment') continue
    if (terminal.does.kind !== 'supply-in' && terminal.does.kind !== 'sense') continue
    if (!live.source(terminal)) continue
    const figure = loadFigure(terminal, state, isAwake(terminal, live))
    if (figure) loads.push({ terminal, back: returnPin(terminal), figure })
  }
  return loads
}

/** Whether the sense pin a load names is live; undefined for a load that names none. */
function isAwake(terminal: Terminal, live: Live): boolean | undefined {
  const pin = sensePin(terminal)
  return pin ? live.source(pin) !== undefined : undefined
}
