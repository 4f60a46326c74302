import type { Loom } from '../../resolve/loom.ts'
import { FLAG_ROOM, flagMarks } from '../flag-mark.ts'
import { LabelRoom } from '../label-room.ts'
import type { LayoutEngine } from '../layout-engine.ts'
import { type LoomSheetOptions, titleOf } from '../loom-sheet.ts'
import { TEXT, UNITS_PER_MM } from '../metrics.ts'
import { frameOf, PAPERS, type Paper } from '../paper.ts'
import { type Box, type Item, line, text } from '../scene.ts'
import type { ScenePage } from '../scene-page.ts'
import { sheetFrame } from '../sheet-frame.ts'
import type { TitleBlock } from '../sheet-model.ts'
import { studSymbol } from '../symbols/stud-symbol.ts'
import { TWO_TERMINAL } from '../symbols/two-terminal.ts'
import { shorten, textWidth, wrapText } from '../text-width.ts'
import { BAND_HEIGHT, titleBlock } from '../title-block.ts'
import { type DiagramMark, type DiagramModel, diagramModel } from './diagram-model.ts'
import {
  LINE_HEIGHT,
  type PlacedBlock,
  type PlacedDiagram,
  type PlacedLine,
  placeDiagram,
  SYMBOL_ROOM,
  TITLE_HEIGHT,
  ZONE_HEAD,
} from './place-diagram.ts'

const PADDING = 4 * UNITS_PER_MM
/** Shrunk further, the small lettering could not be read: 2.6 mm becomes 1.9 mm. */
const LEAST_SCALE = 0.72
const TITLE_WIDTH = 180 * UNITS_PER_MM
const NOTES = [
  'Thick line: wires of a loom. Line with two edges: cable. Dashed: units joined without a loom.',
  'On each line: wire or cable numbers, then the length or the shortest and longest. Dashed frames are zones. Not to scale.',
]

const marked = (name: string, mark: DiagramMark | undefined): string =>
  mark === undefined ? name : `${name} lw-${mark}`

function blockItems({ block, x, y, w, h, title, subtitle }: PlacedBlock): Item[] {
  const items: Item[] = [{ kind: 'rect', className: 'lw-box', x, y, w, h, solid: true }]
  let at = y + 4
  for (const words of title) {
    at += TITLE_HEIGHT
    items.push(text(x + 6, at - 4, words, { bold: true, full: block.title }))
  }
  for (const words of subtitle) {
    at += LINE_HEIGHT
    items.push(text(x + 6, at - 3, words, { size: 'small', full: block.subtitle }))
  }
  items.push(...flagMarks(block.flags, x + 6 + FLAG_ROOM / 2, at + FLAG_ROOM / 2 + 2))
  const cx = x + w - SYMBOL_ROOM / 2
  if (block.symbol === 'chassis') items.push(...studSymbol('chassis', cx, y + 8))
  else if (block.symbol) items.push(...TWO_TERMINAL[block.symbol](cx, y + 20))
  return [{ kind: 'group', className: marked('lw-block', block.mark), data: { id: block.id }, items }]
}

/** The first letters of a long name say more than none: a label never leaves the room the layout gave it. */
function lineItems({ line: { id, kind, words, mark, flags }, points, label }: PlacedLine): Item[] {
  const items: Item[] =
    kind === 'mated'
      ? [line('lw-shield', ...points)]
      : kind === 'cable'
        ? [line('lw-bold lw-loom', ...points), line('lw-gap', ...points)]
        : [line('lw-bold', ...points)]
  if (label)
    for (const [i, part] of words.entries())
      items.push(
        text(
          label.x + label.w / 2,
          label.y + (i + 1) * LINE_HEIGHT - 3,
          shorten(part, label.w, TEXT.small, 'bold'),
          {
            size: 'small',
            anchor: 'middle',
            bold: i === 0,
          },
        ),
      )
  if (label && flags) {
    const left = label.x + (label.w - (flags.length - 1) * FLAG_ROOM) / 2
    items.push(...flagMarks(flags, left, label.y + words.length * LINE_HEIGHT + FLAG_ROOM / 2 + 1))
  }
  return [{ kind: 'group', className: marked('lw-line', mark), data: { id, kind }, items }]
}

const ZONE_STEP = 8

/** The name of a zone along its upper edge, where no line comes in; below it inside the frame where lines take all of it. */
function zoneName(one: PlacedDiagram['zones'][number], room: LabelRoom): Item[] {
  const { x, y, w, zone } = one
  // Beside a line that comes in through the middle there is room for half the width only.
  for (const widest of [w - 16, w / 2 - 12]) {
    const facts = shorten(zone.facts, widest, TEXT.small)
    const width = Math.max(textWidth(zone.id, TEXT.label, 'bold'), textWidth(facts, TEXT.small))
    for (let left = x + 8; left === x + 8 || left + width < x + w - 6; left += ZONE_STEP) {
      if (!room.isFree({ x: left - 2, y: y + 2, w: width + 4, h: ZONE_HEAD - 4 })) continue
      room.addBox({ x: left - 2, y: y + 2, w: width + 4, h: ZONE_HEAD - 4 })
      return [
        text(left, y + 16, zone.id, { bold: true }),
        text(left, y + 30, facts, { size: 'small', full: zone.facts }),
      ]
    }
  }
  const lines = [
    { text: zone.id, bold: true },
    { text: shorten(zone.facts, w - 16, TEXT.small), size: 'small' as const },
  ]
  return room.place({ lines, at: [x + w / 2, y + ZONE_HEAD / 2], gap: 0, toward: 0 }) ?? []
}

