import { FLAG_ROOM, flagMarks } from './flag-mark.ts'
import { PITCH, TEXT } from './metrics.ts'
import { type Item, line, text } from './scene.ts'
import type { Port, Shape, Side, WireEnd } from './shape.ts'
import type { RelayBlock } from './sheet-model.ts'
import { textWidth, wrapText } from './text-width.ts'

const CORE = 96
const LEAST_ROW = 24

interface TerminalRow {
  readonly pin: string
  readonly side: Side
  readonly west: readonly WireEnd[]
  readonly east: readonly WireEnd[]
  /** From the top of the rows. */
  readonly y: number
  readonly height: number
}

function planTerminals(block: RelayBlock, ends: readonly WireEnd[]): TerminalRow[] {
  const idle: Side = ends.filter((e) => e.side === 'WEST').length >= ends.length / 2 ? 'WEST' : 'EAST'
  const pins = [...block.coil, ...(block.closed ? [block.closed] : []), block.common, block.open]
  let y = 0
  return pins.map((pin) => {
    const west = ends.filter((end) => end.pin === pin && end.side === 'WEST')
    const east = ends.filter((end) => end.pin === pin && end.side === 'EAST')
    const height = Math.max(LEAST_ROW, PITCH * Math.max(west.length, east.length))
    const row: TerminalRow = {
      pin,
      side: west.length > 0 ? 'WEST' : east.length > 0 ? 'EAST' : idle,
      west,
      east,
      y,
      height,
    }
    y += height
    return row
  })
}

/** The coil between its rows, with what is built in across it. */
function drawCoil(block: RelayBlock, x: number, y1: number, y2: number): Item[] {
  const middle = (y1 + y2) / 2
  const across: Item[] = []
  if (block.suppressor) {
    const sx = x - 24
    across.push(line('lw-symbol', [x, y1], [sx, y1], [sx, y2], [x, y2]))
    if (block.suppressor === 'resistor')
      across.push({ kind: 'rect', className: 'lw-symbol lw-paper', x: sx - 3.5, y: middle - 8, w: 7, h: 16 })
    else {
      across.push({
        kind: 'path',
        className: 'lw-symbol lw-paper',
        d: `M${sx - 5} ${middle - 5}H${sx + 5}L${sx} ${middle + 5}Z`,
      })
      across.push(line('lw-symbol', [sx - 5, middle + 5], [sx + 5, middle + 5]))
    }
  }
  return [
    line('lw-symbol', [x, y1], [x, y2]),
    ...across,
    { kind: 'rect', className: 'lw-symbol lw-paper', x: x - 12, y: middle - 6, w: 24, h: 12 },
  ]
}

/** The moving contact on its common terminal, and the fixed contacts above and below. */
function drawContact(
  rows: { common: number; open: number; closed?: number },
  x: number,
  pivot: number,
  toCoil: number,
): Item[] {
  const { common, open, closed } = rows
  const away = pivot < x ? 3 : -3
  const items: Item[] = [
    line('lw-symbol', [pivot, common], [x + away, common - 9]),
    line('lw-symbol', [x, open], [x, common + 6]),
    { kind: 'path', className: 'lw-dot', d: `M${pivot - 2} ${common}a2 2 0 1 1 4 0a2 2 0 1 1 -4 0Z` },
  ]
  if (closed !== undefined) items.push(line('lw-symbol', [x, closed], [x, common - 8]))
  const mid = (pivot + x) / 2
  items.push(line('lw-dash', [mid, toCoil], [mid, common - 5]))
  return items
}

