import type { Link, Loom, State } from '../../resolve/loom.ts'
import { isClosed } from '../dc-elements.ts'
import type { LoadResult, Solution, StateSolution } from '../solution.ts'
import { loadNetwork, mostTrials } from './load-network.ts'

/** A load that gets volts although a switch is open. */
export interface BackFed {
  readonly load: LoadResult
  readonly volts: number
  /** Reversed, fed through another load, or fed by another way altogether. */
  readonly how: 'reversed' | 'through a load' | 'another feed'
}

/** What is left live with one switch open. */
export interface OpenIsolator {
  readonly isolator: Link
  readonly state: State
  readonly fed: readonly BackFed[]
}

export interface OpenIsolators {
  readonly results: readonly OpenIsolator[]
  readonly left: number
}

/** Volts below this are leakage. */
const LIVE_VOLTS = 0.5

/** Opens each switch that feeds something, in the first state that closes it. */
export function openIsolators(loom: Loom, solution: Solution): OpenIsolators {
  const switches = loom.links.filter(
    (link) => link.kind === 'switch' && link.component?.source.kind === 'switch',
  )
  const most = mostTrials(loom.terminals.length)
  const results = switches.slice(0, most).flatMap((isolator): OpenIsolator[] => {
    const state = solution.states.find(
      (entry) => isClosed(isolator, entry.state) && Math.abs(entry.amps[isolator.index] ?? 0) > 1e-6,
    )
    if (!state) return []
    const fed = backFed(loom, solution, state, isolator)
    return [{ isolator, state: state.state, fed }]
  })
  return { results, left: Math.max(0, switches.length - most) }
}

function backFed(loom: Loom, solution: Solution, state: StateSolution, isolator: Link): BackFed[] {
  const { volts } = loadNetwork(loom, solution, state).open(new Set([isolator]))
  const source = isolator.component?.source
  const isolates = source?.kind === 'switch' && source.isolates === true
  return state.loads.flatMap((load): BackFed[] => {
    if (!load.back || !(load.volts > 0) || !(load.amps > 0)) return []
    const now = (volts[load.terminal.index] ?? Number.NaN) - (volts[load.back.index] ?? Number.NaN)
    if (Number.isNaN(now)) return []
    if (now < -LIVE_VOLTS) return [{ load, volts: now, how: 'reversed' }]
    if (now > LIVE_VOLTS && now < load.volts * 0.9) return [{ load, volts: now, how: 'through a load' }]
    const passes = isolates && now >= load.volts * 0.9 && wentThrough(solution, load, isolator)
    return passes ? [{ load, volts: now, how: 'another feed' }] : []
  })
}

/** Whether the load is on the dead side of the isolator: some supply reaches it through there. */
function wentThrough({ paths }: Solution, { terminal }: LoadResult, isolator: Link): boolean {
  return paths.supply.supplies(terminal).some(({ links }) => links.includes(isolator))
}
