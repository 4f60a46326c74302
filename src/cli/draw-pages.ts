import type { Finding } from '../base/finding.ts'
import { facePages } from '../draw/face-pages.ts'
import type { TilePaper } from '../draw/formboard/board-tiles.ts'
import { drawFormboard } from '../draw/formboard/draw-formboard.ts'
import { drawDiagram } from '../draw/installation-diagram/draw-diagram.ts'
import { harnessSheet, loomSheet } from '../draw/loom-sheet.ts'
import { pdfDocument } from '../draw/pdf/pdf-document.ts'
import { planWiring } from '../draw/plan-wiring.ts'
import { pageSvg, type ScenePage } from '../draw/scene-page.ts'
import { wiringPage } from '../draw/wiring-page.ts'
import { matchCodeOf } from '../sheets/match-code.ts'
import { pdfTools } from '../write/pdf-tools.ts'
import { drawingFlags, faceScenes } from './draw-looms.ts'
import type { DrawTarget } from './draw-targets.ts'
import { drawingName, type KeptArrangements } from './kept-arrangements.ts'

/** What is drawn of a harness or an installation as whole sheets. */
export type PageKind = 'wiring' | 'formboard' | 'diagram' | 'face'

/** Sheets of one target; none where that kind of drawing does not exist for it. */
export async function targetPages(
  { loom, use, kind }: DrawTarget,
  what: PageKind,
  findings: readonly Finding[],
  paper: TilePaper,
  kept?: KeptArrangements,
): Promise<readonly ScenePage[]> {
  const matchCode = matchCodeOf(loom, use)
  const options = { matchCode, flags: drawingFlags(loom, use, findings) }
  if (what === 'face') return facePages(faceScenes(loom, use), (use?.harness ?? loom.source).title, matchCode)
  if (what === 'diagram') {
    const page = kind === 'installation' ? await drawDiagram(loom, options) : undefined
    return page ? [page] : []
  }
  if (what === 'formboard') {
    if (!use) return []
    const { overview, tiles } = drawFormboard(loom, use, { ...options, paper })
    return [...(overview ? [overview] : []), ...tiles]
  }
  const model = use ? harnessSheet(loom, use, options) : loomSheet(loom, options)
  const name = drawingName(loom, use)
  const planned = await planWiring(model, { keep: kept?.before(name) ?? [] })
  kept?.note(
    name,
    planned.map(({ arranged }) => arranged),
  )
  return planned.map((sheet) => wiringPage(sheet, planned.length, model))
}

/** Sheets as pictures by name, or as one PDF under the name of all. */
export function pageFiles(
  name: string,
  pages: readonly ScenePage[],
  pdf: boolean,
): ReadonlyMap<string, string | Uint8Array> {
  const [first] = pages
  if (!first) return new Map()
  if (pdf) return new Map([[name, pdfDocument(first.title, pages, pdfTools)]])
  return new Map(pages.map((page) => [`${name} ${page.name}`, pageSvg(page)]))
}
