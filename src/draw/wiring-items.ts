import { drawLabel } from './conductor-label.ts'
import { LABEL_HEIGHT, type PlacedGraph, type PlacedNode, type PlacedWire } from './layout.ts'
import type { Item } from './scene.ts'
import type { FindElsewhere } from './shape.ts'
import { drawTrunk, type Layers } from './trunk-items.ts'

function drawWire(wire: PlacedWire, layers: Layers) {
  const { run, label } = wire
  const { conductor } = run
  const data = { id: run.id, net: conductor?.net }
  const shield = conductor === undefined
  layers.wires.push({
    kind: 'group',
    className: 'lw-cond',
    data,
    title: conductor?.title ?? run.label,
    items: [
      {
        kind: 'wire',
        points: wire.points,
        ...(conductor?.colour === undefined ? {} : { colour: conductor.colour }),
        ...(shield ? { shield } : {}),
      },
    ],
  })
  if (!label || !conductor) return
  const items = drawLabel(conductor, label.x + 4, label.y + LABEL_HEIGHT - 4)
  layers.over.push({ kind: 'group', className: 'lw-label', data, items })
}

function drawNode(node: PlacedNode, find: FindElsewhere): Item {
  const items = node.shape.draw([node.x, node.y], find)
  return { kind: 'group', className: 'lw-block', data: { block: node.block?.id }, items }
}

/** Everything on a sheet inside its frame, in the order it is painted. */
export function wiringItems(placed: PlacedGraph, find: FindElsewhere): Item[] {
  const layers: Layers = { under: [], wires: [], over: [] }
  for (const trunk of placed.trunks) drawTrunk(trunk, layers)
  for (const wire of placed.wires) drawWire(wire, layers)
  const blocks = placed.nodes.map((node) => drawNode(node, find))
  return [...layers.under, ...layers.wires, ...blocks, ...layers.over]
}
