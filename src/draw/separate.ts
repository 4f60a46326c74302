import type { PlacedGraph, PlacedTrunk, PlacedWire } from './layout.ts'
import { PITCH } from './metrics.ts'
import type { Box, Point } from './scene.ts'
import { trunkLanes } from './trunk-lanes.ts'

/** A level or upright piece of line, with what it belongs to. */
interface Piece {
  readonly owner: string
  readonly level: boolean
  /** Height of a level piece, x of an upright one. */
  readonly at: number
  readonly from: number
  readonly to: number
  /** The room between the legs of a pair: half of its width, and the legs, which are at home there. */
  readonly band?: { readonly half: number; readonly legs: readonly string[] }
}

/** Lines should be a millimetre and a half apart; where there is no room for that, at least clearly two lines. */
const GAPS = [6, 6, 5, 4, 4]
const LEVEL_STEPS = [4, -4, 6, -6, 8, -8, 11, -11, 14, -14, 18, -18]
const UPRIGHT_STEPS = Array.from({ length: 240 }, (_, i) => (i % 2 === 0 ? 1 : -1) * (1 + Math.floor(i / 2)))

function pieces(owner: string, points: readonly Point[]): Piece[] {
  return points.slice(1).flatMap(([x, y], i): Piece[] => {
    const [px, py] = points[i] ?? [x, y]
    if (Math.abs(y - py) < 0.01 && Math.abs(x - px) > 0.5)
      return [{ owner, level: true, at: y, from: Math.min(x, px), to: Math.max(x, px) }]
    if (Math.abs(x - px) < 0.01 && Math.abs(y - py) > 0.5)
      return [{ owner, level: false, at: x, from: Math.min(y, py), to: Math.max(y, py) }]
    return []
  })
}

/** Every line of a trunk that is drawn: a core that is cut off and a screen that lands nowhere stop at the envelope. */
function trunkPieces(trunk: PlacedTrunk): Piece[] {
  const { lanes } = trunkLanes(trunk)
  const lines = lanes.flatMap(({ points, cut }, row) => {
    const run = trunk.runs[row]
    const owner = run?.key ?? trunk.id
    if (!cut || (run?.ends[0] && run.ends[1])) return pieces(owner, points)
    return pieces(owner, run?.ends[0] ? cut.before : cut.after)
  })
  return [...lines, ...pairBands(trunk, lanes)]
}

/** Nothing may come between the legs of a pair. */
function pairBands(trunk: PlacedTrunk, lanes: readonly { readonly points: readonly Point[] }[]): Piece[] {
  return trunk.rows.pairs.flatMap((row) => {
    const legs = [row, row + 1].map((r) => trunk.runs[r]?.key ?? trunk.id)
    const [upper = [], lower = []] = [row, row + 1].map((r) => pieces('', lanes[r]?.points ?? []))
    if (upper.length !== lower.length) return []
    return upper.flatMap((piece, i): Piece[] => {
      const other = lower[i]
      if (!other || other.level !== piece.level) return []
      const half = Math.abs(piece.at - other.at) / 2
      const [from, to] = [Math.min(piece.from, other.from), Math.max(piece.to, other.to)]
      return [
        {
          owner: `${trunk.id} pair`,
          level: piece.level,
          at: (piece.at + other.at) / 2,
          from,
          to,
          band: { half, legs },
        },
      ]
    })
  })
}

const clash = (a: Piece, b: Piece, gap: number) =>
  a.owner !== b.owner &&
  !a.band?.legs.includes(b.owner) &&
  !b.band?.legs.includes(a.owner) &&
  a.level === b.level &&
  Math.abs(a.at - b.at) < gap + (a.band?.half ?? 0) + (b.band?.half ?? 0) &&
  a.from < b.to - 1 &&
  b.from < a.to - 1

const clashes = (some: readonly Piece[], list: readonly Piece[], gap: number) =>
  some.some((one) => list.some((other) => clash(one, other, gap)))

