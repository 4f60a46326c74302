import { FLAG_ROOM, flagMarks } from './flag-mark.ts'
import { TEXT, type TextSize } from './metrics.ts'
import { type Box, type Item, line, type Point, text } from './scene.ts'
import type { Flag } from './sheet-model.ts'
import { textWidth } from './text-width.ts'

export interface LabelLine {
  readonly text: string
  readonly bold?: boolean
  readonly size?: TextSize
  /** Marks instead of words. */
  readonly flags?: readonly Flag[]
}

export interface LabelWish {
  readonly lines: readonly LabelLine[]
  /** What the label belongs to. */
  readonly at: Point
  /** Distance from there to the nearest edge of the text. */
  readonly gap: number
  /** Direction to try first, in radians, y downwards. */
  readonly toward: number
  /** Directions not to try at all, further than this from `toward`; all when left out. */
  readonly within?: number
}

interface Obstacle {
  readonly box: Box
  /** Set for a line; a box otherwise. */
  readonly ends?: readonly [Point, Point]
}

const FIELD = 160
const RINGS = [0, 6, 14, 26, 42, 62, 86, 114, 146, 182, 222, 266, 320, 380, 450, 530]
const DIRECTIONS = 24
const AIR = 4
/** A label further off than this is tied to its place with a thin line. */
const LEADER_FROM = 12

/** A leader this short can be followed even across other lines. */
const SHORT_LEADER = 120
/** Near its place a leader may run over the lines that meet there. */
const CROWD = 18

const side = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

const linesCross = ([a, b]: readonly [Point, Point], [c, d]: readonly [Point, Point]): boolean =>
  side(a, b, c) * side(a, b, d) <= 0 && side(c, d, a) * side(c, d, b) <= 0

const grown = ({ x, y, w, h }: Box, by: number): Box => ({
  x: x - by,
  y: y - by,
  w: w + 2 * by,
  h: h + 2 * by,
})

const overlap = (a: Box, b: Box): boolean =>
  a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h

/** Does a line pass through a box? (Liang–Barsky clipping) */
export function lineMeetsBox([a, b]: readonly [Point, Point], box: Box): boolean {
  let from = 0
  let to = 1
  const low = [box.x, box.y] as const
  const high = [box.x + box.w, box.y + box.h] as const
  for (const axis of [0, 1] as const) {
    const d = b[axis] - a[axis]
    if (Math.abs(d) < 1e-9) {
      if (a[axis] < low[axis] || a[axis] > high[axis]) return false
      continue
    }
    const one = (low[axis] - a[axis]) / d
    const two = (high[axis] - a[axis]) / d
    from = Math.max(from, Math.min(one, two))
    to = Math.min(to, Math.max(one, two))
  }
  return from <= to
}

const hullOf = (a: Point, b: Point): Box => ({
  x: Math.min(a[0], b[0]),
  y: Math.min(a[1], b[1]),
  w: Math.abs(a[0] - b[0]),
  h: Math.abs(a[1] - b[1]),
})

const lineHeight = (one: LabelLine): number => (one.flags ? FLAG_ROOM : TEXT[one.size ?? 'label'] * 1.12)

const lineWidth = (one: LabelLine): number =>
  one.flags
    ? one.flags.length * FLAG_ROOM
    : textWidth(one.text, TEXT[one.size ?? 'label'], one.bold ? 'bold' : 'regular')

function sizeOf(lines: readonly LabelLine[]): { w: number; h: number } {
  return {
    w: Math.max(...lines.map(lineWidth)),
    h: lines.reduce((sum, one) => sum + lineHeight(one), 0),
  }
}

function linesAt(lines: readonly LabelLine[], box: Box): Item[] {
  let y = box.y
  return lines.flatMap((one) => {
    y += lineHeight(one)
    if (one.flags)
      return flagMarks(one.flags, box.x + (box.w - lineWidth(one) + FLAG_ROOM) / 2, y - FLAG_ROOM / 2)
    return text(box.x + box.w / 2, y - lineHeight(one) * 0.24, one.text, {
      size: one.size ?? 'label',
      anchor: 'middle',
      ...(one.bold ? { bold: true } : {}),
    })
  })
}

