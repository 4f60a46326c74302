import type { Loom, LoomUse, Terminal } from '../resolve/loom.ts'

/** The harness a terminal belongs to; undefined for one of equipment. A splice knows it by its address only. */
export function owningUse(loom: Loom, terminal: Terminal): LoomUse | undefined {
  const own = terminal.half?.loom ?? terminal.component?.loom
  if (own || terminal.on !== 'splice') return own
  return loom.looms.find((use) => terminal.address.startsWith(`${use.id}.`))
}
