import { UNITS_PER_MM } from './metrics.ts'
import type { Box, Item, Point } from './scene.ts'
import { svgDocument } from './svg-document.ts'
import { drawItem, drawingCss, drawingFontCss, num } from './svg-text.ts'

/** Some of what stands on a page, in units of its own. */
export interface PageLayer {
  readonly items: readonly Item[]
  /** Where its origin lies on the page, in page units. */
  readonly at: Point
  readonly scale: number
  /** Cut off outside this box of the page. */
  readonly clip?: Box
  readonly className?: string
}

/** One sheet of paper with everything in its place, before it becomes SVG or PDF. */
export interface ScenePage {
  readonly name: string
  readonly wMm: number
  readonly hMm: number
  readonly title: string
  readonly description: string
  readonly layers: readonly PageLayer[]
}

function layerSvg({ items, at, scale, clip, className }: PageLayer, index: number): string {
  const move = at[0] === 0 && at[1] === 0 ? '' : `translate(${num(at[0])} ${num(at[1])})`
  const size = scale === 1 ? '' : `scale(${Math.round(scale * 1e4) / 1e4})`
  const transform = move || size ? ` transform="${[move, size].filter((part) => part !== '').join(' ')}"` : ''
  const group = `<g${className ? ` class="${className}"` : ''}${transform}>${items.map(drawItem).join('\n')}</g>`
  if (!clip) return group
  // A nested viewport cuts off without an id, which would have to differ on every drawing of a page.
  const { x, y, w, h } = clip
  const box = `x="${num(x)}" y="${num(y)}" width="${num(w)}" height="${num(h)}"`
  return `<svg ${box} viewBox="${[x, y, w, h].map(num).join(' ')}" overflow="hidden" data-layer="${index}">${group}</svg>`
}

/** The page as an SVG document in millimetres. `embedded` makes it complete by itself; `shared` leaves font and style to its page. */
export function pageSvg(page: ScenePage, style: 'embedded' | 'shared' = 'embedded'): string {
  const [w, h] = [page.wMm * UNITS_PER_MM, page.hMm * UNITS_PER_MM]
  return svgDocument({
    width: `${page.wMm}mm`,
    height: `${page.hMm}mm`,
    viewBox: { w, h },
    title: page.title,
    description: page.description,
    css: style === 'embedded' ? drawingFontCss() + drawingCss() : '',
    body: [`<rect class="lw-sheet" width="${w}" height="${h}"/>`, ...page.layers.map(layerSvg)].join('\n'),
  })
}
