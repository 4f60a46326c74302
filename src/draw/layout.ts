import type { ElkExtendedEdge, ElkNode, LayoutOptions } from 'elkjs/lib/elk-api.js'
import { labelWidth } from './conductor-label.ts'
import type { Graph, GraphNode, TrunkEdge, WireEdge } from './graph.ts'
import { type LayoutEngine, layOutAnew } from './layout-engine.ts'
import { PITCH, TRUNK_SLOT } from './metrics.ts'
import type { Box, Point } from './scene.ts'

export interface PlacedNode extends GraphNode {
  readonly x: number
  readonly y: number
  /** Ports by id, absolute. */
  readonly portAt: ReadonlyMap<string, Point>
}

export interface PlacedWire extends WireEdge {
  readonly points: readonly Point[]
  readonly label?: Box
}

export interface PlacedTrunk extends TrunkEdge {
  /** The middle line. */
  readonly points: readonly Point[]
  readonly label: Box
}

export interface PlacedGraph {
  readonly width: number
  readonly height: number
  readonly nodes: readonly PlacedNode[]
  readonly wires: readonly PlacedWire[]
  readonly trunks: readonly PlacedTrunk[]
}

export interface LayoutSettings {
  /** Width over height the sheet has to offer. */
  readonly aspect: number
  /** Counts from 0; every further one lays out anew with a little more room between lines. */
  readonly attempt?: number
  /** Keeps the nodes in the order they are given in, from top to bottom. */
  readonly ordered?: boolean
}

export const LABEL_HEIGHT = 16
/** Above this many conductors on a sheet the slower, better settings cost seconds. */
const CAREFUL_LIMIT = 200

const SPACING: LayoutOptions = {
  'elk.spacing.nodeNode': '28',
  'elk.spacing.edgeNode': '14',
  'elk.spacing.edgeLabel': '2',
  'elk.spacing.labelLabel': '4',
  'elk.spacing.componentComponent': '40',
  'elk.layered.spacing.nodeNodeBetweenLayers': '30',
  'elk.layered.spacing.edgeNodeBetweenLayers': '16',
}

const KEEP_ORDER: LayoutOptions = {
  'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES',
  'elk.layered.crossingMinimization.forceNodeModelOrder': 'true',
}

function rootOptions(
  conductors: number,
  { aspect, attempt = 0, ordered = false }: LayoutSettings,
): LayoutOptions {
  const careful: LayoutOptions =
    conductors <= CAREFUL_LIMIT
      ? {
          'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
          'elk.layered.nodePlacement.favorStraightEdges': 'true',
          'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES',
          'elk.layered.thoroughness': '30',
        }
      : {}
  const lines = String(10 + 4 * attempt)
  return {
    ...SPACING,
    'elk.spacing.edgeEdge': lines,
    'elk.layered.spacing.edgeEdgeBetweenLayers': lines,
    ...careful,
    ...(ordered ? KEEP_ORDER : {}),
    'elk.algorithm': 'layered',
    'elk.direction': 'RIGHT',
    'elk.edgeRouting': 'ORTHOGONAL',
    // Zero would seed from the clock and give other bytes each time.
    'elk.randomSeed': String(1 + attempt),
    'elk.aspectRatio': String(aspect),
    'elk.layered.crossingMinimization.greedySwitch.type': 'TWO_SIDED',
    'elk.edgeLabels.placement': 'CENTER',
    'elk.layered.edgeLabels.sideSelection': 'ALWAYS_UP',
  }
}

function elkNode({ id, shape }: GraphNode): ElkNode {
  return {
    id,
    width: shape.width,
    height: shape.height,
    ports: shape.ports.map((port) => ({
      id: port.id,
      width: 0,
      height: 0,
      ...(shape.loose ? {} : { x: port.x, y: port.y }),
      layoutOptions: { 'elk.port.side': port.side },
    })),
    layoutOptions: shape.loose
      ? {
          'elk.portConstraints': 'FIXED_SIDE',
          'elk.portAlignment.default': 'CENTER',
          'elk.spacing.portPort': '12',
        }
      : { 'elk.portConstraints': 'FIXED_POS' },
  }
}

function elkWire(wire: WireEdge): ElkExtendedEdge {
  const { conductor } = wire.run
  const labels =
    wire.labelled && conductor
      ? [
          {
            text: conductor.id,
            width: Math.ceil(labelWidth(conductor)) + 8,
            height: LABEL_HEIGHT,
            layoutOptions: { 'elk.edgeLabels.placement': 'CENTER' },
          },
        ]
      : []
  return { id: wire.id, sources: [wire.source], targets: [wire.target], labels }
}

function elkTrunk(trunk: TrunkEdge): ElkExtendedEdge {
  return {
    id: trunk.id,
    sources: [trunk.source],
    targets: [trunk.target],
    labels: [
      {
        text: trunk.id,
        width: trunk.width,
        height: trunk.height,
        layoutOptions: { 'elk.edgeLabels.placement': 'CENTER', 'elk.edgeLabels.inline': 'true' },
      },
    ],
    layoutOptions: {
      'elk.edge.thickness': String(thickness(trunk)),
      // Where connections go in a circle, a single conductor turns back rather than a whole cable.
      'elk.layered.priority.direction': '10',
    },
  }
}

