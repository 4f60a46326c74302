import type { Conductor, Link, Loom, State } from '../resolve/loom.ts'
import { solveDc } from './dc-network.ts'
import { standingDrains } from './drain.ts'
import { linkOhms } from './link-ohms.ts'
import { makePaths, type Paths } from './paths.ts'
import type { Solution, SpeakerNetwork, StateSolution } from './solution.ts'
import { speakerNetworks } from './speaker-network.ts'
import { unfedLoads } from './unfed-loads.ts'

type Worst<T> = ReadonlyMap<T, { readonly amps: number; readonly state: State }>

/** Everything computed from a loom. Each part is worked out when it is first asked for, so that a drawing pays for none of it. */
export function solve(loom: Loom): Solution {
  const kept: Kept = {}
  return {
    get paths() {
      kept.paths ??= makePaths(loom)
      return kept.paths
    },
    get linkOhms() {
      kept.linkOhms ??= linkOhms(loom)
      return kept.linkOhms
    },
    get states() {
      const ohms = this.linkOhms
      kept.states ??= loom.states.map((state) => solveDc(loom, ohms, state))
      return kept.states
    },
    get speakers() {
      kept.speakers ??= speakerNetworks(loom, this.linkOhms)
      return kept.speakers
    },
    get drains() {
      kept.drains ??= standingDrains(loom, this.states)
      return kept.drains
    },
    get unfed() {
      kept.unfed ??= unfedLoads(loom, this.paths.supply, this.states)
      return kept.unfed
    },
    get worstLinkAmps() {
      kept.worstLinks ??= worstByLink(loom, this.states)
      return kept.worstLinks
    },
    get worstAmps() {
      kept.worstConductors ??= worstByConductor(this.worstLinkAmps)
      return kept.worstConductors
    },
  }
}

interface Kept {
  paths?: Paths
  linkOhms?: Solution['linkOhms']
  states?: readonly StateSolution[]
  speakers?: readonly SpeakerNetwork[]
  drains?: Solution['drains']
  unfed?: Solution['unfed']
  worstLinks?: Worst<Link>
  worstConductors?: Worst<Conductor>
}

/** The largest current of each link over all states. A link whose current is unknown in any state has no worst case. */
function worstByLink(loom: Loom, states: readonly StateSolution[]): Worst<Link> {
  const worst = new Map<Link, { amps: number; state: State }>()
  for (const link of loom.links) {
    const figures = states.map(({ state, amps }) => ({
      state,
      amps: Math.abs(amps[link.index] ?? Number.NaN),
    }))
    if (figures.length === 0 || figures.some(({ amps }) => Number.isNaN(amps))) continue
    worst.set(
      link,
      figures.reduce((most, next) => (next.amps > most.amps ? next : most)),
    )
  }
  return worst
}

function worstByConductor(links: Worst<Link>): Worst<Conductor> {
  const worst = new Map<Conductor, { amps: number; state: State }>()
  for (const [link, figure] of links) if (link.conductor) worst.set(link.conductor, figure)
  return worst
}
