import { type Box, type Item, type Point, type TextItem, textBox } from '../../src/draw/scene.ts'

/** What the geometry of a drawing says about whether it can be read. Nothing here looks at pixels. */
export interface Inspection {
  readonly faults: readonly string[]
  readonly crossings: number
  readonly bends: number
  readonly texts: number
}

interface Segment {
  readonly owner: string
  readonly a: Point
  readonly b: Point
}

interface Flat {
  readonly texts: { readonly item: TextItem; readonly box: Box; readonly within?: Box }[]
  readonly wires: Segment[]
  readonly lines: Segment[]
  readonly solids: Box[]
  bends: number
}

const CROSSED = /lw-(symbol|bold|dash|shield|jacket|box|rule)/

function segments(owner: string, points: readonly Point[]): Segment[] {
  return points.slice(1).map((b, i) => ({ owner, a: points[i] ?? b, b }))
}

function outlineOf({ x, y, w, h }: Box): Point[] {
  return [
    [x, y],
    [x + w, y],
    [x + w, y + h],
    [x, y + h],
    [x, y],
  ]
}

/** The frame of a block, in which all its text has to stay; symbols have none. */
const frameIn = (items: readonly Item[]): Box | undefined =>
  items.find((item) => item.kind === 'rect' && item.solid === true) as Box | undefined

function flatten(items: readonly Item[], owner: string, flat: Flat, within?: Box): Flat {
  for (const item of items) {
    if (item.kind === 'group') {
      const frame = item.className === 'lw-block' ? frameIn(item.items) : within
      flatten(item.items, item.data?.['id'] ?? owner, flat, frame)
    } else if (item.kind === 'text') {
      if (item.text.trim() !== '')
        flat.texts.push({ item, box: textBox(item), ...(within ? { within } : {}) })
    } else if (item.kind === 'wire') {
      flat.wires.push(...segments(owner, item.points))
      flat.bends += Math.max(0, item.points.length - 2)
    } else if (item.kind === 'line') {
      if (CROSSED.test(item.className)) flat.lines.push(...segments(owner, item.points))
    } else if (item.kind === 'rect') {
      if (CROSSED.test(item.className)) flat.lines.push(...segments(owner, outlineOf(item)))
      if (item.solid) flat.solids.push(item)
    }
  }
  return flat
}

const flattened = (items: readonly Item[]): Flat =>
  flatten(items, '', { texts: [], wires: [], lines: [], solids: [], bends: 0 })

const overlaps = (a: Box, b: Box, slack: number) =>
  a.x + slack < b.x + b.w && b.x + slack < a.x + a.w && a.y + slack < b.y + b.h && b.y + slack < a.y + a.h

/** Half a unit, an eighth of a millimetre, is what rounding takes. */
const holds = (outer: Box, inner: Box): boolean =>
  inner.x > outer.x - 0.5 &&
  inner.y > outer.y - 0.5 &&
  inner.x + inner.w < outer.x + outer.w + 0.5 &&
  inner.y + inner.h < outer.y + outer.h + 0.5

/** Does a segment pass through the inside of a box? (Liang–Barsky clipping) */
function passes({ a, b }: Segment, box: Box, slack: number): boolean {
  let from = 0
  let to = 1
  const d = [b[0] - a[0], b[1] - a[1]] as const
  const low = [box.x + slack, box.y + slack] as const
  const high = [box.x + box.w - slack, box.y + box.h - slack] as const
  for (const axis of [0, 1] as const) {
    if (low[axis] >= high[axis]) return false
    if (Math.abs(d[axis]) < 1e-9) {
      if (a[axis] <= low[axis] || a[axis] >= high[axis]) return false
      continue
    }
    const one = (low[axis] - a[axis]) / d[axis]
    const two = (high[axis] - a[axis]) / d[axis]
    from = Math.max(from, Math.min(one, two))
    to = Math.min(to, Math.max(one, two))
  }
  return from < to - 1e-9
}

/** Length on which two level or two upright segments lie on each other. */
function shared(one: Segment, two: Segment): number {
  for (const [along, cross] of [
    [0, 1],
    [1, 0],
  ] as const) {
    const flatOne = Math.abs(one.a[cross] - one.b[cross]) < 0.01
    const flatTwo = Math.abs(two.a[cross] - two.b[cross]) < 0.01
    if (!flatOne || !flatTwo || Math.abs(one.a[cross] - two.a[cross]) > 3.9) continue
    const low = Math.max(Math.min(one.a[along], one.b[along]), Math.min(two.a[along], two.b[along]))
    const high = Math.min(Math.max(one.a[along], one.b[along]), Math.max(two.a[along], two.b[along]))
    return high - low
  }
  return 0
}

function crosses(one: Segment, two: Segment): boolean {
  const side = (p: Point, q: Point, r: Point) => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])
  return (
    side(one.a, one.b, two.a) * side(one.a, one.b, two.b) < -1e-6 &&
    side(two.a, two.b, one.a) * side(two.a, two.b, one.b) < -1e-6
  )
}

const show = ([x, y]: Point) => `${Math.round(x)},${Math.round(y)}`

