import type { Loom, Terminal } from '../../resolve/loom.ts'
import { across, throughMetal } from '../../solve/reach.ts'

/** Distances along the conductors of a net from one terminal. */
export interface Distances {
  /** Shortest way in mm; undefined for a terminal of another net. */
  to(terminal: Terminal): number | undefined
  /** Conductors met whose length is not given; they count as nothing. */
  readonly unmeasured: readonly string[]
}

/** Measures from a terminal along the metal of its net. */
export function metalDistances(loom: Loom, root: Terminal): Distances {
  const best = new Map<Terminal, number>([[root, 0]])
  const unmeasured = new Set<string>()
  const queue = [root]
  for (const from of queue) {
    const here = best.get(from) ?? 0
    for (const link of loom.linksAt[from.index] ?? []) {
      if (!throughMetal(link, from)) continue
      if (link.conductor && link.conductor.lengthMm === undefined) unmeasured.add(link.conductor.address)
      const to = across(link, from)
      const there = here + (link.conductor?.lengthMm ?? 0)
      if (there >= (best.get(to) ?? Number.POSITIVE_INFINITY)) continue
      best.set(to, there)
      queue.push(to)
    }
  }
  return { to: (terminal) => best.get(terminal), unmeasured: [...unmeasured] }
}