const thickness = (trunk: TrunkEdge) => Math.max(1, trunk.rows.rows.length * PITCH - 4)

function pointsOf(edge: ElkExtendedEdge | undefined): Point[] {
  const section = edge?.sections?.[0]
  if (!section) return []
  return [section.startPoint, ...(section.bendPoints ?? []), section.endPoint].map((p): Point => [p.x, p.y])
}

function boxOf(edge: ElkExtendedEdge | undefined): Box | undefined {
  const label = edge?.labels?.[0]
  return label ? { x: label.x ?? 0, y: label.y ?? 0, w: label.width ?? 0, h: label.height ?? 0 } : undefined
}

function read(graph: Graph, root: ElkNode): PlacedGraph {
  const nodes = new Map((root.children ?? []).map((node) => [node.id, node]))
  const edges = new Map((root.edges ?? []).map((edge) => [edge.id, edge]))
  return {
    width: root.width ?? 0,
    height: root.height ?? 0,
    nodes: graph.nodes.map((node) => {
      const placed = nodes.get(node.id)
      const x = placed?.x ?? 0
      const y = placed?.y ?? 0
      const portAt = new Map(
        (placed?.ports ?? []).map((p): [string, Point] => [p.id, [x + (p.x ?? 0), y + (p.y ?? 0)]]),
      )
      return { ...node, x, y, portAt }
    }),
    wires: graph.wires.map((wire) => {
      const edge = edges.get(wire.id)
      const label = boxOf(edge)
      return { ...wire, points: pointsOf(edge), ...(label ? { label } : {}) }
    }),
    trunks: graph.trunks.map((trunk) => {
      const edge = edges.get(trunk.id)
      const label = boxOf(edge) ?? { x: 0, y: 0, w: trunk.width, h: trunk.height }
      // The library returns an inline label half the edge's thickness above the line it belongs to.
      return { ...trunk, points: pointsOf(edge), label: { ...label, y: label.y + thickness(trunk) / 2 } }
    }),
  }
}

/**
 * Places a graph with the layered algorithm. Deterministic: the same graph gives the same coordinates everywhere.
 * @throws Error naming the drawing step when the layout library fails.
 */
export async function layOut(
  graph: Graph,
  settings: LayoutSettings,
  engine: LayoutEngine = layOutAnew,
): Promise<PlacedGraph> {
  const root: ElkNode = {
    id: 'root',
    layoutOptions: rootOptions(graph.wires.length + graph.trunks.length, settings),
    children: graph.nodes.map(elkNode),
    edges: [
      ...graph.trunks.map((trunk) => ({ order: trunk.order, edge: elkTrunk(trunk) })),
      ...graph.wires.map((wire) => ({ order: wire.order, edge: elkWire(wire) })),
    ]
      .sort((a, b) => a.order - b.order)
      .map(({ edge }) => edge),
  }
  return widen(read(graph, await engine(root)))
}

/**
 * Makes room where trunks run up or down. The library keeps one slot for each edge there, so the page is stretched at
 * those places; everything right of them moves on and nothing changes order.
 */
function widen(placed: PlacedGraph): PlacedGraph {
  const extra = new Map<number, number>()
  for (const { points, rows } of placed.trunks)
    for (let i = 0; i + 1 < points.length; i++) {
      const x = points[i]?.[0] ?? 0
      if (Math.abs(x - (points[i + 1]?.[0] ?? 0)) > 0.01) continue
      const key = Math.round(x * 100) / 100
      extra.set(key, Math.max(extra.get(key) ?? 0, (rows.rows.length - 1) * TRUNK_SLOT))
    }
  const steps = [...extra].sort((a, b) => a[0] - b[0])
  const shift = (x: number) => {
    let by = 0
    for (const [at, width] of steps) {
      if (x > at + 0.02) by += width
      else if (x > at - 0.02) by += width / 2
      else break
    }
    return x + by
  }
  const moved = (points: readonly Point[]) => points.map(([x, y]): Point => [shift(x), y])
  return {
    width: shift(placed.width),
    height: placed.height,
    nodes: placed.nodes.map((node) => {
      const x = shift(node.x)
      const portAt = new Map(
        [...node.portAt].map(([id, [px, py]]): [string, Point] => [id, [px + x - node.x, py]]),
      )
      return { ...node, x, portAt }
    }),
    wires: placed.wires.map((wire) => ({
      ...wire,
      points: moved(wire.points),
      ...(wire.label ? { label: { ...wire.label, x: shift(wire.label.x) } } : {}),
    })),
    trunks: placed.trunks.map((trunk) => ({
      ...trunk,
      points: moved(trunk.points),
      label: { ...trunk.label, x: shift(trunk.label.x) },
    })),
  }
}