const inside = ({ level, at, from, to }: Piece, { x, y, w, h }: Box) =>
  level
    ? at > y + 1 && at < y + h - 1 && from < x + w - 1 && to > x + 1
    : at > x + 1 && at < x + w - 1 && from < y + h - 1 && to > y + 1

const overlap = (a: Box, b: Box) => a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h

const same = (points: readonly Point[], j: number, axis: 0 | 1) =>
  Math.abs((points[j]?.[axis] ?? 0) - (points[j + 1]?.[axis] ?? 1e9)) < 0.01

/** Copies of a line with one inner piece moved across itself, nearest first, each with the piece's index and the move. */
function* variants(points: readonly Point[]): Generator<{ points: Point[]; j: number; dy: number }> {
  for (let j = 1; j + 2 < points.length; j++) {
    const level = same(points, j, 1) && same(points, j - 1, 0) && same(points, j + 1, 0)
    const upright = same(points, j, 0) && same(points, j - 1, 1) && same(points, j + 1, 1)
    if (!level && !upright) continue
    for (const step of level ? LEVEL_STEPS : UPRIGHT_STEPS) {
      const [dx, dy] = level ? [0, step] : [step, 0]
      const moved = points.map(([x, y], i): Point => (i === j || i === j + 1 ? [x + dx, y + dy] : [x, y]))
      if (keepsDirection(points, moved, j)) yield { points: moved, j, dy }
    }
  }
}

/** A piece moved past the end of its neighbour would fold the line back onto itself. */
function keepsDirection(before: readonly Point[], after: readonly Point[], j: number): boolean {
  return [j - 1, j + 1].every((k) => {
    const [a, b, c, d] = [before[k], before[k + 1], after[k], after[k + 1]]
    if (!a || !b || !c || !d) return true
    const old = b[0] - a[0] + (b[1] - a[1])
    const now = d[0] - c[0] + (d[1] - c[1])
    return old * now > 0 && Math.abs(now) > 4
  })
}

interface Surroundings {
  readonly gap: number
  readonly lines: readonly Piece[]
  readonly boxes: readonly Box[]
  readonly labels: readonly Box[]
}

/** Nothing in the way of these lines and, where it moves too, of the label. */
function isFree(lines: readonly Piece[], label: Box | undefined, around: Surroundings): boolean {
  if (clashes(lines, around.lines, around.gap)) return false
  if (lines.some((piece) => [...around.boxes, ...around.labels].some((box) => inside(piece, box))))
    return false
  if (!label) return true
  return (
    ![...around.boxes, ...around.labels].some((box) => overlap(label, box)) &&
    !around.lines.some((p) => inside(p, label))
  )
}

/** Blocks a conductor has to keep out of: all but those it ends in. */
const boxesFor = (placed: PlacedGraph, ends: readonly string[]): Box[] =>
  placed.nodes
    .filter((node) => node.block && !ends.some((port) => node.portAt.has(port)))
    .map(({ x, y, shape }) => ({ x, y, w: shape.width, h: shape.height }))

const wireLabels = (wires: readonly PlacedWire[]) => wires.flatMap((wire) => wire.label ?? [])

/** The envelope of a trunk with everything drawn round it. */
function envelopeBox({ label, rows }: PlacedTrunk): Box {
  const h = rows.rows.length * PITCH + 2 * 24
  return { ...label, y: label.y + label.h / 2 - h / 2, h }
}

/** The label still stands on a level piece of its own line, and none of the line runs through it. */
function standsOn(label: Box, own: readonly Piece[]): boolean {
  const foot = label.y + label.h
  const stands = own.some(
    (p) => p.level && Math.abs(p.at - foot) < 6 && p.from <= label.x + 2 && p.to >= label.x + label.w - 2,
  )
  return stands && !own.some((piece) => inside(piece, label))
}

