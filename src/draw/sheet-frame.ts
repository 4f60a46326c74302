import { UNITS_PER_MM } from './metrics.ts'
import { fieldBounds, frameOf, type Paper, rowLetter } from './paper.ts'
import { type Item, line, text } from './scene.ts'

const GRID = 5 * UNITS_PER_MM

/** Frame, reference fields and centring marks of a sheet (ISO 5457). */
export function sheetFrame(paper: Paper): Item[] {
  const f = frameOf(paper)
  const right = f.x + f.w
  const foot = f.y + f.h
  const items: Item[] = [
    { kind: 'rect', className: 'lw-frame', ...f },
    {
      kind: 'rect',
      className: 'lw-thin',
      x: f.x - GRID,
      y: f.y - GRID,
      w: f.w + 2 * GRID,
      h: f.h + 2 * GRID,
    },
  ]
  const across = fieldBounds(paper.wMm, paper.columns)
  const down = fieldBounds(paper.hMm, paper.rows)
  for (const x of across.filter((at) => at > f.x + 1 && at < right - 1))
    items.push(line('lw-thin', [x, f.y - GRID], [x, f.y]), line('lw-thin', [x, foot], [x, foot + GRID]))
  for (const y of down.filter((at) => at > f.y + 1 && at < foot - 1))
    items.push(line('lw-thin', [f.x - GRID, y], [f.x, y]), line('lw-thin', [right, y], [right + GRID, y]))
  const middles = (bounds: readonly number[], low: number, high: number) =>
    bounds.slice(0, -1).map((from, i) => (Math.max(from, low) + Math.min(bounds[i + 1] ?? high, high)) / 2)
  const name = (x: number, y: number, words: string) =>
    text(x, y + 4, words, { size: 'small', anchor: 'middle' })
  for (const [i, x] of middles(across, f.x, right).entries())
    items.push(name(x, f.y - GRID / 2, String(i + 1)), name(x, foot + GRID / 2, String(i + 1)))
  for (const [i, y] of middles(down, f.y, foot).entries())
    items.push(name(f.x - GRID / 2, y, rowLetter(i)), name(right + GRID / 2, y, rowLetter(i)))
  const cx = (paper.wMm / 2) * UNITS_PER_MM
  const cy = (paper.hMm / 2) * UNITS_PER_MM
  return [
    ...items,
    line('lw-rule', [cx, f.y - GRID], [cx, f.y + GRID]),
    line('lw-rule', [cx, foot - GRID], [cx, foot + GRID]),
    line('lw-rule', [f.x - GRID, cy], [f.x + GRID, cy]),
    line('lw-rule', [right - GRID, cy], [right + GRID, cy]),
  ]
}
