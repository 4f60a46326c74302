import { registerWindow, SVG, type Svg } from '@svgdotjs/svg.js'
import { createSVGWindow } from 'svgdom'

export interface SvgPage {
  /** Size on paper, or in CSS pixels. */
  readonly width: string
  readonly height: string
  readonly viewBox: { readonly w: number; readonly h: number }
  /** Read out by screen readers and shown by file viewers. */
  readonly title: string
  readonly description: string
  readonly css: string
  /** SVG markup of the content, already escaped. */
  readonly body: string
}

/** Text without control characters, half characters and direction marks, most of which XML forbids even escaped. */
const printable = (text: string): string => text.replace(/\p{C}/gu, ' ')

/**
 * Builds the finished document. The content passes through a real document tree, so that markup that is not well formed
 * stops here and never reaches a reader.
 * @throws Error when `body` is not well-formed XML.
 */
export function svgDocument(page: SvgPage): string {
  const window = createSVGWindow()
  registerWindow(window, window.document)
  const root = SVG(window.document.documentElement) as Svg
  root.addClass('lw').size(page.width, page.height).viewbox(0, 0, page.viewBox.w, page.viewBox.h)
  const name = printable(page.title)
  root.attr({ role: 'img', 'aria-label': name })
  root.element('title').words(name)
  root.element('desc').words(printable(page.description))
  if (page.css !== '') root.element('style').words(page.css)
  root.svg(page.body)
  return `${root.svg()}\n`
}
