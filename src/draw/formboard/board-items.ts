import { cutToleranceMm } from '../../solve/formulas/cut-tolerance.ts'
import { LabelRoom } from '../label-room.ts'
import { UNITS_PER_MM } from '../metrics.ts'
import { type Item, line, type Point } from '../scene.ts'
import { type Along, alongBranch, markItems, markSpanMm, markWords } from './board-marks.ts'
import type { BoardPlace, BoardPlan } from './board-plan.ts'
import type { BoardLayout, LaidBranch } from './lay-board.ts'

export interface BoardStyle {
  /** Board millimetres to one on paper: 1 is true size. */
  readonly ratio: number
  /** True size shows everything; an overview names and measures only. */
  readonly full: boolean
}

export interface DrawnBoard {
  readonly items: readonly Item[]
  /** Words for which there was no room on the drawing. */
  readonly unplaced: readonly string[]
  /** Says where there is room for more. */
  readonly room: LabelRoom
}

const mm = (value: number): number => value * UNITS_PER_MM
/** Depth of a connector on the board. */
const BODY_MM = 25
/** A label sits this far from the connector, where both can be read at once (common practice). */
const LABEL_AT_MM = 50
const RULER_MM = 100
/** A long branch says its length again at this distance, so that every sheet of it can be told. */
const REPEAT_MM = 600

function lengthWords({ branch }: LaidBranch): string {
  const length = `${Math.round(branch.length)} mm +${cutToleranceMm(branch.length)} −0`
  const every = branch.supportEvery
  // Up to two steps there is one tie at most, and nothing to space.
  return every === undefined || every * 2 > branch.length
    ? length
    : `${length}, ties every ${Math.round(every)} mm`
}

/** Everything needed while one board is drawn. */
interface Board {
  readonly plan: BoardPlan
  readonly layout: BoardLayout
  readonly style: BoardStyle
  readonly perMm: number
  readonly room: LabelRoom
  readonly items: Item[]
  readonly unplaced: string[]
}

const onPaper = ({ perMm }: Board, [x, y]: Point): Point => [x * perMm, y * perMm]

/** Draws lines and keeps labels off them. */
function add(board: Board, ...items: readonly Item[]): void {
  for (const item of items) {
    board.items.push(item)
    if (item.kind === 'line')
      for (const [i, b] of item.points.slice(1).entries()) board.room.addLine(item.points[i] ?? b, b)
  }
}

function say(board: Board, wish: Parameters<LabelRoom['place']>[0]): void {
  const placed = board.room.place(wish)
  if (placed) board.items.push(...placed)
  else board.unplaced.push(wish.lines.map((one) => one.text).join(' '))
}

function drawBranch(board: Board, laid: LaidBranch): void {
  const { branch } = laid
  const [a, b] = [onPaper(board, laid.a), onPaper(board, laid.b)]
  const p = alongBranch(a, b)
  const loom: Item = {
    kind: 'group',
    className: 'lw-branch',
    data: { from: branch.from, to: branch.to, mm: String(branch.length) },
    items: [line('lw-bold lw-loom', a, b)],
  }
  board.items.push(loom)
  board.room.addLine(a, b)
  for (const mark of branch.marks ?? [])
    add(board, ...markItems(mark, branch, p, board.perMm, board.style.full ? 1 : 0.4))
  if (!board.style.full) return
  for (let at = RULER_MM; at < branch.length; at += RULER_MM)
    board.items.push(line('lw-rule', p(mm(at), mm(-1.2)), p(mm(at), mm(1.2))))
}

/** A small flag across the branch where the label of a connector goes. */
function drawLabelSpot(board: Board, place: BoardPlace, p: Along, lengthMm: number, fromEnd: boolean): void {
  if (place.kind !== 'connector' || lengthMm < LABEL_AT_MM * 2) return
  const at = mm(fromEnd ? lengthMm - LABEL_AT_MM : LABEL_AT_MM)
  add(
    board,
    line(
      'lw-box',
      p(at - mm(6), -mm(2)),
      p(at + mm(6), -mm(2)),
      p(at + mm(6), mm(2)),
      p(at - mm(6), mm(2)),
      p(at - mm(6), -mm(2)),
    ),
  )
}

/** The body of what stands at a place: beyond the end of a tail, across the loom where it goes on. */
function drawBody(board: Board, place: BoardPlace, ends: number): void {
  const at = board.layout.places.get(place.id)
  if (!at) return
  const [x, y] = onPaper(board, at)
  const angle = board.layout.outward.get(place.id) ?? 0
  const p = alongBranch([x, y], [x + Math.cos(angle), y + Math.sin(angle)])
  const small = !board.style.full
  if (place.kind === 'breakout' || place.kind === 'splice') {
    const r = small ? mm(0.8) : mm(2)
    const ring = Array.from({ length: 17 }, (_, i) =>
      p(r * Math.cos((i / 8) * Math.PI), r * Math.sin((i / 8) * Math.PI)),
    )
    add(board, line(place.kind === 'splice' ? 'lw-box' : 'lw-dot', ...ring))
    return
  }
  const half = small ? mm(1.2) : mm(place.widthMm / 2)
  const depth = small ? mm(2.4) : mm(BODY_MM)
  const [near, far] = ends > 1 ? [-depth / 2, depth / 2] : [0, depth]
  add(board, line('lw-box', p(near, -half), p(far, -half), p(far, half), p(near, half), p(near, -half)))
}