/** Looks over everything drawn on a sheet. `bounds` is the paper or drawing it has to stay on. */
export function inspect(
  items: readonly Item[],
  bounds: { readonly w: number; readonly h: number },
): Inspection {
  const flat = flattened(items)
  const faults: string[] = []
  for (const [i, { item, box, within }] of flat.texts.entries()) {
    if (within && !holds(within, box))
      faults.push(`text "${item.text}" leaves its block at ${show([box.x, box.y])}`)
    for (const other of flat.texts.slice(i + 1))
      if (overlaps(box, other.box, 0.6)) faults.push(`text "${item.text}" lies on text "${other.item.text}"`)
    for (const wire of flat.wires)
      if (passes(wire, box, 1.2)) faults.push(`conductor ${wire.owner} runs through text "${item.text}"`)
    for (const line of flat.lines)
      if (passes(line, box, 1.2)) faults.push(`a line at ${show(line.a)} runs through text "${item.text}"`)
    if (box.x < -1 || box.y < -1 || box.x + box.w > bounds.w + 1 || box.y + box.h > bounds.h + 1)
      faults.push(`text "${item.text}" leaves the sheet at ${show([box.x, box.y])}`)
  }
  let crossings = 0
  for (const [i, wire] of flat.wires.entries()) {
    for (const solid of flat.solids)
      if (passes(wire, solid, 1.5))
        faults.push(`conductor ${wire.owner} runs through the block at ${show([solid.x, solid.y])}`)
    for (const solid of flat.solids)
      for (const edge of segments('', outlineOf(solid)))
        if (shared(wire, edge) > 2)
          faults.push(`conductor ${wire.owner} runs along a block at ${show(wire.a)}`)
    for (const other of flat.wires.slice(i + 1)) {
      if (other.owner === wire.owner) continue
      if (shared(wire, other) > 2)
        faults.push(`conductors ${wire.owner} and ${other.owner} lie on each other at ${show(wire.a)}`)
      if (crosses(wire, other)) crossings += 1
    }
  }
  return { faults, crossings, bends: flat.bends, texts: flat.texts.length }
}

/** Legs of a pair are this far apart: a pitch of pins. */
const PAIR_PITCH = 20.5

/** The two halves of a twisted leg, left and right of its twist, as drawn within its cable. */
function twistedLegs(items: readonly Item[], id: string): (readonly Point[])[] {
  return items.flatMap((item) => {
    if (item.kind !== 'group') return []
    if (item.className !== 'lw-cond' || item.data?.['id'] !== id) return twistedLegs(item.items, id)
    const wires = item.items.filter((one) => one.kind === 'wire')
    if (!wires.some(({ path }) => path !== undefined)) return []
    return wires.filter(({ points }) => points.length > 1).map(({ points }) => points)
  })
}

/** Both level or both upright, beside each other on all of the shorter one but a corner. */
function runsBeside(one: Segment, two: Segment): boolean {
  return ([0, 1] as const).some((along) => {
    const cross = along === 0 ? 1 : 0
    const straight = (s: Segment) => Math.abs(s.a[cross] - s.b[cross]) < 0.01
    if (!straight(one) || !straight(two)) return false
    return Math.abs(one.a[cross] - two.a[cross]) <= PAIR_PITCH
  })
}

/** A conductor that runs between two others which are side by side. */
function between(one: Segment, two: Segment, wire: Segment): boolean {
  return ([0, 1] as const).some((along) => {
    const cross = along === 0 ? 1 : 0
    if ([one, two, wire].some((s) => Math.abs(s.a[cross] - s.b[cross]) > 0.01)) return false
    const at = wire.a[cross]
    if (at <= Math.min(one.a[cross], two.a[cross]) + 0.5 || at >= Math.max(one.a[cross], two.a[cross]) - 0.5)
      return false
    const from = Math.max(...[one, two, wire].map((s) => Math.min(s.a[along], s.b[along])))
    const to = Math.min(...[one, two, wire].map((s) => Math.max(s.a[along], s.b[along])))
    return to - from > 1
  })
}

/** Pairs whose legs do not stay side by side on the whole length of their cable, with nothing between them. */
export function partedPairs(items: readonly Item[], pairs: readonly (readonly [string, string])[]): string[] {
  const { wires } = flattened(items)
  return pairs.flatMap(([a, b]) => {
    const [one, two] = [twistedLegs(items, a), twistedLegs(items, b)]
    // Drawn on another sheet.
    if (one.length === 0 && two.length === 0) return []
    if (one.length !== two.length) return [`pair ${a}, ${b} is drawn with one twist`]
    return one.flatMap((points, half) => {
      const other = two[half] ?? []
      if (points.length !== other.length) return [`pair ${a}, ${b} turns at different corners`]
      const [own, partners] = [segments(a, points), segments(b, other)]
      return own.flatMap((segment, i) => {
        const partner = partners[i] ?? segment
        if (!runsBeside(segment, partner)) return [`pair ${a}, ${b} parts at ${show(segment.a)}`]
        const found = wires.find(
          (wire) => wire.owner !== a && wire.owner !== b && between(segment, partner, wire),
        )
        return found ? [`pair ${a}, ${b} has ${found.owner} between its legs at ${show(segment.a)}`] : []
      })
    })
  })
}
