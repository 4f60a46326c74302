import { formatLength, formatOhms } from '../base/format-quantity.ts'
import type { Conductor, Link, Loom, Settings } from '../resolve/loom.ts'
import { conductorOhmsPerMetre } from './formulas/conductor-resistance.ts'
import { copperAtTemperature } from './formulas/copper-at-temperature.ts'
import type { LinkOhms } from './solution.ts'

/**
 * Resistance of every link by index: undefined where the description does not give enough, and for what has no
 * resistance of its own (capacitors, windings, diodes). Switches and relay contacts have that of the closed contact.
 */
export function linkOhms(loom: Loom): readonly (LinkOhms | undefined)[] {
  return loom.links.map((link) => ohmsOf(link, loom.settings))
}

function ohmsOf(link: Link, settings: Settings): LinkOhms | undefined {
  const component = link.component
  const name = component?.id ?? link.a.address
  const stated = (ohms: number): LinkOhms => ({ ohms, sum: `${name} ${formatOhms(ohms)}`, assumed: false })
  switch (link.kind) {
    case 'conductor':
      return link.conductor ? conductorLinkOhms(link.conductor, settings) : undefined
    case 'mate':
      return mateOhms(link, settings)
    case 'fuse':
      return fuseOhms(link, settings)
    case 'join':
    case 'bond':
      return link.ohms === undefined ? { ohms: 0, sum: `${name} 0 Ω`, assumed: true } : stated(link.ohms)
    case 'switch':
    case 'relay-contact':
      return link.ohms === undefined
        ? {
            ohms: settings.contactOhms,
            sum: `${name} ${formatOhms(settings.contactOhms)} a contact`,
            assumed: true,
          }
        : stated(link.ohms)
    case 'coil':
    case 'resistor':
      return link.ohms === undefined ? undefined : stated(link.ohms)
    default:
      return undefined
  }
}

function mateOhms(link: Link, settings: Settings): LinkOhms {
  const figures = [link.a.half?.family?.contactResistance, link.b.half?.family?.contactResistance]
  const given = figures[0] ?? figures[1]
  const where = link.a.on === 'equipment' ? link.a.address : link.b.address
  return {
    ohms: given ?? settings.contactOhms,
    sum: `contact at ${where} ${formatOhms(given ?? settings.contactOhms)}`,
    assumed: given === undefined,
  }
}

function fuseOhms(link: Link, settings: Settings): LinkOhms {
  const source = link.component?.source
  const own = source?.kind === 'fuse' ? source : undefined
  const given = own?.resistance ?? link.component?.fusePart?.resistance
  const fuse = given ?? settings.fuseOhms
  const holder = own?.holder ?? settings.holderOhms
  return {
    ohms: fuse + holder,
    sum: `${link.component?.id} ${formatOhms(fuse)} and its holder ${formatOhms(holder)}`,
    assumed: given === undefined || own?.holder === undefined,
  }
}

function conductorLinkOhms(conductor: Conductor, settings: Settings): LinkOhms | undefined {
  const perMetre = ohmsPerMetre(conductor, settings.conductorCelsius)
  const { lengthMm } = conductor
  if (perMetre === undefined || lengthMm === undefined) return undefined
  const size = conductor.kind === 'shield' ? 'shield' : (conductor.size?.label ?? '')
  return {
    ohms: (perMetre * lengthMm) / 1000,
    sum: `${conductor.id} ${size}, ${formatLength(lengthMm)} × ${formatOhms(perMetre)}/m`,
    assumed: false,
  }
}

/** Ω/m of a conductor at a copper temperature: as its part states, else by its size (IEC 60228 class 5 or ASTM B258). */
export function ohmsPerMetre(conductor: Conductor, celsius: number): number | undefined {
  const { cable, wirePart, size } = conductor
  if (conductor.kind === 'shield') {
    const shield = cable?.part?.shields?.find((entry) => entry.name === conductor.core)
    if (shield?.ohmsPerKm !== undefined) return copperAtTemperature(shield.ohmsPerKm / 1000, celsius)
    return shield?.drain ? conductorOhmsPerMetre(shield.drain, celsius) : undefined
  }
  const part = cable?.part ?? wirePart
  if (part?.ohmsPerKm !== undefined) return copperAtTemperature(part.ohmsPerKm / 1000, celsius)
  return size ? conductorOhmsPerMetre(size, celsius, part?.tinned ? 'tinned' : 'plain') : undefined
}

/** The resistance along a path, copper and joints apart, with the sum for people and what is missing. */
export interface PathOhms {
  readonly ohms: number
  readonly conductorOhms: number
  readonly jointOhms: number
  readonly lengthMm: number
  /** Terms of the sum, largest first. */
  readonly terms: readonly LinkOhms[]
  /** Conductors whose size or length is not given: the figures are then too low. */
  readonly missing: readonly Conductor[]
}

/** Adds up a path. */
export function sumOhms(links: readonly Link[], ohms: readonly (LinkOhms | undefined)[]): PathOhms {
  const terms: LinkOhms[] = []
  const missing: Conductor[] = []
  let conductorOhms = 0
  let jointOhms = 0
  let lengthMm = 0
  for (const link of links) {
    const term = ohms[link.index]
    lengthMm += link.conductor?.lengthMm ?? 0
    if (!term) {
      if (link.conductor) missing.push(link.conductor)
      continue
    }
    if (link.kind === 'conductor') conductorOhms += term.ohms
    else jointOhms += term.ohms
    if (term.ohms > 0) terms.push(term)
  }
  terms.sort((a, b) => b.ohms - a.ohms)
  return { ohms: conductorOhms + jointOhms, conductorOhms, jointOhms, lengthMm, terms, missing }
}
