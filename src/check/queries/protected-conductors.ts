import type { ComponentUse, Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import type { Paths } from '../../solve/paths.ts'
import { conductorsOf } from './conductor-words.ts'

/** A fuse on the way from a source, with the conductors that only it protects. */
export interface Protected {
  readonly fuse: ComponentUse
  readonly source: Terminal
  readonly conductors: readonly Conductor[]
  /** Loads for which it is the last fuse. */
  readonly loads: readonly Terminal[]
}

/** Rated current of a fuse, as stated or as its part says. */
export const fuseRating = (fuse: ComponentUse): number | undefined =>
  (fuse.source.kind === 'fuse' ? fuse.source.rating : undefined) ?? fuse.fusePart?.rating

export const fusesOf = (loom: Loom): readonly ComponentUse[] =>
  loom.components.filter(({ source }) => source.kind === 'fuse')

/**
 * Conductors below each fuse as far as the next ones, and the way back of the loads for which it is the last: a short at the
 * load heats both legs. A fuse that no source reaches sits in a return and protects nothing here.
 */
export function protectedConductors(loom: Loom, paths: Paths): readonly Protected[] {
  const { supply } = paths
  const loads = loom.terminals.filter((pin) => pin.on === 'equipment' && pin.does.kind === 'supply-in')
  const byFuse = new Map<ComponentUse, { loads: Terminal[]; back: Set<Conductor> }>()
  for (const load of loads)
    for (const { source, fuses } of supply.supplies(load)) {
      const last = fuses.at(-1)
      if (!last) continue
      const entry = byFuse.get(last) ?? { loads: [], back: new Set<Conductor>() }
      byFuse.set(last, entry)
      entry.loads.push(load)
      for (const conductor of conductorsOf(supply.returnPath(load, source)?.links ?? []))
        entry.back.add(conductor)
    }
  return fusesOf(loom).flatMap((fuse) => {
    const source = supply.sources.find((each) =>
      [...fuse.terminals.values()].some((terminal) => supply.tree(each).has(terminal)),
    )
    if (!source) return []
    const own = byFuse.get(fuse)
    const conductors = new Set([...supply.conductorsBelow(fuse), ...(own?.back ?? [])])
    return [{ fuse, source, conductors: [...conductors], loads: [...new Set(own?.loads ?? [])] }]
  })
}
