import { type ArrangedSheet, type Arrangement, keptGroups, keptSheet } from './arrangement.ts'
import type { PlacedGraph } from './layout.ts'
import type { LayoutEngine } from './layout-engine.ts'
import { LEAST_SCALE, UNITS_PER_MM } from './metrics.ts'
import { frameOf, PAPERS, type Paper, type PaperName, zoneAt } from './paper.ts'
import { type ArrangedGraph, placePart } from './place-part.ts'
import type { Box, Item } from './scene.ts'
import { sheetFrame } from './sheet-frame.ts'
import { sheetKey } from './sheet-key.ts'
import type { SheetModel } from './sheet-model.ts'
import { makeParts, type SheetPart } from './sheet-parts.ts'
import { splitConductors } from './split-sheets.ts'
import { BAND_HEIGHT, titleBlock } from './title-block.ts'
import { wiringItems } from './wiring-items.ts'

export interface WiringOptions {
  /** Sheet to draw on; the smaller of A4 and A3 on which all can be read when left out. */
  readonly paper?: 'A4' | 'A3'
  /** Most conductors on one sheet. */
  readonly limit?: number
  /** How the drawing was arranged before: sheets, columns and order are kept where the description still has them. */
  readonly keep?: Arrangement
  /** Lays graphs out; anew when left out. */
  readonly engine?: LayoutEngine
}

/** Conductors a reader can still follow on one sheet. */
export const CONDUCTORS_PER_SHEET = 45

/** A sheet with everything in its place, before it becomes SVG. */
export interface PlannedSheet {
  readonly name: string
  readonly paper: Paper
  readonly conductors: number
  /** Blocks and conductors, in units of their own. */
  readonly drawing: { readonly items: readonly Item[]; readonly w: number; readonly h: number }
  /** Where the drawing lies on the paper. */
  readonly scale: number
  readonly at: readonly [number, number]
  /** Frame, title block and key, in units of the paper. */
  readonly furniture: readonly Item[]
  /** To be kept for the next time. */
  readonly arranged: ArrangedSheet
}

const PADDING = 3 * UNITS_PER_MM

/** The room a sheet has for the drawing: inside the frame, above the title block. */
function drawingArea(paper: Paper): Box {
  const frame = frameOf(paper)
  return {
    x: frame.x + PADDING,
    y: frame.y + PADDING,
    w: frame.w - 2 * PADDING,
    h: frame.h - BAND_HEIGHT - 3 * PADDING,
  }
}

const fitOn = (paper: Paper, placed: PlacedGraph): number => {
  const area = drawingArea(paper)
  return Math.min(area.w / Math.max(1, placed.width), area.h / Math.max(1, placed.height))
}

const paperNamed = (name: PaperName): Paper =>
  PAPERS.find((paper) => paper.name === name) ?? (PAPERS[0] as Paper)

interface PlacedPart extends ArrangedGraph {
  readonly part: SheetPart
}

/** Splits until each sheet can be read on A3, or cannot be split further. */
async function placeAll(
  model: SheetModel,
  limit: number,
  target: Paper,
  { keep = [], engine }: Pick<WiringOptions, 'keep' | 'engine'>,
): Promise<PlacedPart[]> {
  const kept = keptGroups(model, keep)
  let groups = kept.length > 0 ? kept : splitConductors(model, limit)
  let known = new Map<string, ArrangedGraph>()
  const { w, h } = drawingArea(target)
  for (;;) {
    const placed: PlacedPart[] = []
    const next = new Map<string, ArrangedGraph>()
    for (const part of makeParts(model, groups)) {
      const key = JSON.stringify([
        part.model.blocks,
        part.model.conductors.map((c) => c.id),
        [...part.elsewhere],
      ])
      const graph = known.get(key) ?? (await placePart(part, { w, h }, keptSheet(part.model, keep), engine))
      next.set(key, graph)
      placed.push({ part, ...graph })
    }
    known = next
    const split = groups.flatMap((group, s) => {
      const graph = placed[s]?.placed
      if (!graph || group.length < 8 || fitOn(target, graph) >= LEAST_SCALE) return [group]
      return splitGroup(model, group)
    })
    if (split.length === groups.length) return placed
    groups = split
  }
}

