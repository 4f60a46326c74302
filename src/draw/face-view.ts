import type { FaceGeometry } from '../describe/part.ts'
import { faceMark, faceOutline, outlineExtent, type ToPaper } from './face-outline.ts'
import { facePin, type PinMark } from './face-pin.ts'
import { TEXT } from './metrics.ts'
import { type Box, type Item, line, text } from './scene.ts'
import { textWidth } from './text-width.ts'

/** Least and most width of an outline on paper: 60 mm and 130 mm. */
const LEAST_WIDTH = 240
const MOST_WIDTH = 520
const MOST_HEIGHT = 400
/** Distance of pins at which two figures fit into a disc. */
const GOOD_PITCH = 30
const LABEL_LINE = 17

type FaceMark = NonNullable<FaceGeometry['marks']>[number]

/** Everything in millimetres that has to be inside the picture. */
function extentOf(face: FaceGeometry): Box {
  const { wMm, hMm } = outlineExtent(face.outline)
  let [x0, x1, y0, y1] = [-wMm / 2, wMm / 2, -hMm / 2, hMm / 2]
  for (const { xMm, yMm, wMm: w = 2, hMm: h = w } of face.marks ?? []) {
    x0 = Math.min(x0, xMm - w / 2)
    x1 = Math.max(x1, xMm + w / 2)
    y0 = Math.min(y0, yMm - h / 2)
    y1 = Math.max(y1, yMm + h / 2)
  }
  for (const { xMm, yMm } of Object.values(face.pins)) {
    x0 = Math.min(x0, xMm)
    x1 = Math.max(x1, xMm)
    y0 = Math.min(y0, yMm)
    y1 = Math.max(y1, yMm)
  }
  return { x: x0, y: y0, w: x1 - x0, h: y1 - y0 }
}

function leastPitch(face: FaceGeometry): number {
  const pins = Object.values(face.pins)
  let least = Number.POSITIVE_INFINITY
  for (const [i, a] of pins.entries())
    for (const b of pins.slice(i + 1)) least = Math.min(least, Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm))
  return least
}

/** Units on paper for a millimetre of the connector. */
export function faceScale(face: FaceGeometry): number {
  const extent = extentOf(face)
  const pitch = leastPitch(face)
  const wanted = Math.max(
    LEAST_WIDTH / extent.w,
    Number.isFinite(pitch) && pitch > 0.05 ? GOOD_PITCH / pitch : 0,
  )
  return Math.min(wanted, MOST_WIDTH / extent.w, MOST_HEIGHT / extent.h)
}

function radiusOf(face: FaceGeometry, scale: number): number {
  const pitch = leastPitch(face) * scale
  return Math.min(16, Math.max(3, pitch * 0.4))
}

const nameOf = (mark: FaceMark) => mark.text ?? mark.kind

interface MarkLabel {
  readonly words: string
  readonly markX: number
  /** Edge of the mark on the side of its name. */
  readonly markY: number
  readonly above: boolean
  readonly x: number
  readonly row: number
}

/** Names of marks in rows above and below the outline, each in the first row where it is free. */
function placeLabels(marks: readonly FaceMark[], to: ToPaper, from: number, width: number): MarkLabel[] {
  const taken: { above: boolean; row: number; from: number; to: number }[] = []
  return marks.map((mark): MarkLabel => {
    const reach = (mark.hMm ?? mark.wMm ?? 2) / 2
    const above = mark.yMm >= 0
    const [markX, markY] = to(mark.xMm, mark.yMm + (above ? reach : -reach))
    const words = nameOf(mark)
    const w = textWidth(words, TEXT.small) + 12
    const x = Math.min(Math.max(markX, from + w / 2), from + width - w / 2)
    let row = 0
    const clash = () =>
      taken.some((t) => t.above === above && t.row === row && x - w / 2 < t.to && x + w / 2 > t.from)
    while (clash()) row += 1
    taken.push({ above, row, from: x - w / 2, to: x + w / 2 })
    return { words, markX, markY, above, x, row }
  })
}

export interface FaceViewSize {
  readonly w: number
  readonly h: number
}

const SIDE = 14

/** Room a view takes, its two title lines included. */
export function faceViewSize(face: FaceGeometry, titles: readonly string[]): FaceViewSize {
  const scale = faceScale(face)
  const extent = extentOf(face)
  const above = (face.marks ?? []).filter((mark) => mark.yMm >= 0).length
  const below = (face.marks?.length ?? 0) - above
  // Half of the free height lies above the outline, so the fuller side counts for both.
  const rows = 2 * LABEL_LINE * Math.min(3, Math.ceil(Math.max(above, below) / 2))
  const titleWidth = Math.max(
    ...titles.map((t, i) => textWidth(t, i === 0 ? TEXT.title : TEXT.small, i === 0 ? 'bold' : 'regular')),
  )
  return {
    w: Math.ceil(Math.max(extent.w * scale + 2 * SIDE, titleWidth + 12)),
    h: Math.ceil(extent.h * scale + rows + 76),
  }
}

/** One view of a face: title, outline, marks with their names, and each position where it truly is. */
export function faceView(
  face: FaceGeometry,
  titles: readonly [string, string],
  pins: ReadonlyMap<string, PinMark>,
  at: Box,
): Item[] {
  const scale = faceScale(face)
  const extent = extentOf(face)
  const middleX = at.x + at.w / 2 - (extent.x + extent.w / 2) * scale
  const middleY = at.y + 42 + (at.h - 42) / 2 + (extent.y + extent.h / 2) * scale
  const to: ToPaper = (xMm, yMm) => [middleX + xMm * scale, middleY - yMm * scale]
  const r = radiusOf(face, scale)
  const labels = placeLabels(face.marks ?? [], to, at.x, at.w)
  const top = to(0, extent.y + extent.h)[1]
  const foot = to(0, extent.y)[1]
  const items: Item[] = [
    text(at.x + at.w / 2, at.y + 16, titles[0], { size: 'title', bold: true, anchor: 'middle' }),
    text(at.x + at.w / 2, at.y + 32, titles[1], { size: 'small', anchor: 'middle' }),
    faceOutline(face.outline, to, scale),
    ...(face.marks ?? []).flatMap((mark) => faceMark(mark, to, scale)),
  ]
  for (const { words, markX, markY, above, x, row } of labels) {
    const y = above ? top - 9 - row * LABEL_LINE : foot + 19 + row * LABEL_LINE
    items.push(line('lw-thin', [markX, markY], [x, above ? y + 3 : y - 10]))
    items.push(text(x, y, words, { size: 'small', anchor: 'middle' }))
  }
  for (const [name, { xMm, yMm }] of Object.entries(face.pins)) {
    const [x, y] = to(xMm, yMm)
    const pin = pins.get(name) ?? { name, state: 'unstated', first: false, chosen: false }
    // Near the foot a name below the disc would lie on the outline.
    items.push(facePin(pin, x, y, r, y + r + 18 > foot))
  }
  return items
}
