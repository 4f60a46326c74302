import type { Link, Loom } from '../resolve/loom.ts'
import { isClosed } from './dc-elements.ts'
import type { StateSolution, UnfedLoad } from './solution.ts'
import type { SupplyPaths } from './supply-paths.ts'

/**
 * Supply inputs that carry no figures because no operating state feeds them: a switch on the way is closed in none, or no
 * supply reaches them. Without this list they would look as if they had passed.
 */
export function unfedLoads(loom: Loom, supply: SupplyPaths, states: readonly StateSolution[]): UnfedLoad[] {
  const fed = new Set(
    states.flatMap((state) => [...state.loads, ...state.unsolved].map((entry) => entry.terminal.index)),
  )
  return loom.terminals.flatMap((terminal) => {
    if (terminal.on !== 'equipment' || terminal.does.kind !== 'supply-in' || fed.has(terminal.index))
      return []
    const [first] = supply.supplies(terminal)
    if (!first) return [{ terminal, needs: `a supply that reaches ${terminal.address}` }]
    const open = first.links.filter(
      (link) => isSwitched(link) && !loom.states.some((state) => isClosed(link, state)),
    )
    const names = open.map((link) => link.component?.id ?? link.a.address)
    const what =
      names.length > 0 ? `${names.join(' and ')} ${names.length > 1 ? 'are' : 'is'} closed` : 'it is fed'
    return [{ terminal, needs: `a state in which ${what}, for ${terminal.address}` }]
  })
}

const isSwitched = (link: Link): boolean => link.kind === 'switch' || link.kind === 'relay-contact'
