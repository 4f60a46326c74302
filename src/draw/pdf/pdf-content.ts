import { COLOURS, parseColour } from '../../base/colour.ts'
import { TEXT } from '../metrics.ts'
import { type Box, type Item, type Point, type TextItem, textBox, type WireItem } from '../scene.ts'
import type { ScenePage } from '../scene-page.ts'
import { textWidth, type Weight } from '../text-width.ts'
import type { PdfFont } from './pdf-font.ts'
import { pdfPath } from './pdf-path.ts'
import { colourShares, type Paint, paintFor } from './pdf-style.ts'

export interface Inks {
  readonly paints: ReadonlyMap<string, Paint>
  readonly fonts: Readonly<Record<Weight, PdfFont>>
}

const n = (value: number): string => String(Math.round(value * 1000) / 1000 + 0)

/** A path painted as its style says; nothing where it is neither filled nor drawn. */
function painted(path: readonly string[], paint: Paint): string[] {
  const fill = colourShares(paint.fill)
  const stroke = colourShares(paint.stroke)
  if (path.length === 0 || (!fill && !stroke)) return []
  const state = [
    ...(fill ? [`${fill.map(n).join(' ')} rg`] : []),
    ...(stroke
      ? [
          `${stroke.map(n).join(' ')} RG ${n(paint.width ?? 1)} w [${(paint.dash ?? []).map(n).join(' ')}] 0 d ${paint.round ? 1 : 0} J`,
        ]
      : []),
  ]
  return [...state, ...path, fill && stroke ? 'B' : fill ? 'f' : 'S']
}

const polyline = (points: readonly Point[]): string[] =>
  points.map(([x, y], i) => `${n(x)} ${n(y)} ${i === 0 ? 'm' : 'l'}`)

const hex4 = (glyph: number): string => glyph.toString(16).padStart(4, '0')

/** Glyphs of a line; a character the font lacks becomes a box as wide as it was measured. */
function glyphString(words: string, font: PdfFont, weight: Weight): string {
  let out = ''
  let run = ''
  for (const char of words) {
    const glyph = font.glyphs.get(char)
    if (glyph !== undefined) run += hex4(glyph)
    else {
      const room = textWidth(char, 1000, weight)
      if (room === 0) continue
      out += `<${run}0000>${n(600 - room)}`
      run = ''
    }
  }
  return `[${out}<${run}>]`
}

function textOps(item: TextItem, { paints, fonts }: Inks): string[] {
  if (item.text === '') return []
  const weight = item.bold ? 'bold' : 'regular'
  const { x } = textBox(item)
  const fill = colourShares(item.className ? paintFor(paints, item.className).fill : '#000') ?? [0, 0, 0]
  const tm = `1 0 0 -1 ${n(x)} ${n(item.y)} Tm`
  return [
    `${fill.map(n).join(' ')} rg BT /${weight === 'bold' ? 'FB' : 'FR'} ${n(TEXT[item.size])} Tf ${tm} ${glyphString(item.text, fonts[weight], weight)} TJ ET`,
  ]
}

function wireOps(item: WireItem, { paints }: Inks): string[] {
  const path = [...polyline(item.points), ...(item.path ? followOn(item) : [])]
  const layer = (classes: string, over: Paint = {}) =>
    painted(path, paintFor(paints, classes, { fill: 'none', ...over }))
  if (item.shield) return [...layer('lw-halo'), ...layer('lw-drain')]
  const read = item.colour === undefined ? undefined : parseColour(item.colour)
  const [ground, tracer] = read?.ok ? read.value.codes.map((code) => COLOURS[code].hex) : ['#b8b8b8']
  return [
    ...layer('lw-halo'),
    ...layer('lw-edge'),
    ...layer('lw-core', { stroke: ground ?? '#b8b8b8' }),
    ...(tracer ? layer('lw-core', { stroke: tracer, dash: [7, 7] }) : []),
  ]
}

/** The rest of a wire's outline, which goes on from its last point. */
function followOn({ points, path = '' }: WireItem): string[] {
  const [x, y] = points.at(-1) ?? [0, 0]
  return pdfPath(`M${x} ${y}${path}`).slice(1)
}

function rectPath({ x, y, w, h, radius = 0 }: Box & { readonly radius?: number }): string[] {
  if (radius === 0) return [`${n(x)} ${n(y)} ${n(w)} ${n(h)} re`]
  const r = Math.min(radius, w / 2, h / 2)
  const [right, foot] = [x + w, y + h]
  return pdfPath(
    `M${x + r} ${y}H${right - r}A${r} ${r} 0 0 1 ${right} ${y + r}V${foot - r}A${r} ${r} 0 0 1 ${right - r} ${foot}H${x + r}A${r} ${r} 0 0 1 ${x} ${foot - r}V${y + r}A${r} ${r} 0 0 1 ${x + r} ${y}Z`,
  )
}

/** PDF operators of one item, in the units of the drawing. */
export function itemOps(item: Item, inks: Inks): string[] {
  switch (item.kind) {
    case 'text':
      return textOps(item, inks)
    case 'wire':
      return wireOps(item, inks)
    case 'line':
      return painted(polyline(item.points), paintFor(inks.paints, item.className))
    case 'path':
      return painted(pdfPath(item.d), paintFor(inks.paints, item.className))
    case 'rect':
      return painted(rectPath(item), paintFor(inks.paints, item.className))
    case 'group':
      return item.items.flatMap((inner) => itemOps(inner, inks))
  }
}

/** Everything on a page, in its units, y downwards. */
export function pageOps(page: ScenePage, inks: Inks): string[] {
  return page.layers.flatMap(({ items, at, scale, clip }) => [
    'q',
    ...(clip ? [`${n(clip.x)} ${n(clip.y)} ${n(clip.w)} ${n(clip.h)} re W n`] : []),
    `${n(scale)} 0 0 ${n(scale)} ${n(at[0])} ${n(at[1])} cm`,
    ...items.flatMap((item) => itemOps(item, inks)),
    'Q',
  ])
}
