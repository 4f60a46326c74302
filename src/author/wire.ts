import type { HarnessInput, WireInput } from '../describe/harness.ts'
import { type End, endsOf } from './end.ts'
import { nameOf, ownOf, type Ref, type WirePart } from './part.ts'
import { hide, mark, markAs, tidy } from './site.ts'

/** Harness things the ends of a conductor belong to, so that the harness can list them by itself. */
export interface Landing {
  readonly owners: readonly object[]
}

export type Wire = WireInput & Landing

export type WireOptions = Omit<WireInput, 'id' | 'from' | 'to' | 'part'> & { part?: Ref<WirePart> }

/** A single conductor between two ends: `wire('A20', P2.pin('1'), LS.pin('+'), { size: '0.75 mm²', colour: 'WH', length: '3.0 m' })`. */
export function wire(id: string, from: End, to: End, options: WireOptions = {}): Wire {
  endsOf(`wire ${id}`, from, to)
  const data = tidy({ id, from: from.address, to: to.address, ...options, part: nameOf(options.part) })
  const marked = mark(data, wire, { args: ['id', 'from', 'to', ''], uses: [ownOf(options.part)] })
  return hide(marked, { owners: [from.owner, to.owner] }) as Wire
}

/** Two or more wires twisted together: the same wires, each with the name of the pair. */
export function pair(id: string, ...wires: readonly Wire[]): Wire[] {
  return wires.map((one) => hide(markAs({ ...one, pair: id }, one), { owners: one.owners }) as Wire)
}

type SpliceInput = NonNullable<HarnessInput['splices']>[number]
export type Splice = SpliceInput & End

/** A joint in the run of a harness; it may stand for an end of any number of wires. */
export function splice(id: string, options: Omit<SpliceInput, 'id'> = {}): Splice {
  const data = mark(tidy({ id, ...options }), splice, { lands: 'splices', args: ['id', ''] })
  return hide(data, { address: id, owner: data }) as Splice
}
