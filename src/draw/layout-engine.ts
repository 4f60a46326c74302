import type { ElkExtendedEdge, ElkNode } from 'elkjs/lib/elk-api.js'

/**
 * Gives places to the nodes, ports, edges and labels of a graph. The same graph gives the same places everywhere.
 * Throws when the layout library fails.
 */
export type LayoutEngine = (root: ElkNode) => Promise<ElkNode>

/** The layered layout itself; the library is loaded when something is laid out. */
export const layOutAnew: LayoutEngine = async (root) => {
  const { default: Elk } = await import('elkjs/lib/elk.bundled.js')
  return placesOf(await new Elk().layout(root))
}

/** What is read from a layout and nothing else: the library leaves marks of its own in what it returns. */
function placesOf(node: ElkNode): ElkNode {
  const { id, x = 0, y = 0, width = 0, height = 0, ports, children, edges } = node
  return {
    id,
    x,
    y,
    width,
    height,
    ...(ports ? { ports: ports.map((port) => ({ id: port.id, x: port.x ?? 0, y: port.y ?? 0 })) } : {}),
    ...(children ? { children: children.map(placesOf) } : {}),
    ...(edges ? { edges: edges.map(wayOf) } : {}),
  }
}

const spot = ({ x, y }: { readonly x: number; readonly y: number }) => ({ x, y })

function wayOf({ id, sources, targets, sections, labels }: ElkExtendedEdge): ElkExtendedEdge {
  return {
    id,
    sources,
    targets,
    ...(sections
      ? {
          sections: sections.map((section) => ({
            id: section.id,
            startPoint: spot(section.startPoint),
            endPoint: spot(section.endPoint),
            ...(section.bendPoints ? { bendPoints: section.bendPoints.map(spot) } : {}),
          })),
        }
      : {}),
    ...(labels
      ? {
          labels: labels.map(({ x = 0, y = 0, width = 0, height = 0 }) => ({ x, y, width, height })),
        }
      : {}),
  }
}
