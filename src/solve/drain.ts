import type { Loom, Terminal } from '../resolve/loom.ts'
import { liveTerminals } from './dc-live.ts'
import { fedLoads } from './dc-loads.ts'
import { liveSources } from './dc-sources.ts'
import { daysToFlat } from './formulas/days-to-flat.ts'
import type { Drain, StateSolution } from './solution.ts'
import { isBattery } from './supply-paths.ts'

/** Currents below this are rounding, not drain. */
const LEAST_AMPS = 1e-9

/**
 * What stands on each battery with everything switched off: the state whose load name is "off", else the first without
 * ignition. Where there is one battery, feeds of the vehicle that are described without a return of their own are fed from it too.
 */
export function standingDrains(loom: Loom, states: readonly StateSolution[]): Drain[] {
  const off =
    states.find(({ state }) => state.load === 'off' && !state.ignition) ??
    states.find(({ state }) => !state.ignition)
  if (!off) return []
  const batteries = off.sources.filter(({ terminal }) => isBattery(terminal))
  return batteries.map((battery) => {
    const taps = off.sources.filter(
      ({ terminal }) => batteries.length === 1 && !isBattery(terminal) && isTap(terminal),
    )
    return drainOf(loom, off, battery, taps)
  })
}

/** A feed of the vehicle: it says how it is switched and has no capacity of its own. */
function isTap(terminal: Terminal): boolean {
  return (
    terminal.does.kind === 'supply-out' &&
    terminal.does.feed !== undefined &&
    terminal.does.capacity === undefined
  )
}

function drainOf(
  loom: Loom,
  off: StateSolution,
  battery: StateSolution['sources'][number],
  taps: StateSolution['sources'],
): Drain {
  const from = new Set([battery, ...taps].map(({ terminal }) => terminal))
  const amps = [battery, ...taps].reduce((sum, source) => sum + source.amps, 0)
  const usableAh = battery.terminal.does.kind === 'supply-out' ? battery.terminal.does.capacity : undefined
  return {
    source: battery.terminal,
    amps,
    parts: drainParts(loom, off, from),
    ...(usableAh === undefined ? {} : { usableAh, days: daysToFlat(usableAh, amps > LEAST_AMPS ? amps : 0) }),
    needs: off.unsolved.map((entry) => entry.needs),
  }
}

function drainParts(loom: Loom, off: StateSolution, from: ReadonlySet<Terminal>): Drain['parts'] {
  const live = liveTerminals(loom, liveSources(loom, off.state, new Set()), off.state)
  const loads = fedLoads(loom, live, off.state)
  const drawn = new Map(off.loads.map((load) => [load.terminal, load.amps]))
  const parts: { terminal: Terminal; amps: number; why: string }[] = []
  for (const { terminal, figure } of loads) {
    const source = live.source(terminal)
    const amps = drawn.get(terminal) ?? (figure.kind === 'amps' ? figure.amps : Number.NaN)
    if (figure.kind === 'unknown' || !source || !from.has(source.terminal) || !(amps > LEAST_AMPS)) continue
    parts.push({ terminal, amps, why: figure.why })
  }
  for (const link of loom.links) {
    const amps = Math.abs(off.amps[link.index] ?? 0)
    if ((link.kind === 'coil' || link.kind === 'resistor') && amps > LEAST_AMPS)
      parts.push({
        terminal: link.a,
        amps,
        why: link.kind === 'coil' ? 'coil held in' : 'resistor across the supply',
      })
  }
  return parts.sort((a, b) => b.amps - a.amps || a.terminal.index - b.terminal.index)
}
