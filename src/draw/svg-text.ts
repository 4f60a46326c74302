import { COLOURS, type ColourCode, parseColour } from '../base/colour.ts'
import { escapeAttribute, escapeSvgText } from '../base/escape.ts'
import { FONT_400, FONT_700 } from './font/font-data.ts'
import { TEXT } from './metrics.ts'
import type { GroupItem, Item, Point, TextItem, WireItem } from './scene.ts'
import { hasExactWidth, textWidth } from './text-width.ts'

/** Two decimals are 2.5 µm on paper; more would only make the file longer. */
export const num = (value: number): string => String(Math.round(value * 100) / 100 + 0)

const FAMILY = `'Loomwright Sans'`

/** The `@font-face` rules. A page that shows many drawings states them once and leaves them out of the drawings. */
export function drawingFontCss(): string {
  const face = (weight: number, data: string) =>
    `@font-face{font-family:${FAMILY};font-weight:${weight};src:url(data:font/woff2;base64,${data}) format("woff2")}`
  return face(400, FONT_400) + face(700, FONT_700)
}

/** Rules every drawing needs; all are kept to drawings by their class. */
export function drawingCss(): string {
  return [
    `.lw{background:#fff}`,
    `.lw text{font-family:${FAMILY},Arial,Helvetica,sans-serif;font-size:${TEXT.label}px;font-kerning:none;font-variant-ligatures:none;fill:#000;white-space:pre}`,
    `.lw .lw-small{font-size:${TEXT.small}px}.lw .lw-title{font-size:${TEXT.title}px}.lw .lw-strong{font-weight:700}`,
    `.lw .lw-caption{font-size:${TEXT.caption}px}.lw .lw-inverse{fill:#fff}.lw-sheet{fill:#fff}`,
    '.lw-frame{fill:none;stroke:#000;stroke-width:2.8}',
    '.lw-box{fill:#fff;stroke:#000;stroke-width:1.8}.lw-rule{fill:none;stroke:#000;stroke-width:1.2}.lw-thin{fill:none;stroke:#777;stroke-width:.7}',
    '.lw-symbol{fill:none;stroke:#000;stroke-width:1.4;stroke-linejoin:round}.lw-bold{fill:none;stroke:#000;stroke-width:2.6}',
    '.lw-paper{fill:#fff;stroke:#000;stroke-width:1.4}.lw-ink{fill:#000;stroke:#000;stroke-width:1}.lw-dot{fill:#000}.lw-clear{fill:none}.lw-blank{fill:#fff}.lw-chosen{fill:none;stroke:#000;stroke-width:2.8}',
    '.lw-dash{fill:none;stroke:#000;stroke-width:1;stroke-dasharray:4 3}',
    '.lw-shield{fill:none;stroke:#000;stroke-width:1.3;stroke-dasharray:5 3.5}.lw-jacket{fill:none;stroke:#000;stroke-width:1}',
    '.lw-halo{fill:none;stroke:#fff;stroke-width:6}.lw-edge{fill:none;stroke:#000;stroke-width:3}.lw-core{fill:none;stroke-width:1.8}',
    '.lw-loom{stroke-width:5;stroke-linecap:round}.lw-gap{fill:none;stroke:#fff;stroke-width:2}.lw-zone{fill:none;stroke:#000;stroke-width:1;stroke-dasharray:10 4}',
    '.lw-drain{fill:none;stroke:#000;stroke-width:1.4;stroke-dasharray:6 2}',
  ].join('')
}

const d = (points: readonly Point[]) =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${num(x)} ${num(y)}`).join('')

function drawText(item: TextItem): string {
  if (item.text === '') return ''
  const weight = item.bold ? 'bold' : 'regular'
  const size = TEXT[item.size]
  const classes = [
    item.size === 'label' ? '' : `lw-${item.size}`,
    item.bold ? 'lw-strong' : '',
    item.className ?? '',
  ].filter((name) => name !== '')
  const cls = classes.length > 0 ? ` class="${classes.join(' ')}"` : ''
  const anchor = item.anchor ? ` text-anchor="${item.anchor}"` : ''
  // Keeps the line as long as it was measured, whatever font the reader's system falls back to.
  const length = hasExactWidth(item.text, weight)
    ? ` textLength="${num(textWidth(item.text, size, weight))}" lengthAdjust="spacingAndGlyphs"`
    : ''
  const full = item.full !== undefined && item.full !== item.text && item.text.endsWith('…')
  const title = full ? `<title>${escapeSvgText(item.full ?? '')}</title>` : ''
  return `<text x="${num(item.x)}" y="${num(item.y)}"${cls}${anchor}${length}>${title}${escapeSvgText(item.text)}</text>`
}

/** Screen colours of a conductor: ground colour, then tracer. Grey where the code is unknown. */
function paints(colour: string | undefined): string[] {
  const read = colour === undefined ? undefined : parseColour(colour)
  if (!read?.ok) return ['#b8b8b8']
  return read.value.codes.map((code: ColourCode) => COLOURS[code].hex)
}

function drawWire(item: WireItem): string {
  const path = d(item.points) + (item.path ?? '')
  const halo = `<path class="lw-halo" d="${path}"/>`
  if (item.shield) return `${halo}<path class="lw-drain" d="${path}"/>`
  const [ground, tracer] = paints(item.colour)
  const stripe = tracer ? `<path class="lw-core" stroke="${tracer}" stroke-dasharray="7 7" d="${path}"/>` : ''
  return `${halo}<path class="lw-edge" d="${path}"/><path class="lw-core" stroke="${ground}" d="${path}"/>${stripe}`
}

function drawGroup(item: GroupItem): string {
  const data = Object.entries(item.data ?? {})
    .filter((entry): entry is [string, string] => entry[1] !== undefined)
    .map(([name, value]) => ` data-${name}="${escapeAttribute(value)}"`)
    .join('')
  const cls = item.className ? ` class="${item.className}"` : ''
  const title = item.title ? `<title>${escapeSvgText(item.title)}</title>` : ''
  return `<g${cls}${data}>${title}${item.items.map(drawItem).join('')}</g>`
}

/** SVG of one item. All text that people typed is escaped here. */
export function drawItem(item: Item): string {
  switch (item.kind) {
    case 'text':
      return drawText(item)
    case 'wire':
      return drawWire(item)
    case 'line':
      return `<path class="${item.className}" d="${d(item.points)}"/>`
    case 'path':
      return `<path class="${item.className}" d="${item.d.replace(/-?\d+\.\d{3,}/g, (n) => num(Number(n)))}"/>`
    case 'rect': {
      const radius = item.radius ? ` rx="${num(item.radius)}"` : ''
      return `<rect class="${item.className}" x="${num(item.x)}" y="${num(item.y)}" width="${num(item.w)}" height="${num(item.h)}"${radius}/>`
    }
    case 'group':
      return drawGroup(item)
  }
}
