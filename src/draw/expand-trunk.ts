import { PITCH, TRUNK_SLOT } from './metrics.ts'
import type { Point } from './scene.ts'

/**
 * The parallel lines of the conductors of a trunk, from its middle line: lanes a row pitch apart where it runs across the
 * page, closer where it runs up or down. Lines keep their order and never touch.
 */
export function expandTrunk(middle: readonly Point[], lanes: number): Point[][] {
  const runs = middle.slice(0, -1).map(([x, y], j) => {
    const [nx, ny] = middle[j + 1] ?? [x, y]
    return Math.abs(nx - x) >= Math.abs(ny - y)
      ? { across: true, at: y, sign: nx >= x ? 1 : -1 }
      : { across: false, at: x, sign: ny >= y ? -1 : 1 }
  })
  const start = middle[0]
  const end = middle.at(-1)
  if (!start || !end || runs.length === 0) return []
  return Array.from({ length: lanes }, (_, lane) => {
    const k = lane - (lanes - 1) / 2
    const offset = runs.map(({ across, at, sign }) => at + sign * k * (across ? PITCH : TRUNK_SLOT))
    const points: Point[] = [[start[0], offset[0] ?? start[1]]]
    for (let j = 1; j < runs.length; j++) {
      const a = offset[j - 1] ?? 0
      const b = offset[j] ?? 0
      points.push(runs[j - 1]?.across ? [b, a] : [a, b])
    }
    points.push([end[0], offset.at(-1) ?? end[1]])
    return points
  })
}

/** Cuts a line at two heights of x along its level piece through `y`: what lies before, and what lies after. */
export function cutAlong(
  points: readonly Point[],
  y: number,
  x0: number,
  x1: number,
): { before: Point[]; after: Point[]; forward: boolean } | undefined {
  for (let j = 0; j + 1 < points.length; j++) {
    const [ax, ay] = points[j] ?? [0, 0]
    const [bx, by] = points[j + 1] ?? [0, 0]
    if (Math.abs(ay - y) > 0.6 || Math.abs(by - y) > 0.6) continue
    if (Math.min(ax, bx) > x0 + 1 || Math.max(ax, bx) < x1 - 1) continue
    const forward = bx >= ax
    const [enter, leave] = forward ? [x0, x1] : [x1, x0]
    return {
      before: [...points.slice(0, j + 1), [enter, ay]],
      after: [[leave, by], ...points.slice(j + 1)],
      forward,
    }
  }
  return undefined
}
