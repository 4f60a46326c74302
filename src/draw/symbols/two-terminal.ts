import { type Item, line, text } from '../scene.ts'
import type { SymbolName } from '../sheet-model.ts'

/** Half the length of every symbol: its leads end this far from the middle. */
export const HALF = 20

/** `turned` puts the first terminal on the right. */
type Draw = (x: number, y: number, turned?: boolean) => Item[]

const path = (d: string, className = 'lw-symbol'): Item => ({ kind: 'path', d, className })
const leads = (x: number, y: number, gap: number): Item[] => [
  line('lw-symbol', [x - HALF, y], [x - gap, y]),
  line('lw-symbol', [x + gap, y], [x + HALF, y]),
]
const box = (x: number, y: number, w: number, h: number): Item => ({
  kind: 'rect',
  className: 'lw-symbol lw-paper',
  x: x - w / 2,
  y: y - h / 2,
  w,
  h,
})
const ring = (x: number, y: number, r: number, className = 'lw-symbol lw-paper'): Item =>
  path(`M${x - r} ${y}a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1 ${-2 * r} 0Z`, className)
const through = (x: number, y: number): Item => line('lw-symbol', [x - HALF, y], [x + HALF, y])

/** Symbols after IEC 60617, lying along the run: the first terminal on the left unless turned. */
export const TWO_TERMINAL: Readonly<Record<SymbolName, Draw>> = {
  fuse: (x, y) => [box(x, y, 28, 10), through(x, y)],
  breaker: (x, y) => [
    line('lw-symbol', [x - HALF, y], [x - 10, y]),
    line('lw-symbol', [x + 10, y], [x + HALF, y]),
    line('lw-symbol', [x - 10, y], [x + 9, y - 9]),
    line('lw-symbol', [x + 7, y - 3], [x + 13, y + 3]),
    line('lw-symbol', [x + 7, y + 3], [x + 13, y - 3]),
  ],
  diode: (x, y, turned) => {
    const k = turned ? -7 : 7
    return [
      through(x, y),
      path(`M${x - k} ${y - 7}L${x + k} ${y}L${x - k} ${y + 7}Z`, 'lw-symbol lw-paper'),
      line('lw-symbol', [x + k, y - 7], [x + k, y + 7]),
    ]
  },
  resistor: (x, y) => [...leads(x, y, 14), box(x, y, 28, 10)],
  capacitor: (x, y) => [
    ...leads(x, y, 3),
    line('lw-bold', [x - 3, y - 9], [x - 3, y + 9]),
    line('lw-bold', [x + 3, y - 9], [x + 3, y + 9]),
  ],
  coil: (x, y) => [...leads(x, y, 6), box(x, y, 12, 20)],
  switch: (x, y) => [
    line('lw-symbol', [x - HALF, y], [x - 10, y]),
    line('lw-symbol', [x + 10, y], [x + HALF, y]),
    line('lw-symbol', [x - 10, y], [x + 9, y - 9]),
  ],
  link: (x, y) => [
    ...leads(x, y, 12),
    ring(x - 12, y, 3),
    ring(x + 12, y, 3),
    line('lw-bold', [x - 9, y], [x + 9, y]),
  ],
  transformer: (x, y) => [
    path(`M${x - 4} ${y - 9}a4.5 4.5 0 0 1 0 9a4.5 4.5 0 0 1 0 9`),
    path(`M${x + 4} ${y - 9}a4.5 4.5 0 0 0 0 9a4.5 4.5 0 0 0 0 9`),
    line('lw-symbol', [x, y - 10], [x, y + 10]),
  ],
  battery: (x, y) => [
    ...leads(x, y, 8),
    line('lw-symbol', [x - 8, y - 9], [x - 8, y + 9]),
    line('lw-bold', [x - 3, y - 5], [x - 3, y + 5]),
    line('lw-symbol', [x + 3, y - 9], [x + 3, y + 9]),
    line('lw-bold', [x + 8, y - 5], [x + 8, y + 5]),
  ],
  speaker: (x, y) => [
    box(x - 4, y, 8, 12),
    path(`M${x} ${y - 6}L${x + 9} ${y - 11}V${y + 11}L${x} ${y + 6}Z`),
  ],
  microphone: (x, y) => [ring(x, y, 8), line('lw-bold', [x + 8, y - 8], [x + 8, y + 8])],
  antenna: (x, y) => [
    line('lw-symbol', [x, y - 10], [x, y + 10]),
    path(`M${x - 8} ${y - 10}L${x} ${y - 1}L${x + 8} ${y - 10}`),
  ],
  motor: (x, y) => [
    ...leads(x, y, 10),
    ring(x, y, 10),
    text(x, y + 4.2, 'M', { size: 'small', bold: true, anchor: 'middle' }),
  ],
  lamp: (x, y) => [
    ...leads(x, y, 10),
    ring(x, y, 10),
    line('lw-symbol', [x - 7, y - 7], [x + 7, y + 7]),
    line('lw-symbol', [x - 7, y + 7], [x + 7, y - 7]),
  ],
}
