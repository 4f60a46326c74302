import type { PlacedGraph, PlacedWire } from './layout.ts'
import type { Point } from './scene.ts'
import type { Reach } from './shape.ts'

function reaching(wire: PlacedWire, reach: ReadonlyMap<string, Reach>): PlacedWire {
  const on = (port: string, end: Point | undefined): Point[] => {
    const found = reach.get(port)
    if (!found || !end) return []
    return [...(found.levelTo === undefined ? [] : [[found.levelTo, end[1]] as const]), found.goal]
  }
  const before = on(wire.source, wire.points[0]).reverse()
  return { ...wire, points: [...before, ...wire.points, ...on(wire.target, wire.points.at(-1))] }
}

/** Takes conductors on from the edge of a block: to the dot of a joint, through the comb of a trunk, round a turn. */
export function extendWires(placed: PlacedGraph): PlacedGraph {
  const reach = new Map<string, Reach>()
  for (const { x, y, shape } of placed.nodes)
    for (const [port, { levelTo, goal }] of shape.reach ?? [])
      reach.set(port, {
        goal: [x + goal[0], y + goal[1]],
        ...(levelTo === undefined ? {} : { levelTo: x + levelTo }),
      })
  return { ...placed, wires: placed.wires.map((wire) => reaching(wire, reach)) }
}