/** Puts labels where nothing else is. What was put first stays; deterministic. */
export class LabelRoom {
  readonly #fields = new Map<string, Obstacle[]>()

  #keys({ x, y, w, h }: Box): string[] {
    const keys: string[] = []
    for (let i = Math.floor(x / FIELD); i <= Math.floor((x + w) / FIELD); i += 1)
      for (let j = Math.floor(y / FIELD); j <= Math.floor((y + h) / FIELD); j += 1) keys.push(`${i},${j}`)
    return keys
  }

  #enter(obstacle: Obstacle): void {
    for (const key of this.#keys(obstacle.box)) {
      const here = this.#fields.get(key) ?? []
      here.push(obstacle)
      this.#fields.set(key, here)
    }
  }

  addBox(box: Box): void {
    this.#enter({ box })
  }

  /** A line is entered in pieces, so that a slanted one does not take up the whole of its hull. */
  addLine(a: Point, b: Point): void {
    const pieces = Math.max(1, Math.ceil(Math.hypot(a[0] - b[0], a[1] - b[1]) / FIELD))
    const at = (t: number): Point => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
    for (let i = 0; i < pieces; i += 1) {
      const ends = [at(i / pieces), at((i + 1) / pieces)] as const
      this.#enter({ box: hullOf(...ends), ends })
    }
  }

  isFree(box: Box): boolean {
    for (const key of this.#keys(box))
      for (const other of this.#fields.get(key) ?? [])
        if (other.ends ? lineMeetsBox(other.ends, box) : overlap(other.box, box)) return false
    return true
  }

  /** Would a line from a place to its label run over another label, or further out over anything else? */
  #leaderFree(at: Point, from: Point, to: Point, overLines: boolean): boolean {
    for (const key of this.#keys(hullOf(at, to)))
      for (const other of this.#fields.get(key) ?? [])
        if (other.ends ? !overLines && linesCross(other.ends, [from, to]) : lineMeetsBox([at, to], other.box))
          return false
    return true
  }

  /** The label in the nearest free spot, with a line to its place where it had to go far; undefined where there is none. */
  place(wish: LabelWish): Item[] | undefined {
    return this.#place(wish, false) ?? this.#place(wish, true)
  }

  #place(wish: LabelWish, overLines: boolean): Item[] | undefined {
    const { lines, at, gap, toward, within = Math.PI } = wish
    const { w, h } = sizeOf(lines)
    const turns = Array.from({ length: DIRECTIONS }, (_, i) => {
      const step = (Math.ceil(i / 2) * 2 * Math.PI) / DIRECTIONS
      return i % 2 === 0 ? step : -step
    }).filter((turn) => Math.abs(turn) <= within + 1e-9)
    for (const ring of overLines ? RINGS.filter((far) => far <= SHORT_LEADER) : RINGS)
      for (const turn of turns) {
        const [dx, dy] = [Math.cos(toward + turn), Math.sin(toward + turn)]
        const reach = gap + ring + Math.min(w / 2 / (Math.abs(dx) || 1e-9), h / 2 / (Math.abs(dy) || 1e-9))
        const box: Box = { x: at[0] + dx * reach - w / 2, y: at[1] + dy * reach - h / 2, w, h }
        const onRay = (far: number): Point => [at[0] + dx * far, at[1] + dy * far]
        const foot = onRay(gap + ring - 1)
        if (!this.isFree(grown(box, AIR))) continue
        const far = ring > LEADER_FROM
        if (far && !this.#leaderFree(at, onRay(gap + CROWD), foot, overLines)) continue
        this.addBox(box)
        if (far) this.addLine(at, foot)
        // White behind the words keeps them readable over a grid that is drawn before.
        const ground: Item = { kind: 'rect', className: 'lw-blank', ...grown(box, 1) }
        return [...(far ? [line('lw-rule', at, foot)] : []), ground, ...linesAt(lines, box)]
      }
    return undefined
  }
}
