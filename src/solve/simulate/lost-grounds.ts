import type { Conductor, Link, Loom, State } from '../../resolve/loom.ts'
import type { Solution } from '../solution.ts'
import { heaviestState, loadNetwork, mostTrials } from './load-network.ts'

/** What happens when one ground joint is lost. */
export interface LostGround {
  readonly joint: Link
  readonly state: State
  /** What the joint carried while it was whole. */
  readonly amps: number
  /** Conductors that carry more than before, most first. */
  readonly carriers: readonly {
    readonly conductor: Conductor
    readonly amps: number
    readonly before: number
  }[]
}

export interface LostGrounds {
  readonly results: readonly LostGround[]
  /** Joints that carry current and were not tried, since the loom is too large. */
  readonly left: number
}

const LEAST_AMPS = 0.05

/** Opens each ground joint that carries current, one at a time, in the state with the greatest current. */
export function loseGrounds(loom: Loom, solution: Solution): LostGrounds {
  const state = heaviestState(solution)
  if (!state) return { results: [], left: 0 }
  const joints = loom.links
    .filter(isGroundJoint)
    .map((joint) => ({ joint, amps: Math.abs(state.amps[joint.index] ?? 0) }))
    .filter(({ amps }) => amps >= LEAST_AMPS)
    .sort((a, b) => b.amps - a.amps)
  const most = mostTrials(loom.terminals.length)
  if (joints.length === 0) return { results: [], left: 0 }
  const network = loadNetwork(loom, solution, state)
  const whole = network.open(new Set())
  const wires = loom.links.filter((link) => link.kind === 'conductor' && link.conductor)
  const results = joints.slice(0, most).map(({ joint, amps }): LostGround => {
    const opened = network.open(new Set([joint]))
    const carriers = wires.flatMap((link) => {
      const [now, before] = [Math.abs(opened.amps(link)), Math.abs(whole.amps(link))]
      if (!link.conductor || now < LEAST_AMPS || now <= before * 1.05) return []
      return [{ conductor: link.conductor, amps: now, before }]
    })
    return { joint, amps, state: state.state, carriers: carriers.sort((a, b) => b.amps - a.amps) }
  })
  return { results, left: Math.max(0, joints.length - most) }
}

/** A contact, ring or screw at the return pin or on the chassis of a unit. */
function isGroundJoint({ kind, a, b }: Link): boolean {
  if (kind !== 'mate') return false
  return [a, b].some(
    ({ on, does }) => on === 'equipment' && (does.kind === 'return' || does.kind === 'chassis'),
  )
}
