import type { Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import { landings } from './landings.ts'

/** A contact of a loom's plug with more than one conductor. */
export interface CrowdedContact {
  readonly contact: Terminal
  readonly wires: readonly Conductor[]
}

/** Places made for several wires: they are no contact of a plug. */
const SHARED: ReadonlySet<string> = new Set(['terminal', 'stud', 'wire-end'])

/** Contacts that hold more than one conductor, where the family does not provide for it. The shell may take several drains. */
export function* crowdedContacts(loom: Loom): Iterable<CrowdedContact> {
  for (const [contact, wires] of landings(loom)) {
    const { half } = contact
    if (wires.length < 2 || half?.side !== 'harness' || contact.name === 'shell') continue
    if (half.family && (half.family.manyWires || SHARED.has(half.family.style))) continue
    yield { contact, wires }
  }
}
