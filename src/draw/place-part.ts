import { type ArrangedSheet, arrangementOf, inKeptOrder, withColumns } from './arrangement.ts'
import { assignColumns, type ColumnStyle } from './columns.ts'
import { buildGraph, type Graph } from './graph.ts'
import { layOut, type PlacedGraph } from './layout.ts'
import type { LayoutEngine } from './layout-engine.ts'
import { LEAST_SCALE } from './metrics.ts'
import { extendWires } from './reach.ts'
import { clashesLeft, separate } from './separate.ts'
import type { SheetPart } from './sheet-parts.ts'

/** A sheet's share in its place, and how it is arranged. */
export interface ArrangedGraph {
  readonly placed: PlacedGraph
  readonly arranged: ArrangedSheet
}

/** Room on the paper. */
interface Room {
  readonly w: number
  readonly h: number
}

/** Times a drawing is laid out anew when lines of it cannot be parted. */
const ATTEMPTS = 5

/** Lays out, parts what lies on each other, and begins again where that leaves lines that cannot be told apart. */
async function placeGraph(
  graph: Graph,
  settings: { readonly aspect: number; readonly ordered: boolean },
  engine: LayoutEngine | undefined,
): Promise<PlacedGraph> {
  let best: { readonly placed: PlacedGraph; readonly left: number } | undefined
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    const placed = separate(extendWires(await layOut(graph, { ...settings, attempt }, engine)))
    const left = clashesLeft(placed)
    if (!best || left < best.left) best = { placed, left }
    if (left === 0) break
  }
  if (!best) throw new Error('the drawing was never laid out')
  return best.placed
}

const scaleIn = ({ w, h }: Room, { placed }: ArrangedGraph) =>
  Math.min(w / Math.max(1, placed.width), h / Math.max(1, placed.height))

async function placeStyle(
  part: SheetPart,
  room: Room,
  style: ColumnStyle,
  kept: ArrangedSheet | undefined,
  engine: LayoutEngine | undefined,
): Promise<ArrangedGraph> {
  const model = kept ? withColumns(part.model, kept) : part.model
  const columns = assignColumns(model, style)
  const graph = buildGraph(model, columns, part.elsewhere)
  const ordered = kept ? inKeptOrder(graph, kept) : graph
  const placed = await placeGraph(ordered, { aspect: room.w / room.h, ordered: kept !== undefined }, engine)
  return { placed, arranged: arrangementOf(model, style, columns, placed) }
}

/** Lays a part out as it was before; else, or where that has become too large, in the style in which it comes out larger. */
export async function placePart(
  part: SheetPart,
  room: Room,
  kept?: ArrangedSheet,
  engine?: LayoutEngine,
): Promise<ArrangedGraph> {
  const same = kept && (await placeStyle(part, room, kept.style, kept, engine))
  if (same && scaleIn(room, same) >= LEAST_SCALE) return same
  const facing = await placeStyle(part, room, 'facing', undefined, engine)
  if (scaleIn(room, facing) >= 1) return facing
  const steps = await placeStyle(part, room, 'steps', undefined, engine)
  return scaleIn(room, steps) > scaleIn(room, facing) * 1.05 ? steps : facing
}
