import { type Item, text } from './scene.ts'
import type { Flag } from './sheet-model.ts'

/** Room one mark takes along a line. */
export const FLAG_ROOM = 19

const at = (x: number, y: number, offsets: readonly (readonly [number, number])[]) =>
  `M${offsets.map(([dx, dy]) => `${x + dx} ${y + dy}`).join('L')}Z`

const OCTAGON = [
  [-8, -3.3],
  [-3.3, -8],
  [3.3, -8],
  [8, -3.3],
  [8, 3.3],
  [3.3, 8],
  [-3.3, 8],
  [-8, 3.3],
] as const
const TRIANGLE = [
  [0, -9],
  [9, 7],
  [-9, 7],
] as const

/** A numbered mark round its centre: octagon for an error, triangle for a warning, circle for a note. */
export function flagMark(flag: Flag, x: number, y: number): Item {
  const { level, number } = flag
  const outline =
    level === 'error'
      ? at(x, y, OCTAGON)
      : level === 'warning'
        ? at(x, y, TRIANGLE)
        : `M${x - 8} ${y}a8 8 0 1 1 16 0a8 8 0 1 1 -16 0Z`
  return {
    kind: 'group',
    className: 'lw-flag',
    data: { finding: String(number), level },
    title: `${level} ${number}`,
    items: [
      { kind: 'path', d: outline, className: level === 'error' ? 'lw-ink' : 'lw-paper' },
      text(x, y + (level === 'warning' ? 5.6 : 4.1), String(number), {
        // Two figures are wider than a triangle is at their height.
        size: level === 'warning' && number > 9 ? 'caption' : 'small',
        bold: true,
        anchor: 'middle',
        ...(level === 'error' ? { className: 'lw-inverse' } : {}),
      }),
    ],
  }
}

/** Marks side by side, the first centred at `x`. */
export function flagMarks(
  flags: readonly Flag[] | undefined,
  x: number,
  y: number,
  step = FLAG_ROOM,
): Item[] {
  return (flags ?? []).map((flag, index) => flagMark(flag, x + index * step, y))
}
