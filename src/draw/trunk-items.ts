import { drawLabel } from './conductor-label.ts'
import { cutAlong, expandTrunk } from './expand-trunk.ts'
import { flagMarks } from './flag-mark.ts'
import { TWIST_ROOM } from './graph.ts'
import type { PlacedTrunk } from './layout.ts'
import { PITCH, TEXT } from './metrics.ts'
import { type Item, line, type Point, text, type WireItem } from './scene.ts'
import { printed } from './sheet-model.ts'
import { textWidth } from './text-width.ts'

/** Parts of a drawing by the layer they belong to; later layers lie on top. */
export interface Layers {
  readonly under: Item[]
  readonly wires: Item[]
  readonly over: Item[]
}

interface Lane {
  readonly before: readonly Point[]
  readonly after: readonly Point[]
}

const TWIST = 9

/** A full turn of a pair, or half a turn where the far end takes the two the other way round. */
function twist(x: number, y: number, other: number, half: boolean): string {
  const c = (x0: number, a: number, b: number) =>
    `C${x0 + TWIST} ${a} ${x0 + TWIST} ${b} ${x0 + 2 * TWIST} ${b}`
  return `M${x} ${y}${c(x, y, other)}${half ? '' : c(x + 2 * TWIST, other, y)}`
}

function conductorGroup(trunk: PlacedTrunk, row: number, items: Item[]): Item {
  const run = trunk.runs[row]
  const conductor = run?.conductor
  const shield = trunk.rows.shields.find((span) => span.row === row)?.shield
  return {
    kind: 'group',
    className: 'lw-cond',
    data: { id: run?.id ?? '', net: conductor?.net ?? shield?.net, trunk: trunk.trunk.id },
    title: conductor?.title ?? shield?.title ?? run?.label ?? '',
    items,
  }
}

/** Screens are dashed outlines round what they cover; each has a lane below, from which its drain leaves. */
function drawShields(
  trunk: PlacedTrunk,
  lanes: readonly Lane[],
  yOf: (row: number) => number,
  x0: number,
  x1: number,
  layers: Layers,
) {
  const { rows, shields } = trunk.rows
  for (const span of shields) {
    const all = span.from === 0 && span.row === rows.length - 1
    const inset = all ? 5 : 11
    const top = yOf(span.from) - (all ? 19 : 16)
    const foot = yOf(span.row) - (all ? 9 : 11)
    layers.under.push({
      kind: 'rect',
      className: 'lw-shield',
      x: x0 + inset,
      y: top,
      w: x1 - x0 - 2 * inset,
      h: foot - top,
      radius: 8,
    })
    const items: Item[] = []
    const y = yOf(span.row)
    const run = trunk.runs[span.row]
    const lane = lanes[span.row]
    const drain = (points: readonly Point[], dot: number) => {
      items.push({ kind: 'wire', points, shield: true } satisfies WireItem)
      items.push({
        kind: 'path',
        className: 'lw-dot',
        d: `M${dot - 3} ${foot}a3 3 0 1 1 6 0a3 3 0 1 1 -6 0Z`,
      })
    }
    if (run?.ends[0] && lane) drain([...lane.before, [x0 + 22, y], [x0 + 22, foot]], x0 + 22)
    if (run?.ends[1] && lane) drain([[x1 - 22, foot], [x1 - 22, y], ...lane.after], x1 - 22)
    const name = `${printed(span.shield)} shield`
    const labelX = x0 + 30
    layers.over.push(text(labelX, y + 5, name, { bold: true }))
    layers.over.push(...flagMarks(span.shield.flags, labelX + textWidth(name, TEXT.label, 'bold') + 12, y))
    layers.wires.push(conductorGroup(trunk, span.row, items))
  }
}

function drawConductor(
  trunk: PlacedTrunk,
  row: number,
  lanes: readonly Lane[],
  yOf: (row: number) => number,
  x0: number,
  x1: number,
  layers: Layers,
) {
  const run = trunk.runs[row]
  const conductor = run?.conductor
  const lane = lanes[row]
  if (!run || !conductor || !lane) return
  const y = yOf(row)
  const upper = trunk.rows.pairs.find((p) => p === row || p + 1 === row)
  const colour = conductor.colour === undefined ? {} : { colour: conductor.colour }
  const wire = (points: readonly Point[], path?: string): WireItem => ({
    kind: 'wire',
    points,
    ...colour,
    ...(path === undefined ? {} : { path }),
  })
  const items: Item[] = []
  const end = (x: number): Item => line('lw-bold', [x, y - 4], [x, y + 4])
  const start: readonly Point[] = run.ends[0] ? lane.before : [[x0 + 14, y]]
  if (!run.ends[0]) items.push(end(x0 + 14))
  if (!run.ends[1]) items.push(end(x1 - 14))
  if (upper === undefined) {
    items.unshift(wire([...start, ...(run.ends[1] ? lane.after : [[x1 - 14, y] as Point])]))
  } else {
    const other = yOf(row === upper ? upper + 1 : upper)
    const from = x0 + 16
    const half = trunk.swapped
    const to = from + (half ? 2 : 4) * TWIST
    const yEnd = half ? other : y
    const last = half ? (lanes[row === upper ? upper + 1 : upper] ?? lane) : lane
    const after: readonly Point[] = run.ends[1] ? last.after : [[x1 - 14, yEnd]]
    items.unshift(
      wire([...start, [from, y]]),
      wire([], twist(from, y, other, half)),
      wire([[to, yEnd], ...after]),
    )
  }
  layers.wires.push(conductorGroup(trunk, row, items))
  const labelY = (trunk.swapped && upper !== undefined ? yOf(row === upper ? upper + 1 : upper) : y) - 3.6
  const labelX = x0 + (trunk.rows.pairs.length > 0 ? TWIST_ROOM + 4 : 22)
  layers.over.push({
    kind: 'group',
    className: 'lw-label',
    data: { id: conductor.id, net: conductor.net },
    items: drawLabel(conductor, labelX, labelY),
  })
}

/** A cable, pair or screened pair with its envelope. */
export function drawTrunk(trunk: PlacedTrunk, layers: Layers) {
  const n = trunk.rows.rows.length
  const { label } = trunk
  const x0 = label.x
  const x1 = label.x + label.w
  const middle = label.y + label.h / 2
  const cut = cutAlong(trunk.points, middle, x0, x1)
  const forward = cut?.forward ?? true
  const laneY = (row: number) => middle + (forward ? 1 : -1) * (row - (n - 1) / 2) * PITCH
  const lanes = expandTrunk(trunk.points, n).map((points, row): Lane => {
    const parts = cutAlong(points, laneY(row), x0, x1)
    return parts ?? { before: points, after: points.slice(-1) }
  })
  const top = Math.min(laneY(0), laneY(n - 1))
  const foot = Math.max(laneY(0), laneY(n - 1))
  if (trunk.trunk.jacket)
    layers.under.push({
      kind: 'rect',
      className: 'lw-jacket',
      x: x0,
      y: top - 23,
      w: x1 - x0,
      h: foot - top + 31,
      radius: 6,
    })
  for (let row = 0; row < n; row++) drawConductor(trunk, row, lanes, laneY, x0, x1, layers)
  drawShields(trunk, lanes, laneY, x0, x1, layers)
  const titleAt = foot + 21
  layers.over.push(text((x0 + x1) / 2, titleAt, trunk.trunk.title, { bold: true, anchor: 'middle' }))
}