function moveWire(wire: PlacedWire, around: Surroundings): PlacedWire {
  for (const { points, j, dy } of variants(wire.points)) {
    const { label } = wire
    const y = wire.points[j]?.[1] ?? 0
    const carries = dy !== 0 && label !== undefined && Math.abs(label.y + label.h - y) < 6
    const moved = carries && label ? { ...label, y: label.y + dy } : label
    const own = pieces(wire.run.key, points)
    if (moved && !standsOn(moved, own)) continue
    if (isFree(own, carries ? moved : undefined, around))
      return { ...wire, points, ...(moved ? { label: moved } : {}) }
  }
  return wire
}

/** Shorter, the first or last piece of a line would have its corner on the edge of a block. */
const LEAST_STUB = 5

function leavesItsEnds(lane: readonly Point[]): boolean {
  const far = (a: Point | undefined, b: Point | undefined) =>
    !a || !b || Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1]) >= LEAST_STUB
  return far(lane[0], lane[1]) && far(lane.at(-1), lane.at(-2))
}

function moveTrunk(trunk: PlacedTrunk, around: Surroundings): PlacedTrunk {
  for (const { points, j, dy } of variants(trunk.points)) {
    const { label } = trunk
    const carries = dy !== 0 && Math.abs(label.y + label.h / 2 - (trunk.points[j]?.[1] ?? 0)) < 1
    const moved = { ...trunk, points, ...(carries ? { label: { ...label, y: label.y + dy } } : {}) }
    const { lanes } = trunkLanes(moved)
    // The envelope has to stay on a level piece of every line, and every line has to leave its block before it turns.
    if (lanes.some(({ cut, points: lane }) => !cut || !leavesItsEnds(lane))) continue
    if (isFree(trunkPieces(moved), carries ? envelopeBox(moved) : undefined, around)) return moved
  }
  return trunk
}

/**
 * The layout knows the middle line of a trunk only, so a conductor may come to lie on one of the lines it is made of.
 * Such a conductor, or else the trunk, gets one of its pieces moved to where it is free.
 */
export function separate(placed: PlacedGraph): PlacedGraph {
  if (placed.trunks.length === 0) return placed
  return GAPS.reduce(separateOnce, placed)
}

/** How many lines still lie on others, or between the legs of a pair. */
export function clashesLeft(placed: PlacedGraph): number {
  const least = GAPS.at(-1) ?? 0
  const lines = [
    ...placed.wires.map((wire) => pieces(wire.run.key, wire.points)),
    ...placed.trunks.map((trunk) => trunkPieces(trunk)),
  ]
  return lines.filter((some, i) => lines.some((others, k) => k < i && clashes(some, others, least))).length
}

function separateOnce(placed: PlacedGraph, gap: number): PlacedGraph {
  const wires = [...placed.wires]
  const trunks = [...placed.trunks]
  const linesOf = (skipWire: number, skipTrunk: number) => [
    ...wires.flatMap((wire, i) => (i === skipWire ? [] : pieces(wire.run.key, wire.points))),
    ...trunks.flatMap((trunk, i) => (i === skipTrunk ? [] : trunkPieces(trunk))),
  ]
  for (const [i, wire] of wires.entries()) {
    const own = pieces(wire.run.key, wire.points)
    const lines = linesOf(i, -1)
    if (!clashes(own, lines, gap)) continue
    const labels = [...wireLabels(wires.filter((_, k) => k !== i)), ...trunks.map(envelopeBox)]
    wires[i] = moveWire(wire, { gap, lines, boxes: boxesFor(placed, [wire.source, wire.target]), labels })
  }
  for (const [i, trunk] of trunks.entries()) {
    const lines = linesOf(-1, i)
    if (!clashes(trunkPieces(trunk), lines, gap)) continue
    const labels = [...wireLabels(wires), ...trunks.filter((_, k) => k !== i).map(envelopeBox)]
    trunks[i] = moveTrunk(trunk, { gap, lines, boxes: boxesFor(placed, []), labels })
  }
  return { ...placed, wires, trunks }
}
