import { COLOUR_CODES, type ColourCode, colourLabel, parseColour } from '../base/colour.ts'
import { TEXT, UNITS_PER_MM } from './metrics.ts'
import { type Box, type Item, line, text } from './scene.ts'
import type { Conductor, TitleBlock } from './sheet-model.ts'
import { textWidth, wrapText } from './text-width.ts'
import { BAND_HEIGHT } from './title-block.ts'

const LINE = 14
const TITLE_WIDTH = 180 * UNITS_PER_MM
const REVISIONS_WIDTH = 104 * UNITS_PER_MM

/** Codes used on a sheet in the order of IEC 60757, and whether any conductor has a tracer. */
function coloursOn(conductors: readonly Conductor[]): { codes: ColourCode[]; tracers: boolean } {
  const used = new Set<ColourCode>()
  let tracers = false
  for (const { colour } of conductors) {
    const read = colour === undefined ? undefined : parseColour(colour)
    if (!read?.ok) continue
    for (const code of read.value.codes) used.add(code)
    if (read.value.codes.length > 1) tracers = true
  }
  return { codes: COLOUR_CODES.filter((code) => used.has(code)), tracers }
}

function drawColours(
  codes: readonly ColourCode[],
  x: number,
  top: number,
  width: number,
): { items: Item[]; lines: number } {
  const cell = Math.max(0, ...codes.map((code) => textWidth(colourLabel(code), TEXT.small))) + 42
  const perLine = Math.max(1, Math.floor(width / cell))
  const items = codes.flatMap((code, i): Item[] => {
    const cx = x + (i % perLine) * cell
    const cy = top + Math.floor(i / perLine) * LINE
    return [
      {
        kind: 'wire',
        points: [
          [cx, cy + 6],
          [cx + 24, cy + 6],
        ],
        colour: code,
      },
      text(cx + 29, cy + 10, colourLabel(code), { size: 'small' }),
    ]
  })
  return { items, lines: Math.ceil(codes.length / perLine) }
}

/** The latest revisions that fit, oldest first; what changed may take two lines. */
function drawRevisions(revisions: NonNullable<TitleBlock['revisions']>, x: number, top: number): Item[] {
  const widths = [36, 80, 80, REVISIONS_WIDTH - 196]
  const lineHeight = 13
  const cells = (texts: readonly string[], weight: 'bold' | 'regular') =>
    texts.map((value, i) => wrapText(value, (widths[i] ?? 0) - 8, TEXT.small, i === 3 ? 2 : 1, weight))
  const heightOf = (row: readonly string[][]) =>
    lineHeight * Math.max(...row.map((lines) => lines.length)) + 4
  const head = cells(['Rev.', 'Date', 'By', 'What changed and why'], 'bold')
  let free = BAND_HEIGHT - heightOf(head)
  const rows: { lines: string[][]; full: string[] }[] = []
  for (const { revision, date, by, what } of [...revisions].reverse()) {
    const full = [revision, date, by, what]
    const lines = cells(full, 'regular')
    free -= heightOf(lines)
    if (free < 0) break
    rows.unshift({ lines, full })
  }
  const items: Item[] = []
  let y = top
  for (const [r, { lines, full }] of [{ lines: head, full: [''] }, ...rows].entries()) {
    if (r > 0) items.push(line('lw-thin', [x, y], [x + REVISIONS_WIDTH, y]))
    let cx = x
    for (const [i, cell] of lines.entries()) {
      for (const [k, words] of cell.entries())
        items.push(
          text(cx + 4, y + 12 + k * lineHeight, words, { size: 'small', bold: r === 0, full: full[i] ?? '' }),
        )
      cx += widths[i] ?? 0
    }
    y += heightOf(lines)
  }
  items.push({ kind: 'rect', className: 'lw-rule', x, y: top, w: REVISIONS_WIDTH, h: y - top })
  return items
}

/** What a reader needs to know beside the drawing: view, notes, colours, and the revisions where there is room. */
export function sheetKey(
  frame: Box,
  block: TitleBlock,
  conductors: readonly Conductor[],
  notes: readonly string[],
): Item[] {
  const top = frame.y + frame.h - BAND_HEIGHT
  const free = frame.w - TITLE_WIDTH - 24
  const revisions = block.revisions ?? []
  const withRevisions = revisions.length > 0 && free - REVISIONS_WIDTH > 300
  const width = withRevisions ? free - REVISIONS_WIDTH - 16 : free
  const x = frame.x + 12
  const { codes, tracers } = coloursOn(conductors)
  const colours = drawColours(codes, x, 0, width)
  const room = Math.floor(BAND_HEIGHT / LINE) - colours.lines - 1
  const sentences = [
    'Connector strips list pins by number; the faces are drawn on the connector pages.',
    ...(codes.length > 0
      ? [
          `Colours by IEC 60757${tracers ? '; of two codes the first is the ground, the second the tracer' : ''}.`,
        ]
      : []),
    ...notes,
  ]
  const lines = sentences
    .flatMap((sentence) => wrapText(sentence, width, TEXT.small))
    .slice(0, Math.max(1, room))
  const items: Item[] = lines.map((words, i) => text(x, top + 12 + i * LINE, words, { size: 'small' }))
  items.push(...drawColours(codes, x, top + lines.length * LINE + 8, width).items)
  if (withRevisions) items.push(...drawRevisions(revisions, x + width + 8, top))
  return items
}
