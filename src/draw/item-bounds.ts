import { type Box, type Item, type Point, textBox } from './scene.ts'

function aroundPoints(points: readonly Point[]): Box | undefined {
  if (points.length === 0) return undefined
  let [x0, y0] = points[0] as Point
  let [x1, y1] = [x0, y0]
  for (const [x, y] of points) {
    x0 = Math.min(x0, x)
    x1 = Math.max(x1, x)
    y0 = Math.min(y0, y)
    y1 = Math.max(y1, y)
  }
  return { x: x0, y: y0, w: x1 - x0, h: y1 - y0 }
}

const corners = ({ x, y, w, h }: Box): Point[] => [
  [x, y],
  [x + w, y + h],
]

/** The hull of everything drawn; undefined for nothing. Free outlines are not looked into and count for nothing. */
export function itemBounds(items: readonly Item[]): Box | undefined {
  const points: Point[] = []
  for (const item of items) {
    if (item.kind === 'text') points.push(...corners(textBox(item)))
    else if (item.kind === 'rect') points.push(...corners(item))
    else if (item.kind === 'line' || item.kind === 'wire') {
      const hull = aroundPoints(item.points)
      if (hull) points.push(...corners(hull))
    } else if (item.kind === 'group') {
      const hull = itemBounds(item.items)
      if (hull) points.push(...corners(hull))
    }
  }
  return aroundPoints(points)
}
