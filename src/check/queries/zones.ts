import type { Installation } from '../../describe/installation.ts'
import type { Conductor, Half, Loom } from '../../resolve/loom.ts'

export type Zone = NonNullable<Installation['zones']>[number]

/** The described zones of an installation by id; none for a loom on its own. */
export function zonesOf(loom: Loom): ReadonlyMap<string, Zone> {
  const zones = loom.kind === 'installation' ? (loom.source as Installation).zones : undefined
  return new Map((zones ?? []).map((zone) => [zone.id, zone]))
}

/** Where a half sits: as it says, else where the unit or the half it is mated with sits. */
export const zoneOfHalf = (half: Half): string | undefined =>
  half.zone ?? half.unit?.zone ?? half.mate?.zone ?? half.mate?.unit?.zone

/** Names of the zones a conductor is known to be in: its own, and those of its two ends. */
export function zonesTouched({ zone, from, to }: Conductor): readonly string[] {
  const ends = [from, to].flatMap((end) =>
    end === undefined ? [] : [end.half ? zoneOfHalf(end.half) : end.component?.source.zone],
  )
  return [...new Set([zone, ...ends].filter((id) => id !== undefined))]
}