function zoneNames({ zones, lines, blocks }: PlacedDiagram): Item[] {
  const room = new LabelRoom()
  for (const block of blocks) room.addBox(block)
  for (const { points, label } of lines) {
    if (label) room.addBox(label)
    for (const [i, b] of points.slice(1).entries()) room.addLine(points[i] ?? b, b)
  }
  return zones.flatMap((zone) => zoneName(zone, room))
}

const zoneFrame = ({ x, y, w, h }: Box): Item => ({
  kind: 'rect',
  className: 'lw-zone',
  x,
  y,
  w,
  h,
  radius: 6,
})

function areaOf(paper: Paper): Box {
  const frame = frameOf(paper)
  return {
    x: frame.x + PADDING,
    y: frame.y + PADDING,
    w: frame.w - 2 * PADDING,
    h: frame.h - BAND_HEIGHT - 3 * PADDING,
  }
}

const scaleOn = (paper: Paper, { w, h }: PlacedDiagram): number =>
  Math.min(1, areaOf(paper).w / w, areaOf(paper).h / h)

interface OnPaper {
  readonly placed: PlacedDiagram
  readonly paper: Paper
}

/** The way that takes the smaller paper; of two that take the same, the one that is larger on it, the first where it hardly matters. */
function smallest(...ways: readonly [PlacedDiagram, PlacedDiagram]): OnPaper {
  const papers = PAPERS.slice(1)
  const onPaper = (placed: PlacedDiagram): OnPaper => ({
    placed,
    paper: papers.find((one) => scaleOn(one, placed) >= LEAST_SCALE) ?? (papers.at(-1) as Paper),
  })
  const [across, down] = [onPaper(ways[0]), onPaper(ways[1])]
  if (across.paper !== down.paper) return across.paper.wMm < down.paper.wMm ? across : down
  return scaleOn(down.paper, down.placed) > scaleOn(across.paper, across.placed) * 1.1 ? down : across
}

/** The drawn diagram before it is put on paper. */
export function diagramItems(placed: PlacedDiagram): Item[] {
  return [
    ...placed.zones.map(zoneFrame),
    ...placed.lines.flatMap(lineItems),
    ...placed.blocks.flatMap(blockItems),
    ...zoneNames(placed),
  ]
}

/**
 * The installation at a glance: equipment, fuses and ground points in their zones, with what runs between them and how long it is.
 * Undefined where nothing is installed. Deterministic.
 */
export function drawDiagram(loom: Loom, options: LoomSheetOptions = {}): Promise<ScenePage | undefined> {
  const { model, title } = diagramOf(loom, options)
  return drawDiagramModel(model, title)
}

/** What {@link drawDiagram} draws, as plain data. */
export const diagramOf = (
  loom: Loom,
  options: LoomSheetOptions = {},
): { readonly model: DiagramModel; readonly title: TitleBlock } => ({
  model: diagramModel(loom, options.flags),
  title: titleOf(loom, loom.source, 'Installation diagram', options),
})

/** A diagram as {@link drawDiagram} draws it, of a model already made. */
export async function drawDiagramModel(
  model: DiagramModel,
  block: TitleBlock,
  engine?: LayoutEngine,
): Promise<ScenePage | undefined> {
  if (model.blocks.length === 0) return undefined
  const ways = [
    await placeDiagram(model, 'RIGHT', engine),
    await placeDiagram(model, 'DOWN', engine),
  ] as const
  const { placed, paper } = smallest(...ways)
  const scale = scaleOn(paper, placed)
  const area = areaOf(paper)
  const frame = frameOf(paper)
  const notes = NOTES.flatMap((note) => wrapText(note, frame.w - TITLE_WIDTH - 24, TEXT.small))
  const top = frame.y + frame.h - BAND_HEIGHT
  return {
    name: 'diagram',
    wMm: paper.wMm,
    hMm: paper.hMm,
    title: `${block.documentType}: ${block.title}`,
    description: `${model.blocks.length} blocks in ${model.zones.length} zones, ${model.lines.length} lines between them.`,
    layers: [
      {
        items: [
          ...sheetFrame(paper),
          ...titleBlock(frame, block, 1, 1),
          ...notes.map((words, i) => text(frame.x + 12, top + 12 + i * 14, words, { size: 'small' })),
        ],
        at: [0, 0],
        scale: 1,
        className: 'lw-furniture',
      },
      {
        items: diagramItems(placed),
        at: [
          Math.round(area.x + (area.w - placed.w * scale) / 2),
          Math.round(area.y + (area.h - placed.h * scale) / 3),
        ],
        scale,
        className: 'lw-drawing',
      },
    ],
  }
}
