import type { FaceScene } from './face.ts'
import { UNITS_PER_MM } from './metrics.ts'
import { PAPERS } from './paper.ts'
import { type Box, text } from './scene.ts'
import type { PageLayer, ScenePage } from './scene-page.ts'

const MARGIN = 12 * UNITS_PER_MM
const GAP = 6 * UNITS_PER_MM
const FOOT = 8 * UNITS_PER_MM

interface Placed {
  readonly scene: FaceScene
  readonly at: readonly [number, number]
  readonly scale: number
}

/** Left to right and row by row, in their order; only what is wider or taller than the page is made smaller. */
function inRows(scenes: readonly FaceScene[], area: Box): Placed[][] {
  const pages: Placed[][] = []
  let page: Placed[] = []
  let [x, y, row] = [area.x, area.y, 0]
  for (const scene of scenes) {
    const scale = Math.min(1, area.w / scene.w, area.h / scene.h)
    const [w, h] = [scene.w * scale, scene.h * scale]
    if (x > area.x && x + w > area.x + area.w) [x, y, row] = [area.x, y + row + GAP, 0]
    if (page.length > 0 && y + h > area.y + area.h) {
      pages.push(page)
      page = []
      ;[x, y, row] = [area.x, area.y, 0]
    }
    page.push({ scene, at: [x, y], scale })
    x += w + GAP
    row = Math.max(row, h)
  }
  return page.length > 0 ? [...pages, page] : pages
}

/** Faces on A4 sheets lying down, each sheet with what it is of and its number. None without faces. */
export function facePages(scenes: readonly FaceScene[], title: string, issue: string): ScenePage[] {
  const [paper] = PAPERS
  if (!paper) return []
  const [w, h] = [paper.wMm * UNITS_PER_MM, paper.hMm * UNITS_PER_MM]
  const area: Box = { x: MARGIN, y: MARGIN, w: w - 2 * MARGIN, h: h - 2 * MARGIN - FOOT }
  const pages = inRows(scenes, area)
  return pages.map((placed, i) => {
    const foot: PageLayer = {
      items: [
        text(MARGIN, h - MARGIN, title, { bold: true }),
        text(w - MARGIN, h - MARGIN, `${issue}   sheet ${i + 1} of ${pages.length}`, { anchor: 'end' }),
      ],
      at: [0, 0],
      scale: 1,
    }
    return {
      name: `sheet ${i + 1}`,
      wMm: paper.wMm,
      hMm: paper.hMm,
      title: `Connector faces: ${title}`,
      description: placed.map(({ scene }) => scene.name).join('; '),
      layers: [foot, ...placed.map(({ scene, at, scale }) => ({ items: scene.items, at, scale }))],
    }
  })
}
