import { expandTrunk } from './expand-trunk.ts'
import type { PlacedGraph, PlacedTrunk, PlacedWire } from './layout.ts'
import type { Point } from './scene.ts'

/** A level piece of line. */
interface Level {
  readonly y: number
  readonly from: number
  readonly to: number
}

/** Lines closer than this look like one. */
const TOO_CLOSE = 3
/** Tried in turn; small enough to keep a label clear of its neighbours. */
const STEPS = [4, -4, 6, -6, 8, -8, 11, -11]

function levels(points: readonly Point[]): Level[] {
  return points.slice(1).flatMap(([x, y], i) => {
    const [px, py] = points[i] ?? [x, y]
    return Math.abs(y - py) < 0.01 && Math.abs(x - px) > 0.5
      ? [{ y, from: Math.min(x, px), to: Math.max(x, px) }]
      : []
  })
}

const meet = (one: Level, other: Level) =>
  Math.abs(one.y - other.y) < TOO_CLOSE && one.from < other.to - 1 && other.from < one.to - 1
const meetsAny = (some: readonly Level[], list: readonly Level[]) =>
  some.some((one) => list.some((other) => meet(one, other)))

const same = (points: readonly Point[], j: number, axis: 0 | 1) =>
  Math.abs((points[j]?.[axis] ?? 0) - (points[j + 1]?.[axis] ?? 1e9)) < 0.01
/** A level piece between two upright ones can move without tearing the line. */
const canMove = (points: readonly Point[], j: number) =>
  same(points, j, 1) && same(points, j - 1, 0) && same(points, j + 1, 0)

const movePiece = (points: readonly Point[], j: number, by: number) =>
  points.map(([x, y], i): Point => [x, i === j || i === j + 1 ? y + by : y])

const legsOf = (trunk: PlacedTrunk) => expandTrunk(trunk.points, trunk.rows.rows.length).flatMap(levels)

/** Moves one level piece between two upright ones, with the label that stands on it. */
function shiftWire(wire: PlacedWire, j: number, by: number): PlacedWire {
  const points = movePiece(wire.points, j, by)
  const { label } = wire
  const y = wire.points[j]?.[1] ?? 0
  const carries = label !== undefined && Math.abs(label.y + label.h - y) < 6
  return { ...wire, points, ...(carries && label ? { label: { ...label, y: label.y + by } } : {}) }
}

function shiftTrunk(trunk: PlacedTrunk, j: number, by: number): PlacedTrunk {
  const { label, points } = trunk
  const carries = Math.abs(label.y + label.h / 2 - (points[j]?.[1] ?? 0)) < 1
  return {
    ...trunk,
    points: movePiece(points, j, by),
    ...(carries ? { label: { ...label, y: label.y + by } } : {}),
  }
}

/** Pieces of trunks that came to lie on a conductor which cannot give way. */
function nudgeTrunks(placed: PlacedGraph): PlacedGraph {
  const trunks = [...placed.trunks]
  const fixed = placed.wires.flatMap((wire) => levels(wire.points))
  for (const [t, start] of trunks.entries()) {
    let trunk = start
    const others = [...fixed, ...trunks.filter((_, i) => i !== t).flatMap(legsOf)]
    for (let j = 1; j + 2 < trunk.points.length; j++) {
      if (!canMove(trunk.points, j) || !meetsAny(legsOf(trunk), others)) continue
      const by = STEPS.find((step) => !meetsAny(legsOf(shiftTrunk(trunk, j, step)), others))
      if (by !== undefined) trunk = shiftTrunk(trunk, j, by)
    }
    trunks[t] = trunk
  }
  return { ...placed, trunks }
}

/**
 * The layout knows the middle line of a trunk only, so a conductor may come to lie on one of the lines it is made of.
 * Such a piece is moved a millimetre or two, where it is free to move.
 */
export function nudge(placed: PlacedGraph): PlacedGraph {
  if (placed.trunks.length === 0) return placed
  const legs = placed.trunks.flatMap(legsOf)
  const wires = [...placed.wires]
  for (const [w, start] of wires.entries()) {
    let wire = start
    for (let j = 1; j + 2 < wire.points.length; j++) {
      if (!canMove(wire.points, j)) continue
      const piece = levels(wire.points.slice(j, j + 2))
      if (!meetsAny(piece, legs)) continue
      const others = [...legs, ...wires.filter((_, i) => i !== w).flatMap((other) => levels(other.points))]
      const by = STEPS.find(
        (step) =>
          !meetsAny(
            piece.map((one) => ({ ...one, y: one.y + step })),
            others,
          ),
      )
      if (by !== undefined) wire = shiftWire(wire, j, by)
    }
    wires[w] = wire
  }
  return nudgeTrunks({ ...placed, wires })
}
