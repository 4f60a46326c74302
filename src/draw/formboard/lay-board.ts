import type { Branch } from '../../describe/harness.ts'
import type { Point } from '../scene.ts'
import { clearanceTo, type Stretch, stretchIndex } from './clearance.ts'

export interface LaidBranch {
  readonly branch: Branch
  /** In mm on the board, y downwards; as far apart as the branch is long. */
  readonly a: Point
  readonly b: Point
  /** Part of the longest path. */
  readonly trunk: boolean
  /** Nothing goes on at its end `b` (or `a`): a tail. */
  readonly tail?: 'a' | 'b'
}

export interface BoardLayout {
  readonly places: ReadonlyMap<string, Point>
  readonly branches: readonly LaidBranch[]
  /** Places along the longest path, from the datum on. */
  readonly longest: readonly string[]
  readonly longestMm: number
  readonly totalMm: number
  /** Direction in which a tail leaves the board, in radians, y downwards. */
  readonly outward: ReadonlyMap<string, number>
}

interface Step {
  readonly to: string
  readonly branch: Branch
}

/** Room a tail's connector takes beyond its end, in mm. */
const BODY_MM = 70
/** Distance at which branches stop being in each other's way, in mm. */
const CLEAR_MM = 60
const STEP = 15
const GAP_MM = 200

const radians = (degrees: number): number => (degrees * Math.PI) / 180

function stepsOf(branches: readonly Branch[]): Map<string, Step[]> {
  const steps = new Map<string, Step[]>()
  const add = (at: string, step: Step) => steps.set(at, [...(steps.get(at) ?? []), step])
  for (const branch of branches) {
    add(branch.from, { to: branch.to, branch })
    add(branch.to, { to: branch.from, branch })
  }
  return steps
}

interface Reach {
  readonly far: string
  readonly mm: ReadonlyMap<string, number>
  readonly back: ReadonlyMap<string, string>
}

function reachFrom(start: string, steps: ReadonlyMap<string, readonly Step[]>): Reach {
  const mm = new Map([[start, 0]])
  const back = new Map<string, string>()
  let far = start
  for (const [place, along] of mm) {
    if (along > (mm.get(far) ?? 0)) far = place
    for (const { to, branch } of steps.get(place) ?? [])
      if (!mm.has(to)) {
        mm.set(to, along + branch.length)
        back.set(to, place)
      }
  }
  return { far, mm, back }
}

function longestPath(start: string, steps: ReadonlyMap<string, readonly Step[]>): string[] {
  const { far } = reachFrom(start, steps)
  const { far: end, back } = reachFrom(far, steps)
  const path: string[] = []
  for (let place: string | undefined = end; place !== undefined; place = back.get(place)) path.unshift(place)
  return path
}

/** How much loom hangs on each place, seen from the trunk. */
function weights(trunk: readonly string[], steps: ReadonlyMap<string, readonly Step[]>): Map<string, number> {
  const parent = new Map<string, string | undefined>(trunk.map((place) => [place, undefined]))
  for (const [place] of parent)
    for (const { to } of steps.get(place) ?? []) if (!parent.has(to)) parent.set(to, place)
  const weight = new Map<string, number>()
  for (const place of [...parent.keys()].reverse()) {
    const up = parent.get(place)
    const lengthUp = steps.get(place)?.find(({ to }) => to === up)?.branch.length ?? 0
    const own = (weight.get(place) ?? 0) + lengthUp
    weight.set(place, own)
    if (up !== undefined) weight.set(up, (weight.get(up) ?? 0) + own)
  }
  return weight
}

/** Direction of a step on the board where the description fixes it. */
function fixedAngle({ to, branch }: Step): number | undefined {
  if (branch.angle === undefined) return undefined
  return (to === branch.to ? 0 : 180) - branch.angle
}

const deviation = (a: number, b: number): number => Math.abs(((((a - b + 540) % 360) + 360) % 360) - 180)

interface Laying {
  readonly steps: ReadonlyMap<string, readonly Step[]>
  readonly places: Map<string, Point>
  readonly index: ReturnType<typeof stretchIndex>
  readonly angles: Map<string, number>
}

function endOf([x, y]: Point, angle: number, mm: number): Point {
  return [x + mm * Math.cos(radians(angle)), y + mm * Math.sin(radians(angle))]
}

function put({ places, index, angles, steps }: Laying, at: string, step: Step, angle: number): void {
  const start = places.get(at) ?? [0, 0]
  const end = endOf(start, angle, step.branch.length)
  places.set(step.to, end)
  angles.set(step.to, angle)
  const tail = (steps.get(step.to)?.length ?? 0) === 1
  index.add({
    from: at,
    to: step.to,
    a: start,
    b: tail ? endOf(start, angle, step.branch.length + BODY_MM) : end,
  })
}