function placeLabels(
  board: Board,
  ends: ReadonlyMap<string, number>,
  tailOf: ReadonlyMap<string, LaidBranch>,
): void {
  const { layout, plan, style } = board
  let along = 0
  const datum = new Map<string, number>()
  for (const [i, id] of layout.longest.entries()) {
    datum.set(id, along)
    const next = layout.longest[i + 1]
    along +=
      layout.branches.find(
        ({ branch: { from, to } }) => (from === id && to === next) || (to === id && from === next),
      )?.branch.length ?? 0
  }
  for (const [id, spot] of layout.places) {
    const place = plan.places.get(id)
    if (!place) continue
    const tail = tailOf.get(id)
    const isTail = (ends.get(id) ?? 0) === 1
    const toward = isTail ? (layout.outward.get(id) ?? 0) : Math.PI / 4
    const at = onPaper(board, spot)
    const body = isTail && place.kind !== 'breakout' ? mm(style.full ? BODY_MM : 2.4) : 0
    const centre: Point = [at[0] + Math.cos(toward) * body, at[1] + Math.sin(toward) * body]
    const zero = datum.get(id)
    const fromDatum =
      zero !== undefined && place.kind === 'breakout' ? [`${Math.round(zero)} from datum`] : []
    const small = [
      ...(style.full && place.detail ? [place.detail] : []),
      ...(style.full ? fromDatum : []),
      ...(!style.full && tail ? [`${Math.round(tail.branch.length)} mm`] : []),
      ...(zero === 0 ? ['Datum 0'] : []),
    ]
    const flags = place.flags ?? []
    say(board, {
      lines: [
        { text: [id, place.words].filter((word) => word !== '').join(' '), bold: true },
        ...small.map((words) => ({ text: words, size: 'small' as const })),
        ...(flags.length > 0 ? [{ text: flags.map(({ number }) => number).join(' '), flags }] : []),
      ],
      at: isTail ? centre : at,
      gap: style.full ? mm(3) : mm(1.5),
      toward,
    })
  }
}

function placeLengths(board: Board): void {
  const { layout, style } = board
  for (const laid of layout.branches) {
    if (!style.full && laid.tail) continue
    const [a, b] = [onPaper(board, laid.a), onPaper(board, laid.b)]
    const p = alongBranch(a, b)
    const length = laid.branch.length * board.perMm
    const times = style.full ? Math.max(1, Math.round(laid.branch.length / REPEAT_MM)) : 1
    const upright = Math.atan2(b[1] - a[1], b[0] - a[0]) - Math.PI / 2
    const { from, to } = laid.branch
    for (let i = 0; i < times; i += 1)
      say(board, {
        lines: [
          {
            text: style.full ? `${from} – ${to}: ${lengthWords(laid)}` : `${Math.round(laid.branch.length)}`,
            size: 'small',
          },
        ],
        at: p(((i + 0.5) / times) * length),
        gap: style.full ? mm(3) : mm(1),
        toward: upright,
      })
  }
}

function placeMarkWords(board: Board): void {
  for (const laid of board.layout.branches) {
    const p = alongBranch(onPaper(board, laid.a), onPaper(board, laid.b))
    const upright = Math.atan2(laid.b[1] - laid.a[1], laid.b[0] - laid.a[0]) + Math.PI / 2
    for (const mark of laid.branch.marks ?? []) {
      const [from, to] = markSpanMm(mark, laid.branch)
      const words = markWords(mark, laid.branch)
      say(board, {
        lines: [{ text: words, size: 'small' }],
        at: p(((from + to) / 2) * board.perMm),
        gap: mm(4),
        toward: upright,
      })
    }
  }
}

/** Draws a laid-out board; its own millimetres begin at the datum and may be negative. */
export function boardItems(plan: BoardPlan, layout: BoardLayout, style: BoardStyle): DrawnBoard {
  const board: Board = {
    plan,
    layout,
    style,
    perMm: UNITS_PER_MM / style.ratio,
    room: new LabelRoom(),
    items: [],
    unplaced: [],
  }
  const ends = new Map<string, number>()
  const tailOf = new Map<string, LaidBranch>()
  for (const laid of layout.branches) {
    const { from, to, length } = laid.branch
    for (const id of [from, to]) ends.set(id, (ends.get(id) ?? 0) + 1)
    if (laid.tail) tailOf.set(laid.tail === 'b' ? to : from, laid)
    drawBranch(board, laid)
    if (!style.full) continue
    const p = alongBranch(onPaper(board, laid.a), onPaper(board, laid.b))
    for (const [id, fromEnd] of [
      [from, false],
      [to, true],
    ] as const) {
      const place = plan.places.get(id)
      if (place) drawLabelSpot(board, place, p, length, fromEnd)
    }
  }
  for (const [id, place] of plan.places) if (layout.places.has(id)) drawBody(board, place, ends.get(id) ?? 0)
  placeLabels(board, ends, tailOf)
  placeLengths(board)
  if (style.full) placeMarkWords(board)
  return board
}
