import type { Conductor, Half, Loom, Terminal } from '../../resolve/loom.ts'

/** Conductors by the terminal they land on, those with a missing far end included. */
export function landings(loom: Loom): ReadonlyMap<Terminal, readonly Conductor[]> {
  const byTerminal = new Map<Terminal, Conductor[]>()
  for (const conductor of loom.conductors)
    for (const end of new Set([conductor.from, conductor.to])) {
      if (!end) continue
      const there = byTerminal.get(end)
      if (there) there.push(conductor)
      else byTerminal.set(end, [conductor])
    }
  return byTerminal
}

/** Where a conductor goes from here. */
export const farEnd = (conductor: Conductor, near: Terminal): Terminal | undefined =>
  conductor.from === near ? conductor.to : conductor.from

/** Halves of looms, in order. */
export const harnessHalves = (loom: Loom): readonly Half[] =>
  loom.halves.filter((half) => half.side === 'harness')

/** The pins mated with this one, by contact: a ring on a stud has another name than the stud. */
export function matedPins(loom: Loom, pin: Terminal): readonly Terminal[] {
  return (loom.linksAt[pin.index] ?? [])
    .filter((link) => link.kind === 'mate')
    .map((link) => (link.a === pin ? link.b : link.a))
}
