import type { Conductor, Loom, LoomUse, Terminal } from '../resolve/loom.ts'

/** The conductors that land on each terminal, by terminal index, shields that land at one end only included. */
export type Landings = ReadonlyMap<number, readonly Conductor[]>

/** Landings of one loom, or of all of them. */
export function landingsOf(loom: Loom, use?: LoomUse): Landings {
  const found = new Map<number, Conductor[]>()
  const add = (terminal: Terminal | undefined, conductor: Conductor) => {
    if (!terminal) return
    const list = found.get(terminal.index)
    if (list) list.push(conductor)
    else found.set(terminal.index, [conductor])
  }
  for (const conductor of loom.conductors) {
    if (use && conductor.loom !== use) continue
    add(conductor.from, conductor)
    if (conductor.to !== conductor.from) add(conductor.to, conductor)
  }
  return found
}

/** The conductors on one terminal. */
export const landingsAt = (landings: Landings, terminal: Terminal): readonly Conductor[] =>
  landings.get(terminal.index) ?? []

/** The end of a conductor that is not this one. */
export const otherEnd = (conductor: Conductor, terminal: Terminal): Terminal | undefined =>
  conductor.from === terminal ? conductor.to : conductor.from