/** The direction with most room; of those with room enough, the one nearest to what is wished for. */
function bestAngle(laying: Laying, at: string, step: Step, wished: number): number {
  const fixed = fixedAngle(step)
  if (fixed !== undefined) return fixed
  const start = laying.places.get(at) ?? [0, 0]
  let best = { cost: Number.POSITIVE_INFINITY, angle: wished }
  for (let k = 0; k < 360 / STEP; k += 1) {
    const angle = k * STEP
    const stretch: Stretch = {
      from: at,
      to: step.to,
      a: start,
      b: endOf(start, angle, step.branch.length + BODY_MM),
    }
    const clear = clearanceTo(laying.index.near(stretch), stretch, CLEAR_MM * 2)
    const cost =
      -(Math.min(clear, CLEAR_MM) / CLEAR_MM) * 1000 +
      deviation(angle, wished) +
      (angle % 45 === 0 ? 0 : 8) +
      (clear < CLEAR_MM * 2 ? 20 : 0)
    if (cost < best.cost) best = { cost, angle }
  }
  return best.angle
}

function layTree(trunk: readonly string[], laying: Laying): void {
  const { steps, places, angles } = laying
  for (const [i, place] of trunk.entries()) {
    const next = trunk[i + 1]
    const step = steps.get(place)?.find(({ to }) => to === next)
    if (step) put(laying, place, step, fixedAngle(step) ?? 0)
  }
  const weight = weights(trunk, steps)
  const onTrunk = new Set(trunk)
  const queue = [...trunk]
  let side = -90
  for (const place of queue) {
    const free = (steps.get(place) ?? []).filter(({ to }) => !places.has(to))
    free.sort(
      (a, b) =>
        (fixedAngle(a) === undefined ? 1 : 0) - (fixedAngle(b) === undefined ? 1 : 0) ||
        (weight.get(b.to) ?? 0) - (weight.get(a.to) ?? 0),
    )
    for (const step of free) {
      const wished = onTrunk.has(place) ? side : (angles.get(place) ?? 0)
      if (onTrunk.has(place)) side = -side
      put(laying, place, step, bestAngle(laying, place, step, wished))
      queue.push(step.to)
    }
  }
}

function lowest(points: Iterable<Point>): number {
  let low = Number.NEGATIVE_INFINITY
  for (const [, y] of points) low = Math.max(low, y)
  return low
}

function highest(points: Iterable<Point>): number {
  let high = Number.POSITIVE_INFINITY
  for (const [, y] of points) high = Math.min(high, y)
  return high
}

/**
 * Lays a tree of branches out with true lengths: the longest path straight, the rest by size to both sides at the angle with most
 * room. An angle in the description is kept. A loom in several parts is laid part below part.
 */
export function layBoard(branches: readonly Branch[]): BoardLayout {
  const steps = stepsOf(branches)
  const places = new Map<string, Point>()
  const outward = new Map<string, number>()
  const trunkKeys = new Set<string>()
  let longest: readonly string[] = []
  let longestMm = 0
  let foot = 0
  for (const start of steps.keys()) {
    if (places.has(start)) continue
    const trunk = longestPath(start, steps)
    const part = new Map<string, Point>([[trunk[0] ?? start, [0, 0]]])
    const laying = {
      steps,
      places: part,
      index: stretchIndex(CLEAR_MM * 2),
      angles: new Map<string, number>(),
    }
    layTree(trunk, laying)
    const down = places.size === 0 ? 0 : foot + GAP_MM - highest(part.values())
    for (const [id, [x, y]] of part) places.set(id, [x, y + down])
    foot = lowest(places.values())
    for (const [id, angle] of laying.angles) outward.set(id, radians(angle))
    const first = steps.get(trunk[0] ?? start)?.find(({ to }) => to === trunk[1])
    outward.set(trunk[0] ?? start, radians((first ? (fixedAngle(first) ?? 0) : 0) + 180))
    for (const [i, place] of trunk.entries()) trunkKeys.add(`${place}\n${trunk[i + 1]}`)
    const mm = reachFrom(trunk[0] ?? start, steps).mm.get(trunk.at(-1) ?? start) ?? 0
    if (mm > longestMm) {
      longest = trunk
      longestMm = mm
    }
  }
  const degree = (id: string) => steps.get(id)?.length ?? 0
  return {
    places,
    branches: branches.map((branch) => ({
      branch,
      a: places.get(branch.from) ?? [0, 0],
      b: places.get(branch.to) ?? [0, 0],
      trunk: trunkKeys.has(`${branch.from}\n${branch.to}`) || trunkKeys.has(`${branch.to}\n${branch.from}`),
      ...(degree(branch.to) === 1
        ? { tail: 'b' as const }
        : degree(branch.from) === 1
          ? { tail: 'a' as const }
          : {}),
    })),
    longest,
    longestMm,
    totalMm: branches.reduce((sum, { length }) => sum + length, 0),
    outward,
  }
}
