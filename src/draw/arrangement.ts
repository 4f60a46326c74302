import type { ColumnStyle, Columns } from './columns.ts'
import type { Graph, GraphNode } from './graph.ts'
import type { PlacedGraph } from './layout.ts'
import type { SheetModel } from './sheet-model.ts'

/** How one sheet is arranged, apart from coordinates: what a reader remembers of it. Plain data, to be stored as JSON. */
export interface ArrangedSheet {
  readonly style: ColumnStyle
  /** Ids of the conductors on it. */
  readonly conductors: readonly string[]
  /** Column of each block, from the left. */
  readonly columns: Readonly<Record<string, number>>
  /** What stands on it, from top to bottom. */
  readonly order: readonly string[]
}

/** The sheets of a drawing as they were arranged before. */
export type Arrangement = readonly ArrangedSheet[]

/** Names of what is placed that stay the same when other things come or go. */
function namesIn(graph: Graph): Map<GraphNode, string> {
  const trunks = new Map(graph.trunks.map(({ id, trunk }) => [id, trunk.id]))
  const turns = new Map(graph.wires.map(({ run }) => [`turn ${run.key}`, run.id]))
  return new Map(
    graph.nodes.map((node) => {
      if (node.block) return [node, `block ${node.block.id}`]
      const [, trunk = '', end = ''] = /^comb (.*):(.)$/.exec(node.id) ?? []
      return [
        node,
        trunk === '' ? `turn ${turns.get(node.id) ?? node.id}` : `comb ${trunks.get(trunk) ?? trunk} ${end}`,
      ]
    }),
  )
}

export function arrangementOf(
  model: SheetModel,
  style: ColumnStyle,
  columns: Columns,
  placed: PlacedGraph,
): ArrangedSheet {
  const names = namesIn(placed)
  const middle = ({ y, shape }: PlacedGraph['nodes'][number]) => y + shape.height / 2
  const order = [...placed.nodes].sort((a, b) => middle(a) - middle(b) || a.x - b.x)
  return {
    style,
    conductors: model.conductors.map(({ id }) => id),
    columns: Object.fromEntries(model.blocks.map(({ id }) => [id, columns.columnOf(id)])),
    order: order.map((node) => names.get(node) ?? ''),
  }
}

/** Blocks wish for the column they had. */
export function withColumns(model: SheetModel, kept: ArrangedSheet): SheetModel {
  const blocks = model.blocks.map((block) => {
    const column = Object.hasOwn(kept.columns, block.id) ? kept.columns[block.id] : undefined
    return column === undefined ? block : { ...block, column }
  })
  return { ...model, blocks }
}

/** Nodes in the order they stood in; a new one beside the first it is joined to. */
export function inKeptOrder(graph: Graph, kept: ArrangedSheet): Graph {
  const place = new Map(kept.order.map((name, i) => [name, i]))
  const names = namesIn(graph)
  const nodeAt = new Map(
    graph.nodes.flatMap((node) => node.shape.ports.map((port) => [port.id, node] as const)),
  )
  const known = (node: GraphNode | undefined) => (node ? place.get(names.get(node) ?? '') : undefined)
  const rank = new Map(graph.nodes.map((node) => [node, known(node)]))
  for (const { source, target } of [...graph.wires, ...graph.trunks]) {
    const [a, b] = [nodeAt.get(source), nodeAt.get(target)]
    for (const [one, other] of [
      [a, b],
      [b, a],
    ])
      if (one && rank.get(one) === undefined && known(other) !== undefined)
        rank.set(one, (known(other) ?? 0) + 0.5)
  }
  const nodes = [...graph.nodes].sort((a, b) => (rank.get(a) ?? place.size) - (rank.get(b) ?? place.size))
  return { ...graph, nodes }
}

/** Conductors by sheet as they were: a new one comes where most of its blocks are, a cable stays in one piece. */
export function keptGroups(model: SheetModel, kept: Arrangement): number[][] {
  const sheetOf = new Map(kept.flatMap(({ conductors }, s) => conductors.map((id) => [id, s] as const)))
  for (const { conductors } of model.trunks) {
    const home = conductors.map((id) => sheetOf.get(id)).find((sheet) => sheet !== undefined)
    if (home !== undefined) for (const id of conductors) sheetOf.set(id, home)
  }
  const blocksOn = kept.map(({ columns }) => new Set(Object.keys(columns)))
  const bestFor = (blocks: readonly string[]) => {
    const score = (s: number) => blocks.filter((block) => blocksOn[s]?.has(block)).length
    return kept.reduce((best, _, s) => (score(s) > score(best) ? s : best), 0)
  }
  const groups: number[][] = kept.map(() => [])
  model.conductors.forEach(({ id, from, to }, i) => {
    const sheet = sheetOf.get(id) ?? bestFor([from, to].flatMap((end) => (end ? [end.block] : [])))
    groups[sheet]?.push(i)
  })
  return groups.filter((group) => group.length > 0)
}

/** The sheet of before that has most of these conductors; undefined where it has none. */
export function keptSheet(model: SheetModel, kept: Arrangement): ArrangedSheet | undefined {
  const here = new Set(model.conductors.map(({ id }) => id))
  let best: ArrangedSheet | undefined
  let most = 0
  for (const sheet of kept) {
    const count = sheet.conductors.filter((id) => here.has(id)).length
    if (count > most) [best, most] = [sheet, count]
  }
  return best
}
