import { FLAG_ROOM, flagMarks } from './flag-mark.ts'
import { PITCH, TEXT } from './metrics.ts'
import { type Item, line, type Point, text } from './scene.ts'
import type { Port, Shape, Side, WireEnd } from './shape.ts'
import type { InlineBlock, SpliceBlock, StudBlock } from './sheet-model.ts'
import { STUD_SYMBOL_HEIGHT, studSymbol } from './symbols/stud-symbol.ts'
import { HALF, TWO_TERMINAL } from './symbols/two-terminal.ts'
import { shorten, textWidth } from './text-width.ts'

const MAX_TITLE = 200

/** Ports one below another round a middle height. */
function stack(ends: readonly WireEnd[], side: Side, width: number, middle: number, pitch = PITCH): Port[] {
  return ends.map((end, i) => ({
    id: end.port,
    side,
    x: side === 'WEST' ? 0 : width,
    y: middle + (i - (ends.length - 1) / 2) * pitch,
  }))
}

/** A dot where conductors are joined; they fan in to it. */
export function spliceShape(block: SpliceBlock, ends: readonly WireEnd[]): Shape {
  const west = ends.filter((end) => end.side === 'WEST')
  const east = ends.filter((end) => end.side === 'EAST')
  const fan = 12
  const pitch = 12
  // The name has its room inside the block, and the same again below, so that the ports stay round the middle.
  const height = 2 * 15 + pitch * Math.max(1, west.length, east.length)
  const title = shorten(block.title, MAX_TITLE, TEXT.label, 'bold')
  const flags = FLAG_ROOM * (block.flags?.length ?? 0)
  const titleWidth = textWidth(title, TEXT.label, 'bold')
  const width = Math.ceil(Math.max(2 * fan, titleWidth + flags + 6))
  return {
    width,
    height,
    loose: true,
    reach: new Map(
      ends.map((end) => {
        const levelTo = end.side === 'WEST' ? width / 2 - fan : width / 2 + fan
        return [end.port, { levelTo, goal: [width / 2, height / 2] }]
      }),
    ),
    ports: [
      ...stack(west, 'WEST', width, height / 2, pitch),
      ...stack(east, 'EAST', width, height / 2, pitch),
    ],
    draw: ([x, y]) => {
      const cx = x + width / 2
      const cy = y + height / 2
      const left = cx - (titleWidth + flags) / 2
      return [
        { kind: 'path', className: 'lw-dot', d: `M${cx - 4.5} ${cy}a4.5 4.5 0 1 1 9 0a4.5 4.5 0 1 1 -9 0Z` },
        text(left, y + 11, title, { bold: true, full: block.title }),
        ...flagMarks(block.flags, left + titleWidth + 12, y + 7),
      ]
    },
  }
}

/** Stubs from the ports of one side to a point on the middle line. */
function stubs(ports: readonly Port[], [x, y]: Point, to: number, middle: number): Item[] {
  const items: Item[] = ports.map((port) => line('lw-symbol', [x + port.x, y + port.y], [to, y + port.y]))
  if (ports.length > 1) {
    const ys = ports.map((port) => y + port.y)
    items.push(line('lw-symbol', [to, Math.min(...ys, middle)], [to, Math.max(...ys, middle)]))
    for (const at of ys.length > 2 ? ys.slice(1, -1) : []) items.push(dot(to, at))
    items.push(dot(to, middle))
  }
  return items
}

const dot = (x: number, y: number): Item => ({
  kind: 'path',
  className: 'lw-dot',
  d: `M${x - 2.6} ${y}a2.6 2.6 0 1 1 5.2 0a2.6 2.6 0 1 1 -5.2 0Z`,
})