/** A relay: its terminals as rows, coil and contact drawn between them (IEC 60617). */
export function relayShape(block: RelayBlock, ends: readonly WireEnd[]): Shape {
  const rows = planTerminals(block, ends)
  const numberWidth = (list: readonly WireEnd[]) =>
    list.reduce((most, end) => Math.max(most, textWidth(end.number, TEXT.small) + 9), 0)
  const pinWidth = Math.max(26, ...rows.map((row) => textWidth(row.pin, TEXT.label, 'bold') + 12))
  const cellWidth = (side: Side) => {
    const some = rows.filter((row) => row.side === side || (side === 'WEST' ? row.west : row.east).length > 0)
    return some.length === 0
      ? 0
      : pinWidth + numberWidth(some.flatMap((row) => (side === 'WEST' ? row.west : row.east)))
  }
  const west = Math.ceil(cellWidth('WEST'))
  const east = Math.ceil(cellWidth('EAST'))
  const flagRoom = FLAG_ROOM * (block.flags?.length ?? 0)
  const title = wrapText(block.title, 220 - flagRoom, TEXT.title, 1, 'bold')[0] ?? ''
  const subtitle = wrapText(block.subtitle ?? '', 220, TEXT.small, 1)[0] ?? ''
  const titleWidth = textWidth(title, TEXT.title, 'bold')
  const width = Math.ceil(
    Math.max(west + east + CORE, titleWidth + flagRoom + 14, textWidth(subtitle, TEXT.small) + 14),
  )
  const head = 25 + (subtitle === '' ? 0 : 14)
  const height = head + rows.reduce((sum, row) => sum + row.height, 0) + 4
  const portY = (row: TerminalRow, i: number, n: number) =>
    head + row.y + row.height / 2 + (i - (n - 1) / 2) * PITCH
  const ports: Port[] = rows.flatMap((row) => [
    ...row.west.map(
      (end, i): Port => ({ id: end.port, side: 'WEST', x: 0, y: portY(row, i, row.west.length) }),
    ),
    ...row.east.map(
      (end, i): Port => ({ id: end.port, side: 'EAST', x: width, y: portY(row, i, row.east.length) }),
    ),
  ])
  const draw = ([x, y]: readonly [number, number]): Item[] => {
    const coreFrom = x + west
    const coreTo = x + width - east
    const coilX = coreFrom + (coreTo - coreFrom) * 0.36
    const fixedX = coreFrom + (coreTo - coreFrom) * 0.74
    const yOf = (pin: string) => {
      const row = rows.find((one) => one.pin === pin)
      return y + head + (row ? row.y + row.height / 2 : 0)
    }
    const common = rows.find((row) => row.pin === block.common)
    const pivot = common?.side === 'EAST' ? fixedX + 16 : fixedX - 16
    const xOf = (pin: string) => (block.coil.includes(pin) ? coilX : pin === block.common ? pivot : fixedX)
    const [coilA, coilB] = block.coil
    return [
      { kind: 'rect', className: 'lw-box', x, y, w: width, h: height, solid: true },
      text(x + 7, y + 18, title, { size: 'title', bold: true, full: block.title }),
      ...flagMarks(block.flags, x + 7 + titleWidth + 13, y + 13),
      text(x + 7, y + 32, subtitle, { size: 'small', full: block.subtitle ?? '' }),
      line('lw-rule', [x, y + head], [x + width, y + head]),
      ...rows.map((row) =>
        drawTerminal(block, row, x, y + head, { west, east, width, pinWidth }, xOf(row.pin)),
      ),
      ...drawCoil(block, coilX, yOf(coilA), yOf(coilB)),
      ...drawContact(
        {
          common: yOf(block.common),
          open: yOf(block.open),
          ...(block.closed ? { closed: yOf(block.closed) } : {}),
        },
        fixedX,
        pivot,
        (yOf(coilA) + yOf(coilB)) / 2 + 6,
      ),
    ]
  }
  return { width, height, ports, draw }
}

function drawTerminal(
  block: RelayBlock,
  row: TerminalRow,
  x: number,
  top: number,
  size: { west: number; east: number; width: number; pinWidth: number },
  to: number,
): Item {
  const middle = top + row.y + row.height / 2
  const items: Item[] = []
  const side = (ends: readonly WireEnd[], edge: number, inner: number, sign: 1 | -1) => {
    items.push(
      text(inner - (sign * size.pinWidth) / 2, middle + 5, row.pin, { bold: true, anchor: 'middle' }),
    )
    items.push(line('lw-symbol', [inner, middle], [to, middle]))
    const numberMiddle = (edge + inner - sign * size.pinWidth) / 2
    for (const [i, end] of ends.entries())
      items.push(
        text(numberMiddle, middle + (i - (ends.length - 1) / 2) * PITCH + 4.2, end.number, {
          size: 'small',
          anchor: 'middle',
        }),
      )
  }
  if (row.side === 'WEST' || row.west.length > 0) side(row.west, x, x + size.west, 1)
  if (row.side === 'EAST' || row.east.length > 0)
    side(row.east, x + size.width, x + size.width - size.east, -1)
  return { kind: 'group', className: 'lw-pin', data: { block: block.id, pin: row.pin }, items }
}
