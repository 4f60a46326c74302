import type { FaceGeometry } from '../describe/part.ts'
import { type Item, line, type Point } from './scene.ts'

type Outline = FaceGeometry['outline']
type FaceMark = NonNullable<FaceGeometry['marks']>[number]

/** From millimetres with y up to units with y down. */
export type ToPaper = (xMm: number, yMm: number) => Point

/** Half width and half height in millimetres. */
export function outlineExtent(outline: Outline): { wMm: number; hMm: number } {
  switch (outline.shape) {
    case 'circle':
      return { wMm: outline.dMm, hMm: outline.dMm }
    case 'jack':
      return { wMm: outline.lengthMm, hMm: outline.dMm }
    case 'polygon': {
      const xs = outline.points.map(([x]) => Math.abs(x))
      const ys = outline.points.map(([, y]) => Math.abs(y))
      return { wMm: 2 * Math.max(...xs), hMm: 2 * Math.max(...ys) }
    }
    default:
      return { wMm: outline.wMm, hMm: outline.hMm }
  }
}

/** A D-shaped shell: sides lean in by 10 degrees, the wide side up. */
function dPath(wMm: number, hMm: number, to: ToPaper, scale: number): string {
  const lean = Math.tan((10 * Math.PI) / 180) * hMm
  const corners: Point[] = [
    to(-wMm / 2, hMm / 2),
    to(wMm / 2, hMm / 2),
    to(wMm / 2 - lean, -hMm / 2),
    to(-wMm / 2 + lean, -hMm / 2),
  ]
  return rounded(corners, Math.min(2.5, hMm / 4) * scale)
}

/** A closed outline with its corners rounded off. */
function rounded(corners: readonly Point[], r: number): string {
  const towards = (from: Point, to: Point): Point => {
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1
    const k = Math.min(r, length / 2) / length
    return [from[0] + (to[0] - from[0]) * k, from[1] + (to[1] - from[1]) * k]
  }
  const pieces = corners.map((corner, i) => {
    const before = corners[(i + corners.length - 1) % corners.length] ?? corner
    const after = corners[(i + 1) % corners.length] ?? corner
    const a = towards(corner, before)
    const b = towards(corner, after)
    return `${i === 0 ? 'M' : 'L'}${a[0]} ${a[1]}Q${corner[0]} ${corner[1]} ${b[0]} ${b[1]}`
  })
  return `${pieces.join('')}Z`
}

/** The shell or housing as it is seen. */
export function faceOutline(outline: Outline, to: ToPaper, scale: number): Item {
  const className = 'lw-box'
  switch (outline.shape) {
    case 'circle': {
      const [x, y] = to(0, 0)
      const r = (outline.dMm / 2) * scale
      return {
        kind: 'path',
        className,
        d: `M${x - r} ${y}a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1 ${-2 * r} 0Z`,
      }
    }
    case 'd':
      return { kind: 'path', className, d: dPath(outline.wMm, outline.hMm, to, scale) }
    case 'polygon':
      return {
        kind: 'path',
        className,
        d: `${outline.points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${to(x, y).join(' ')}`).join('')}Z`,
      }
    case 'jack':
    case 'rect': {
      const { wMm, hMm } = outlineExtent(outline)
      const [x, y] = to(-wMm / 2, hMm / 2)
      const radius = outline.shape === 'rect' && outline.rMm ? { radius: outline.rMm * scale } : {}
      return { kind: 'rect', className, x, y, w: wMm * scale, h: hMm * scale, ...radius }
    }
  }
}

/** A key, latch, notch, screw, tongue or flat in its true place. */
export function faceMark(mark: FaceMark, to: ToPaper, scale: number): Item[] {
  const [x, y] = to(mark.xMm, mark.yMm)
  const w = (mark.wMm ?? 2) * scale
  const h = (mark.hMm ?? mark.wMm ?? 2) * scale
  const box = { x: x - w / 2, y: y - h / 2, w, h }
  if (mark.kind === 'screw') {
    const r = Math.max(w, h) / 2
    return [
      {
        kind: 'path',
        className: 'lw-paper',
        d: `M${x - r} ${y}a${r} ${r} 0 1 1 ${2 * r} 0a${r} ${r} 0 1 1 ${-2 * r} 0Z`,
      },
      line('lw-symbol', [x - r * 0.7, y + r * 0.7], [x + r * 0.7, y - r * 0.7]),
    ]
  }
  if (mark.kind === 'notch') return [{ kind: 'rect', className: 'lw-paper', ...box }]
  const hatch: Item[] = []
  for (let off = 4; off < w + h; off += 5) {
    const a: Point = [box.x + Math.min(off, w), box.y + Math.max(0, off - w)]
    const b: Point = [box.x + Math.max(0, off - h), box.y + Math.min(off, h)]
    hatch.push(line('lw-thin', a, b))
  }
  return [{ kind: 'rect', className: 'lw-paper', ...box }, ...hatch]
}
