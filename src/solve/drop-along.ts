import type { Link, Terminal } from '../resolve/loom.ts'
import { across } from './reach.ts'
import type { LinkOhms } from './solution.ts'

/** Volts lost on a path in one state, each link with the current that is really in it. */
export interface DropAlong {
  readonly volts: number
  /** In copper alone, as the drop formulas of boats count it (ABYC, ISO 10133: length and area of conductors only; from memory). */
  readonly conductorVolts: number
  /** In contacts, fuses, holders and diodes. */
  readonly jointVolts: number
  /** Links by what they lose, most first. */
  readonly terms: readonly {
    readonly link: Link
    readonly amps: number
    readonly volts: number
    readonly sum: string
  }[]
}

/**
 * Adds up what is lost along a path from `start`, feed or return. Currents against the direction of the path count as negative.
 * NaN where a current or a resistance on it is not known.
 */
export function dropAlong(
  start: Terminal,
  links: readonly Link[],
  amps: ArrayLike<number>,
  ohms: readonly (LinkOhms | undefined)[],
): DropAlong {
  let conductorVolts = 0
  let jointVolts = 0
  const terms: { link: Link; amps: number; volts: number; sum: string }[] = []
  let at = start
  for (const link of links) {
    const current = (link.a === at ? 1 : -1) * (amps[link.index] ?? Number.NaN)
    const known = ohms[link.index]
    const volts = current === 0 ? 0 : current * (known?.ohms ?? Number.NaN)
    if (link.kind === 'conductor') conductorVolts += volts
    else jointVolts += volts
    terms.push({
      link,
      amps: current,
      volts,
      sum: known?.sum ?? `${link.conductor?.id ?? link.kind} unknown`,
    })
    at = across(link, at)
  }
  terms.sort((a, b) => b.volts - a.volts)
  return { volts: conductorVolts + jointVolts, conductorVolts, jointVolts, terms }
}
