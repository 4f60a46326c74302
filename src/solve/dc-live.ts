import type { Link, Loom, State, Terminal } from '../resolve/loom.ts'
import { isClosed } from './dc-elements.ts'
import type { Source } from './dc-sources.ts'
import { across } from './reach.ts'

/** What each terminal is fed from in a state, and by which link it was reached. */
export interface Live {
  source(terminal: Terminal): Source | undefined
  /** Links from the source. */
  path(terminal: Terminal): Link[]
}

/** Follows the live sources through everything closed: metal, fuses, closed contacts, forward diodes. */
export function liveTerminals(loom: Loom, sources: readonly Source[], state: State): Live {
  const fed = new Map<number, { source: Source; link?: Link }>()
  for (const source of sources) fed.set(source.terminal.index, { source })
  const queue = sources.map((source) => source.terminal)
  for (const from of queue)
    for (const link of loom.linksAt[from.index] ?? []) {
      const to = across(link, from)
      const entry = fed.get(from.index)
      if (!entry || fed.has(to.index) || !carries(link, from, state)) continue
      fed.set(to.index, { source: entry.source, link })
      queue.push(to)
    }
  return {
    source: (terminal) => fed.get(terminal.index)?.source,
    path: (terminal) => {
      const links: Link[] = []
      for (let at = terminal; ; ) {
        const link = fed.get(at.index)?.link
        if (!link) return links.reverse()
        links.push(link)
        at = across(link, at)
      }
    },
  }
}

function carries(link: Link, from: Terminal, state: State): boolean {
  if (link.kind === 'diode') return link.a === from
  if (link.kind === 'coil' || link.kind === 'resistor') return false
  return isClosed(link, state)
}