/** A fuse, diode, resistor … in the run. Its first terminal is on the left unless `turned`. */
export function inlineShape(block: InlineBlock, ends: readonly WireEnd[], turned: boolean): Shape {
  const title = shorten(block.title, MAX_TITLE, TEXT.label, 'bold')
  const value = shorten(block.subtitle ?? '', MAX_TITLE, TEXT.small)
  const titleWidth = textWidth(title, TEXT.label, 'bold')
  const flags = FLAG_ROOM * (block.flags?.length ?? 0)
  const textW = Math.max(titleWidth + flags, textWidth(value, TEXT.small))
  const west = ends.filter((end) => end.side === 'WEST')
  const east = ends.filter((end) => end.side === 'EAST')
  const width = Math.ceil(
    Math.max(2 * HALF + 8 + (west.length > 1 ? 20 : 0) + (east.length > 1 ? 20 : 0), textW + 6),
  )
  const run = Math.max(22, PITCH * Math.max(west.length, east.length) + 2)
  const middle = 17 + run / 2
  const height = 17 + run + (value === '' ? 2 : 15)
  const left = stack(west, 'WEST', width, middle)
  const right = stack(east, 'EAST', width, middle)
  return {
    width,
    height,
    ports: [...left, ...right],
    draw: (at) => {
      const [x, y] = at
      const cx = x + width / 2
      const cy = y + middle
      const from = left.length > 1 ? x + 10 : x
      const to = right.length > 1 ? x + width - 10 : x + width
      return [
        { kind: 'rect', className: 'lw-clear', x, y, w: width, h: height, solid: true },
        ...stubs(left, at, left.length > 1 ? from : cx - HALF, cy),
        ...stubs(right, at, right.length > 1 ? to : cx + HALF, cy),
        line('lw-symbol', [from, cy], [cx - HALF, cy]),
        line('lw-symbol', [cx + HALF, cy], [to, cy]),
        ...TWO_TERMINAL[block.symbol](cx, cy, turned),
        text(cx - (titleWidth + flags) / 2, y + 13, title, { bold: true, full: block.title }),
        ...flagMarks(block.flags, cx + (titleWidth - flags) / 2 + 11, y + 9),
        text(cx, y + height - 4, value, { size: 'small', anchor: 'middle', full: block.subtitle ?? '' }),
      ]
    },
  }
}

/** A chassis stud, earth or terminal post: one point that takes several rings. */
export function studShape(block: StudBlock, ends: readonly WireEnd[]): Shape {
  const title = shorten(block.title, MAX_TITLE, TEXT.label, 'bold')
  const subtitle = shorten(block.subtitle ?? '', MAX_TITLE, TEXT.small)
  const flags = FLAG_ROOM * (block.flags?.length ?? 0)
  const titleWidth = textWidth(title, TEXT.label, 'bold')
  const width = Math.ceil(Math.max(54, titleWidth + flags + 12, textWidth(subtitle, TEXT.small) + 12))
  const head = 20 + (subtitle === '' ? 0 : 14)
  const west = ends.filter((end) => end.side === 'WEST')
  const east = ends.filter((end) => end.side === 'EAST')
  const rows = Math.max(1, west.length, east.length)
  const at = (list: readonly WireEnd[], side: Side) =>
    list.map((end, i) => ({
      id: end.port,
      side,
      x: side === 'WEST' ? 0 : width,
      y: head + PITCH / 2 + i * PITCH,
    }))
  const ports = [...at(west, 'WEST'), ...at(east, 'EAST')]
  const height = head + PITCH * rows + STUD_SYMBOL_HEIGHT
  return {
    width,
    height,
    ports,
    draw: ([x, y]) => {
      const cx = x + width / 2
      const first = y + head + PITCH / 2
      const last = first + (rows - 1) * PITCH
      return [
        { kind: 'rect', className: 'lw-box', x, y, w: width, h: height, solid: true },
        text(x + 6, y + 15, title, { bold: true, full: block.title }),
        ...flagMarks(block.flags, x + 6 + titleWidth + 12, y + 11),
        text(x + 6, y + 29, subtitle, { size: 'small', full: block.subtitle ?? '' }),
        ...ports.map((port) => line('lw-symbol', [x + port.x, y + port.y], [cx, y + port.y])),
        line('lw-symbol', [cx, first], [cx, last]),
        ...(ports.length > 1 ? [...new Set(ports.map((port) => y + port.y))].map((py) => dot(cx, py)) : []),
        ...studSymbol(block.symbol, cx, last),
      ]
    },
  }
}
