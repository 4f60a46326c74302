import type { ElkExtendedEdge, ElkNode } from 'elkjs/lib/elk-api.js'
import { FLAG_ROOM } from '../flag-mark.ts'
import { type LayoutEngine, layOutAnew } from '../layout-engine.ts'
import { TEXT } from '../metrics.ts'
import type { Box, Point } from '../scene.ts'
import { textWidth, wrapText } from '../text-width.ts'
import type { DiagramBlock, DiagramLine, DiagramModel, DiagramZone } from './diagram-model.ts'

export const BLOCK_WIDTH = 172
export const LINE_HEIGHT = 14
export const TITLE_HEIGHT = 18
export const SYMBOL_ROOM = 46
export const ZONE_HEAD = 36

export interface PlacedBlock extends Box {
  readonly block: DiagramBlock
  readonly title: readonly string[]
  readonly subtitle: readonly string[]
}

export interface PlacedLine {
  readonly line: DiagramLine
  readonly points: readonly Point[]
  readonly label: Box | undefined
}

export interface PlacedDiagram {
  readonly w: number
  readonly h: number
  readonly blocks: readonly PlacedBlock[]
  readonly zones: readonly (Box & { readonly zone: DiagramZone })[]
  readonly lines: readonly PlacedLine[]
}

function sized(block: DiagramBlock): Omit<PlacedBlock, 'x' | 'y'> {
  const room = BLOCK_WIDTH - 12 - (block.symbol ? SYMBOL_ROOM : 0)
  const title = wrapText(block.title, room, TEXT.label, 3, 'bold')
  const subtitle = block.subtitle === '' ? [] : wrapText(block.subtitle, room, TEXT.small, 3)
  const text =
    title.length * TITLE_HEIGHT + subtitle.length * LINE_HEIGHT + 10 + (block.flags ? FLAG_ROOM + 2 : 0)
  return { block, title, subtitle, w: BLOCK_WIDTH, h: Math.max(text, block.symbol ? 40 : 30) }
}

function elkLine(line: DiagramLine): ElkExtendedEdge {
  const width = Math.max(...line.words.map((words) => textWidth(words, TEXT.small, 'bold')), 1)
  return {
    id: line.id,
    sources: [line.from],
    targets: [line.to],
    labels: [
      {
        text: line.id,
        width: Math.ceil(Math.max(width, (line.flags?.length ?? 0) * FLAG_ROOM)) + 8,
        height: line.words.length * LINE_HEIGHT + 4 + (line.flags ? FLAG_ROOM : 0),
        layoutOptions: { 'elk.edgeLabels.placement': 'CENTER' },
      },
    ],
  }
}

const OPTIONS = {
  'elk.algorithm': 'layered',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.hierarchyHandling': 'INCLUDE_CHILDREN',
  // Zero would seed from the clock and give other bytes each time.
  'elk.randomSeed': '1',
  'elk.json.shapeCoords': 'ROOT',
  'elk.json.edgeCoords': 'ROOT',
  'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
  'elk.layered.crossingMinimization.greedySwitch.type': 'TWO_SIDED',
  'elk.layered.thoroughness': '20',
  'elk.spacing.nodeNode': '26',
  'elk.spacing.edgeEdge': '14',
  'elk.spacing.edgeNode': '16',
  'elk.spacing.edgeLabel': '3',
  'elk.spacing.labelLabel': '6',
  'elk.spacing.labelNode': '8',
  'elk.layered.spacing.nodeNodeBetweenLayers': '30',
  'elk.layered.spacing.edgeNodeBetweenLayers': '18',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '14',
  'elk.edgeLabels.placement': 'CENTER',
  'elk.layered.edgeLabels.sideSelection': 'ALWAYS_UP',
} as const

const zoneId = (zone: string): string => `zone ${zone}`

/**
 * Places blocks in their zones and lines between them. Deterministic.
 * @throws Error when the layout library fails.
 */
export async function placeDiagram(
  model: DiagramModel,
  direction: 'RIGHT' | 'DOWN',
  engine: LayoutEngine = layOutAnew,
): Promise<PlacedDiagram> {
  const blocks = new Map(model.blocks.map((block) => [block.id, sized(block)]))
  const node = ({ block, w, h }: Omit<PlacedBlock, 'x' | 'y'>): ElkNode => ({
    id: block.id,
    width: w,
    height: h,
  })
  const inZone = (zone: string | undefined) => [...blocks.values()].filter(({ block }) => block.zone === zone)
  const options = { ...OPTIONS, 'elk.direction': direction }
  const root: ElkNode = {
    id: 'root',
    layoutOptions: options,
    children: [
      ...model.zones.map(({ id }) => ({
        id: zoneId(id),
        layoutOptions: {
          ...options,
          'elk.padding': `[top=${ZONE_HEAD + 10},left=18,bottom=20,right=18]`,
        },
        children: inZone(id).map(node),
      })),
      ...inZone(undefined).map(node),
    ],
    edges: model.lines.map(elkLine),
  }
  const placed = await engine(root)
  const at = new Map<string, ElkNode>()
  for (const child of placed.children ?? []) {
    at.set(child.id, child)
    for (const inner of child.children ?? []) at.set(inner.id, inner)
  }
  const boxOf = (id: string): Box => {
    const { x = 0, y = 0, width = 0, height = 0 } = at.get(id) ?? {}
    return { x, y, w: width, h: height }
  }
  const edges = new Map((placed.edges ?? []).map((edge) => [edge.id, edge]))
  return {
    w: placed.width ?? 0,
    h: placed.height ?? 0,
    blocks: [...blocks.values()].map((one) => ({ ...one, ...boxOf(one.block.id) })),
    zones: model.zones.map((zone) => ({ ...boxOf(zoneId(zone.id)), zone })),
    lines: model.lines.map((line) => {
      const edge = edges.get(line.id)
      const section = edge?.sections?.[0]
      const label = edge?.labels?.[0]
      return {
        line,
        points: section
          ? [section.startPoint, ...(section.bendPoints ?? []), section.endPoint].map(
              (p): Point => [p.x, p.y],
            )
          : [],
        label: label
          ? { x: label.x ?? 0, y: label.y ?? 0, w: label.width ?? 0, h: label.height ?? 0 }
          : undefined,
      }
    }),
  }
}
