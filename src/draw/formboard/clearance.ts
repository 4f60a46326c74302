import type { Point } from '../scene.ts'

/** A straight piece of loom between two places. */
export interface Stretch {
  readonly from: string
  readonly to: string
  readonly a: Point
  readonly b: Point
}

/** Angle in radians under which two stretches from one place are as good as on top of each other. */
const NARROW = 0.5

const distance = (p: Point, q: Point): number => Math.hypot(p[0] - q[0], p[1] - q[1])

const turn = (p: Point, q: Point, r: Point): number =>
  (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

export const cross = (a: Point, b: Point, c: Point, d: Point): boolean =>
  turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0

function pointToLine(p: Point, a: Point, b: Point): number {
  const square = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2 || 1
  const share = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / square
  const t = Math.max(0, Math.min(1, share))
  return distance(p, [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])])
}

function apart({ a, b }: Stretch, { a: c, b: d }: Stretch): number {
  if (cross(a, b, c, d)) return 0
  return Math.min(pointToLine(a, c, d), pointToLine(b, c, d), pointToLine(c, a, b), pointToLine(d, a, b))
}

/** Angle between two stretches seen from the place they share. */
function between(place: string, one: Stretch, two: Stretch): number {
  const ends = ({ from, a, b }: Stretch): readonly [Point, Point] => (from === place ? [a, b] : [b, a])
  const [p, q] = ends(one)
  const [, r] = ends(two)
  return Math.abs(Math.atan2(turn(p, q, r), (q[0] - p[0]) * (r[0] - p[0]) + (q[1] - p[1]) * (r[1] - p[1])))
}

/** How far a stretch stays from others, at most `limit`; stretches it meets at its start count by the angle between them. */
export function clearanceTo(others: Iterable<Stretch>, stretch: Stretch, limit: number): number {
  let least = limit
  for (const other of others) {
    if (other.from === stretch.from || other.to === stretch.from) {
      const angle = between(stretch.from, stretch, other)
      if (angle < NARROW) least = Math.min(least, angle * 10)
    } else least = Math.min(least, apart(stretch, other))
  }
  return least
}

/** Most fields one stretch is entered in; longer ones make the fields coarser for themselves only. */
const MOST_FIELDS = 4000

/** Stretches by field of the board, so that a board of thousands is still laid at once. */
export function stretchIndex(fieldMm: number) {
  const fields = new Map<string, Stretch[]>()
  const fieldsOf = ({ a, b }: Stretch): [number, number][] => {
    const count = Math.min(MOST_FIELDS, Math.ceil(distance(a, b) / (fieldMm / 2)))
    return Array.from({ length: count + 1 }, (_, i): [number, number] => {
      const t = count === 0 ? 0 : i / count
      return [
        Math.floor((a[0] + (b[0] - a[0]) * t) / fieldMm),
        Math.floor((a[1] + (b[1] - a[1]) * t) / fieldMm),
      ]
    })
  }
  return {
    add(stretch: Stretch): void {
      for (const key of new Set(fieldsOf(stretch).map(String))) {
        const here = fields.get(key) ?? []
        here.push(stretch)
        fields.set(key, here)
      }
    },
    near(stretch: Stretch): Set<Stretch> {
      const found = new Set<Stretch>()
      const looked = new Set<string>()
      for (const [x, y] of fieldsOf(stretch))
        for (let dx = -1; dx <= 1; dx += 1)
          for (let dy = -1; dy <= 1; dy += 1) {
            const key = `${x + dx},${y + dy}`
            if (looked.has(key)) continue
            looked.add(key)
            for (const one of fields.get(key) ?? []) found.add(one)
          }
      return found
    },
  }
}
