import { drawLabel } from './conductor-label.ts'
import { flagMarks } from './flag-mark.ts'
import { TWIST_ROOM } from './graph.ts'
import type { PlacedTrunk } from './layout.ts'
import { TEXT } from './metrics.ts'
import { type Item, line, type Point, text, type WireItem } from './scene.ts'
import { shieldWords } from './sheet-model.ts'
import { textWidth } from './text-width.ts'
import { trunkLanes } from './trunk-lanes.ts'

/** Parts of a drawing by the layer they belong to; later layers lie on top. */
export interface Layers {
  readonly under: Item[]
  readonly wires: Item[]
  readonly over: Item[]
}

/** A line of the trunk outside its envelope: left of it, ending at its edge, and right of it, starting there. */
interface Lane {
  readonly left: readonly Point[]
  readonly right: readonly Point[]
}

interface Envelope {
  readonly trunk: PlacedTrunk
  readonly x0: number
  readonly x1: number
  readonly lanes: readonly Lane[]
  /** End of a run that lies to the left: the near one, unless the trunk had to run backwards. */
  readonly leftEnd: 0 | 1
  readonly rightEnd: 0 | 1
  yOf(row: number): number
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
function drawShields({ trunk, x0, x1, lanes, leftEnd, rightEnd, yOf }: Envelope, layers: Layers) {
  const { rows, shields } = trunk.rows
  for (const { shield, from, row } of shields) {
    const all = from === 0 && row === rows.length - 1
    const inset = all ? 5 : 11
    const y = yOf(row)
    const top = yOf(from) - (all ? 19 : 16)
    const foot = y - (all ? 9 : 11)
    layers.under.push({
      kind: 'rect',
      className: 'lw-shield',
      x: x0 + inset,
      y: Math.min(top, foot),
      w: x1 - x0 - 2 * inset,
      h: Math.abs(foot - top),
      radius: 8,
    })
    const items: Item[] = []
    const drain = (points: readonly Point[], x: number) => {
      items.push({ kind: 'wire', points, shield: true } satisfies WireItem)
      items.push({ kind: 'path', className: 'lw-dot', d: `M${x - 3} ${foot}a3 3 0 1 1 6 0a3 3 0 1 1 -6 0Z` })
    }
    const run = trunk.runs[row]
    const lane = lanes[row]
    if (run?.ends[leftEnd] && lane) drain([...lane.left, [x0 + 22, y], [x0 + 22, foot]], x0 + 22)
    if (run?.ends[rightEnd] && lane) drain([[x1 - 22, foot], [x1 - 22, y], ...lane.right], x1 - 22)
    const name = shieldWords(shield)
    layers.over.push(text(x0 + 30, y + 2, name, { bold: true }))
    layers.over.push(...flagMarks(shield.flags, x0 + 42 + textWidth(name, TEXT.label, 'bold'), y - 2))
    layers.wires.push(conductorGroup(trunk, row, items))
  }
}

function drawConductor(
  { trunk, x0, x1, lanes, leftEnd, rightEnd, yOf }: Envelope,
  row: number,
  layers: Layers,
) {
  const run = trunk.runs[row]
  const conductor = run?.conductor
  const lane = lanes[row]
  if (!run || !conductor || !lane) return
  const upper = trunk.rows.pairs.find((p) => p === row || p + 1 === row)
  const partner = upper === undefined ? row : row === upper ? upper + 1 : upper
  // Where the far end takes the two of a pair the other way round, half a turn is left out and they change places.
  const changes = trunk.swapped && upper !== undefined
  const [leftRow, rightRow] = changes ? (leftEnd === 0 ? [row, partner] : [partner, row]) : [row, row]
  const [yLeft, yRight] = [yOf(leftRow), yOf(rightRow)]
  const colour = conductor.colour === undefined ? {} : { colour: conductor.colour }
  const wire = (points: readonly Point[], path = ''): WireItem => ({
    kind: 'wire',
    points,
    ...colour,
    ...(path === '' ? {} : { path }),
  })
  const cutOff = (x: number, at: number): Item => line('lw-bold', [x, at - 4], [x, at + 4])
  const items: Item[] = []
  const left: readonly Point[] = run.ends[leftEnd] ? (lanes[leftRow]?.left ?? []) : [[x0 + 12, yLeft]]
  const right: readonly Point[] = run.ends[rightEnd] ? (lanes[rightRow]?.right ?? []) : [[x1 - 12, yRight]]
  if (upper === undefined) items.push(wire([...left, ...right]))
  else {
    const from = x0 + 16
    const to = from + (changes ? 2 : 4) * TWIST
    items.push(wire([...left, [from, yLeft]]))
    items.push(wire([], twist(from, yLeft, changes ? yRight : yOf(partner), changes)))
    items.push(wire([[to, yRight], ...right]))
  }
  if (!run.ends[leftEnd]) items.push(cutOff(x0 + 12, yLeft))
  if (!run.ends[rightEnd]) items.push(cutOff(x1 - 12, yRight))
  layers.wires.push(conductorGroup(trunk, row, items))
  const labelX = x0 + (trunk.rows.pairs.length > 0 ? TWIST_ROOM + 4 : 22)
  layers.over.push({
    kind: 'group',
    className: 'lw-label',
    data: { id: conductor.id, net: conductor.net },
    items: drawLabel(conductor, labelX, yRight - 3.6),
  })
}

function envelopeOf(trunk: PlacedTrunk): Envelope {
  const { forward, lanes, yOf } = trunkLanes(trunk)
  return {
    trunk,
    x0: trunk.label.x,
    x1: trunk.label.x + trunk.label.w,
    lanes: lanes.map(({ points, cut }): Lane => {
      const { before, after } = cut ?? { before: points, after: points.slice(-1) }
      return forward
        ? { left: before, right: after }
        : { left: [...after].reverse(), right: [...before].reverse() }
    }),
    yOf,
    leftEnd: forward ? 0 : 1,
    rightEnd: forward ? 1 : 0,
  }
}

/** A cable, pair or screened pair with its envelope. */
export function drawTrunk(trunk: PlacedTrunk, layers: Layers) {
  const envelope = envelopeOf(trunk)
  const { x0, x1, yOf } = envelope
  const last = trunk.rows.rows.length - 1
  const top = Math.min(yOf(0), yOf(last))
  const foot = Math.max(yOf(0), yOf(last))
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
  for (let row = 0; row <= last; row++) drawConductor(envelope, row, layers)
  drawShields(envelope, layers)
  layers.over.push(text((x0 + x1) / 2, foot + 21, trunk.trunk.title, { bold: true, anchor: 'middle' }))
}