/** Two or more smaller groups, or the same one where nothing can be parted. */
function splitGroup(model: SheetModel, group: readonly number[]): number[][] {
  const conductors = group.flatMap((i) => model.conductors[i] ?? [])
  const smaller = splitConductors({ ...model, conductors }, Math.ceil(group.length / 2) + 1)
  return smaller.map((part) => part.flatMap((i) => group[i] ?? []))
}

/** The common size of all sheets, and a larger one for a sheet that cannot be split and cannot be read on it. */
function choosePapers(parts: readonly PlacedPart[], wished: PaperName | undefined): Paper[] {
  const [a4, a3] = PAPERS as [Paper, Paper, ...Paper[]]
  const small = parts.every(({ placed }) => fitOn(a4, placed) >= (wished === 'A4' ? LEAST_SCALE : 0.9))
  const common = small && wished !== 'A3' ? a4 : a3
  const larger = PAPERS.slice(PAPERS.indexOf(common))
  return parts.map(
    ({ placed }) => larger.find((paper) => fitOn(paper, placed) >= LEAST_SCALE) ?? (PAPERS.at(-1) as Paper),
  )
}

interface Spot {
  readonly paper: Paper
  readonly scale: number
  readonly at: readonly [number, number]
}

/** Centres a drawing on its sheet, a little above the middle. */
function spotOn(paper: Paper, placed: PlacedGraph): Spot {
  const area = drawingArea(paper)
  const scale = Math.min(1, fitOn(paper, placed))
  const x = area.x + Math.max(0, (area.w - placed.width * scale) / 2)
  const y = area.y + Math.max(0, (area.h - placed.height * scale) / 3)
  return { paper, scale, at: [Math.round(x), Math.round(y)] }
}

function furnish(model: SheetModel, part: SheetPart, paper: Paper, sheet: number, sheets: number): Item[] {
  const frame = frameOf(paper)
  return [
    ...sheetFrame(paper),
    ...titleBlock(frame, model.titleBlock, sheet, sheets),
    ...sheetKey(frame, model.titleBlock, part.model.conductors, model.notes ?? []),
  ]
}

/** Everything of a wiring drawing in its place. Deterministic; throws only when the layout library fails. */
export async function planWiring(model: SheetModel, options: WiringOptions = {}): Promise<PlannedSheet[]> {
  const limit = Math.max(4, options.limit ?? CONDUCTORS_PER_SHEET)
  const parts = await placeAll(model, limit, paperNamed(options.paper ?? 'A3'), options)
  const papers = choosePapers(parts, options.paper)
  const spots = parts.map(({ placed }, s) => spotOn(papers[s] ?? paperNamed('A3'), placed))
  const find = (sheet: number, block: string): string => {
    const node = parts[sheet - 1]?.placed.nodes.find((one) => one.block?.id === block)
    const spot = spots[sheet - 1]
    if (!node || !spot) return `sheet ${sheet}`
    const x = spot.at[0] + (node.x + node.shape.width / 2) * spot.scale
    const y = spot.at[1] + (node.y + Math.min(node.shape.height / 2, 40)) * spot.scale
    return `sheet ${sheet} · ${zoneAt(spot.paper, x, y)}`
  }
  return parts.map(({ part, placed, arranged }, s) => {
    const { paper, scale, at } = spots[s] ?? spotOn(paperNamed('A3'), placed)
    return {
      name: String(s + 1),
      paper,
      conductors: part.model.conductors.length,
      drawing: { items: wiringItems(placed, find), w: placed.width, h: placed.height },
      scale,
      at,
      furniture: furnish(model, part, paper, s + 1, parts.length),
      arranged,
    }
  })
}
