import { formatLength } from '../../base/format-quantity.ts'
import { bothSizes } from '../../base/wire-size.ts'
import type { Conductor, Link } from '../../resolve/loom.ts'

/** `A03 (1.5 mm² (≈16 AWG), 5.6 m)`: as much as is known. */
export function conductorWords(conductor: Conductor): string {
  const known = [
    ...(conductor.kind === 'shield' ? ['shield'] : conductor.size ? [bothSizes(conductor.size)] : []),
    ...(conductor.lengthMm === undefined ? [] : [formatLength(conductor.lengthMm)]),
  ]
  return known.length > 0 ? `${conductor.id}, ${known.join(', ')}` : conductor.id
}

/** The conductors of a path, in order. */
export const conductorsOf = (links: readonly Link[]): readonly Conductor[] =>
  links.flatMap((link) => (link.conductor ? [link.conductor] : []))

/** Wires and cores: what has a size of its own. */
export const isWire = (conductor: Conductor): boolean => conductor.kind !== 'shield'

/** The thinnest of several whose size is known. */
export function thinnest(conductors: readonly Conductor[]): Conductor | undefined {
  return conductors
    .filter((each) => isWire(each) && each.size)
    .sort((a, b) => (a.size?.areaMm2 ?? 0) - (b.size?.areaMm2 ?? 0))[0]
}

/** One key for all that is wrong because a conductor is thin; the cores of a cable can only change together. */
export const thinCause = (conductor: Conductor): string =>
  `thin:${conductor.cable?.address ?? conductor.address}`
