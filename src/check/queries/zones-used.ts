import type { Installation } from '../../describe/installation.ts'
import type { Conductor, Half, Loom, Unit } from '../../resolve/loom.ts'
import type { Zone } from './zones.ts'

/** A zone with what of the job sits in it or runs through it. */
export interface ZoneUsed {
  readonly id: string
  /** As described; undefined where only its name is used. */
  readonly zone?: Zone
  readonly units: readonly Unit[]
  readonly halves: readonly Half[]
  readonly conductors: readonly Conductor[]
}

/** Zones in the order they are described, then those that are only named. */
export function zonesUsed(loom: Loom): ZoneUsed[] {
  const described = loom.kind === 'installation' ? ((loom.source as Installation).zones ?? []) : []
  const named = [...loom.units, ...loom.halves, ...loom.conductors].flatMap(({ zone }) => zone ?? [])
  const ids = [...new Set([...described.map(({ id }) => id), ...named])]
  return ids
    .map((id): ZoneUsed => {
      const zone = described.find((one) => one.id === id)
      const here = ({ zone: where }: { readonly zone?: string }) => where === id
      return {
        id,
        ...(zone ? { zone } : {}),
        units: loom.units.filter(here),
        halves: loom.halves.filter((half) => half.side === 'harness' && here(half)),
        conductors: loom.conductors.filter(here),
      }
    })
    .filter(({ units, halves, conductors }) => units.length + halves.length + conductors.length > 0)
}

/** Whether a zone is near such a thing; undefined where nobody has said. */
export const isNear = (
  { zone }: ZoneUsed,
  ...what: readonly NonNullable<Zone['near']>[number][]
): boolean | undefined =>
  zone?.near === undefined ? undefined : what.some((one) => zone.near?.includes(one))
