import type { ThingChange } from './changes.ts'

/** Moves in an order in which each cavity is free when a contact is to go in, and the rings that have no such order. */
export interface MoveOrder {
  readonly order: readonly ThingChange[]
  /** Wires that change places among themselves, by the first of them in the order: all come out before one goes back. */
  readonly rings: ReadonlyMap<ThingChange, readonly ThingChange[]>
}

/** Names of the ends whose place another wire waits for; only a cavity holds one contact. */
type IsCavity = (name: string) => boolean

/** Puts each wire behind the one that still sits where it is to go. */
export function orderMoves(wires: readonly ThingChange[], isCavity: IsCavity): MoveOrder {
  const leaves = new Map<string, ThingChange>()
  for (const wire of wires)
    for (const { from } of wire.moves) if (from !== undefined && isCavity(from)) leaves.set(from, wire)
  const waitsFor = (wire: ThingChange): ThingChange[] =>
    wire.moves.flatMap(({ to }) => {
      const other = to === undefined ? undefined : leaves.get(to)
      return other && other !== wire ? [other] : []
    })
  const order: ThingChange[] = []
  const rings = new Map<ThingChange, readonly ThingChange[]>()
  const done = new Set<ThingChange>()
  for (const start of wires) {
    // A path is followed by hand, since thousands of wires in one chain would exhaust the stack.
    const path: { readonly wire: ThingChange; readonly ahead: ThingChange[] }[] = []
    const open = (wire: ThingChange) => path.push({ wire, ahead: waitsFor(wire) })
    if (!done.has(start)) open(start)
    for (let step = path.at(-1); step; step = path.at(-1)) {
      const next = step.ahead.shift()
      if (next === undefined) {
        path.pop()
        if (!done.has(step.wire)) order.push(step.wire)
        done.add(step.wire)
        continue
      }
      const back = path.findIndex(({ wire }) => wire === next)
      if (back >= 0) ring(path.slice(back).map(({ wire }) => wire))
      else if (!done.has(next)) open(next)
    }
  }
  function ring(members: readonly ThingChange[]): void {
    const first = members.at(-1)
    if (first) rings.set(first, members)
  }
  return { order, rings }
}
