import { TEXT, type TextSize } from './metrics.ts'
import { type Item, line, text } from './scene.ts'
import { textWidth } from './text-width.ts'

/** What is in a position. `unstated` where a face is drawn without a harness. */
export type PinState = 'wired' | 'empty' | 'plugged' | 'unstated'

export interface PinMark {
  readonly name: string
  readonly state: PinState
  /** The first position, told by its square. */
  readonly first: boolean
  /** The one position the reader is to look at. */
  readonly chosen: boolean
}

const disc = (x: number, y: number, r: number) =>
  `M${x - r} ${y}a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1 ${-2 * r} 0Z`

/** Short strokes across the rim, like the ends of a cross, which leave the middle free for the number. */
function ticks(x: number, y: number, r: number): Item[] {
  return [45, 135, 225, 315].map((degrees) => {
    const a = (degrees * Math.PI) / 180
    const at = (k: number) => [x + Math.cos(a) * r * k, y + Math.sin(a) * r * k] as const
    return line('lw-symbol', at(0.8), at(1.3))
  })
}

/** Slanting lines across a disc. */
function hatch(x: number, y: number, r: number): Item[] {
  const lines: Item[] = []
  for (let off = -r + 2; off < r; off += 3.6) {
    const half = Math.sqrt(Math.max(0, r * r - off * off))
    const k = Math.SQRT1_2
    const at = (along: number) => [x + (off + along) * k, y + (off - along) * k] as const
    lines.push(line('lw-symbol', at(-half), at(half)))
  }
  return lines
}

const SIZES: readonly TextSize[] = ['label', 'small', 'caption']

/** The number inside its disc, or outside it where it is too wide. */
function pinName(
  name: string,
  x: number,
  y: number,
  r: number,
  className: string | undefined,
  above: boolean,
): Item {
  const more = className === undefined ? {} : { className }
  const inside = SIZES.find(
    (size) => textWidth(name, TEXT[size], 'bold') <= 2 * r - 4 && TEXT[size] * 0.7 < 1.6 * r,
  )
  if (inside)
    return text(x, y + TEXT[inside] * 0.35, name, { size: inside, bold: true, anchor: 'middle', ...more })
  return text(x, above ? y - r - 7 : y + r + 13, name, { size: 'caption', bold: true, anchor: 'middle' })
}

/**
 * One position of a face: a black disc where a conductor lands, an open ring with ticks where nothing is, hatched where
 * a plug closes it. The first has a square round it, the chosen one a heavy ring; nothing depends on colour.
 */
export function facePin(pin: PinMark, x: number, y: number, r: number, nameAbove = false): Item {
  const items: Item[] = []
  if (pin.first) {
    const side = 2 * r + 6
    items.push({ kind: 'rect', className: 'lw-symbol', x: x - side / 2, y: y - side / 2, w: side, h: side })
  }
  if (pin.chosen) items.push({ kind: 'path', className: 'lw-chosen', d: disc(x, y, r + 3.6) })
  const wired = pin.state === 'wired'
  items.push({ kind: 'path', className: wired ? 'lw-ink' : 'lw-paper', d: disc(x, y, r) })
  if (pin.state === 'empty') items.push(...ticks(x, y, r))
  if (pin.state === 'plugged') {
    items.push(...hatch(x, y, r))
    items.push({ kind: 'path', className: 'lw-blank', d: disc(x, y, r * 0.58) })
  }
  items.push(pinName(pin.name, x, y, r, wired ? 'lw-inverse' : undefined, nameAbove))
  const words = pin.state === 'unstated' ? '' : `, ${pin.state}`
  return {
    kind: 'group',
    className: 'lw-facepin',
    data: { pin: pin.name, state: pin.state },
    title: `pin ${pin.name}${words}${pin.first ? ', first pin' : ''}`,
    items,
  }
}
