import { COLOUR_CODES, colourLabel } from '../base/colour.ts'
import { formatLength } from '../base/format-quantity.ts'
import { naturalOrder } from '../base/natural-order.ts'
import type { CableUse, Conductor, Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import { cutToleranceMm } from '../solve/formulas/cut-tolerance.ts'
import { fittingAt, stripText } from './fitting.ts'
import { groupBy } from './group-by.ts'
import { sheetHead } from './head.ts'
import { wireLabel } from './label-text.ts'
import { cableTitle, lengthText, pinName, sizeText } from './names.ts'
import type { Column, Row, Section, Sheet } from './sheet.ts'

/** Share added to every reel for set-up, mistakes and end pieces when the shop states none; common practice. */
export const SCRAP_SHARE = 0.05

const COLUMNS: readonly Column[] = [
  { key: 'line', heading: 'Line', use: 'number' },
  { key: 'wire', heading: 'Wire', lead: true },
  { key: 'size', heading: 'Size' },
  { key: 'colour', heading: 'Colour' },
  { key: 'length', heading: 'Cut length' },
  { key: 'tolerance', heading: 'Tolerance', unit: 'mm' },
  { key: 'quantity', heading: 'Qty', use: 'number' },
  { key: 'endA', heading: 'End A' },
  { key: 'stripA', heading: 'Strip A', unit: 'mm', use: 'number' },
  { key: 'endB', heading: 'End B' },
  { key: 'stripB', heading: 'Strip B', unit: 'mm', use: 'number' },
  { key: 'first', heading: 'Slip on first' },
  { key: 'pair', heading: 'Twist with' },
  { key: 'screen', heading: 'Screen and spare cores' },
  { key: 'labelA', heading: 'Label A' },
  { key: 'labelB', heading: 'Label B' },
  { key: 'done', heading: 'Cut', use: 'tick' },
]

/** What is cut as one piece: a single wire, or a whole cable. */
interface Piece {
  readonly id: string
  readonly address: string
  readonly material: string
  readonly cable: boolean
  readonly areaMm2: number
  readonly colour: string
  readonly lengthMm: number | undefined
  readonly cells: Readonly<Record<string, string>>
  readonly sort: string
}

/** The cut list of one loom: by material, then area, then colour, longest first, so that a reel is put up once and an end piece is used. */
export function cutList(loom: Loom, use: LoomUse, scrapShare = SCRAP_SHARE): Sheet {
  const wires = loom.conductors.filter((conductor) => conductor.loom === use && conductor.kind === 'wire')
  const pieces = [
    ...wires.map((wire) => wirePiece(loom, wire, wires)),
    ...use.cables.map((cable) => cablePiece(cable)),
  ]
  pieces.sort(cuttingOrder)
  return {
    id: 'cut-list',
    title: 'Cut list',
    use: 'Cut from the top: one reel at a time, longest piece first. Slip on seals, sleeves and labels before the second end is crimped.',
    head: sheetHead(loom, use, 'Cut list'),
    columns: COLUMNS.filter(
      (column) =>
        !['first', 'pair', 'screen'].includes(column.key) || pieces.some((piece) => piece.cells[column.key]),
    ),
    sectionHeading: 'Material',
    sections: sectionsOf(loom, pieces),
    foot: reelLines(loom, pieces, scrapShare),
    fields: ['Cut by', 'Date', 'Reel or batch numbers'],
  }
}

/** One block a material; the lines are numbered through. */
function sectionsOf(loom: Loom, pieces: readonly Piece[]): Section[] {
  const numbered = pieces.map((piece, index) => ({ piece, row: pieceRow(loom, piece, index + 1) }))
  const byMaterial = groupBy(numbered, ({ piece }) => piece.material)
  return [...byMaterial].map(([title, list]) => ({ title, rows: list.map(({ row }) => row) }))
}

function pieceRow(loom: Loom, piece: Piece, line: number): Row {
  return {
    address: piece.address,
    attention: piece.lengthMm === undefined,
    cells: {
      line: String(line),
      wire: piece.id,
      colour: piece.colour,
      length: lengthText(loom, piece.lengthMm) || 'not stated',
      tolerance: piece.lengthMm === undefined ? '' : `−0 / +${cutToleranceMm(piece.lengthMm)}`,
      quantity: '1',
      ...piece.cells,
    },
  }
}

function wirePiece(loom: Loom, wire: Conductor, wires: readonly Conductor[]): Piece {
  const mates = wires.filter((other) => wire.pair !== undefined && other !== wire && other.pair === wire.pair)
  return {
    id: wire.id,
    address: wire.address,
    material: wire.wirePart?.title ?? 'Wire, make not stated',
    cable: false,
    areaMm2: wire.size?.areaMm2 ?? 0,
    colour: wire.colour ? colourLabel(wire.colour) : 'not stated',
    lengthMm: wire.lengthMm,
    sort: wire.colour ?? '',
    cells: {
      size: sizeText(wire.size) || 'not stated',
      ...endCells(loom, wire.from, wire, 'A'),
      ...endCells(loom, wire.to, wire, 'B'),
      first: slipOn(loom, wire),
      pair: mates.map((mate) => mate.id).join(', '),
      labelA: wireLabel(loom, wire, 'from').text,
      labelB: wireLabel(loom, wire, 'to').text,
    },
  }
}

function endCells(loom: Loom, end: Terminal | undefined, wire: Conductor, side: 'A' | 'B') {
  return {
    [`end${side}`]: end ? pinName(end) : '',
    [`strip${side}`]: end ? stripText(fittingAt(loom, end, wire.size?.areaMm2)) : '',
  }
}

/** Seals that cannot be put on once both contacts are. */
function slipOn(loom: Loom, wire: Conductor): string {
  const seal = (end: Terminal | undefined, side: string) => {
    const id = end && fittingAt(loom, end, wire.size?.areaMm2).sealId
    return id === undefined ? '' : `${side}: ${id}`
  }
  return [seal(wire.from, 'A'), seal(wire.to, 'B')].filter((text) => text !== '').join('; ')
}

function cablePiece(cable: CableUse): Piece {
  const sizes = [...new Set((cable.part?.cores ?? []).map((core) => sizeText(core.size)))]
  const count = cable.part?.cores.length ?? cable.source.cores.length
  return {
    id: cable.id,
    address: cable.address,
    material: cableTitle(cable),
    cable: true,
    areaMm2: cable.part?.cores[0]?.size.areaMm2 ?? 0,
    colour: 'cable jacket',
    lengthMm: cable.source.length,
    sort: '',
    cells: {
      size: sizes.length === 0 ? 'not stated' : `${count} × ${sizes.join(' and ')}`,
      endA: endsOf(cable, 'from'),
      endB: endsOf(cable, 'to'),
      stripA: '',
      stripB: '',
      screen: [screenText(cable), spareText(cable)].filter((text) => text !== '').join('; '),
      labelA: cable.source.label ? `${cable.id} ${cable.source.label}` : cable.id,
      labelB: cable.source.label ? `${cable.id} ${cable.source.label}` : cable.id,
    },
  }
}

/** The connectors a cable ends in on one side. */
function endsOf(cable: CableUse, side: 'from' | 'to'): string {
  const names = cable.conductors.map((conductor) => conductor[side]).filter((end) => end !== undefined)
  return [...new Set(names.map((end) => end.half?.id ?? end.component?.id ?? end.name))].join(', ')
}

function screenText(cable: CableUse): string {
  return cable.conductors
    .filter((conductor) => conductor.kind === 'shield')
    .map((shield) => {
      const end = (terminal: Terminal | undefined, side: string) =>
        terminal ? `${side} lands on ${pinName(terminal)}` : `${side} cut back and sleeved`
      return `${shield.core ?? 'screen'}: ${end(shield.from, 'A')}, ${end(shield.to, 'B')}`
    })
    .join('; ')
}

const SPARE = { 'folded-back': 'folded back and sleeved', 'cut-off': 'cut off', capped: 'capped' } as const

function spareText(cable: CableUse): string {
  if (cable.spare.length === 0) return ''
  const how = cable.source.spareCores ? SPARE[cable.source.spareCores] : 'what to do with them is not stated'
  return `spare cores ${cable.spare.join(', ')}: ${how}`
}

/** Singles before cables, then material, area, colour in the order of IEC 60757, longest first. */
function cuttingOrder(a: Piece, b: Piece): number {
  return (
    Number(a.cable) - Number(b.cable) ||
    naturalOrder(a.material, b.material) ||
    a.areaMm2 - b.areaMm2 ||
    colourRank(a.sort) - colourRank(b.sort) ||
    naturalOrder(a.sort, b.sort) ||
    (b.lengthMm ?? Number.POSITIVE_INFINITY) - (a.lengthMm ?? Number.POSITIVE_INFINITY) ||
    naturalOrder(a.id, b.id)
  )
}

const colourRank = (colour: string): number =>
  COLOUR_CODES.findIndex((code) => colour.startsWith(code)) * 2 + (colour.length > 2 ? 1 : 0)

/** Metres to have on each reel, scrap included. */
function reelLines(loom: Loom, pieces: readonly Piece[], scrapShare: number): string[] {
  const reels = new Map<string, { lengthMm: number; unknown: number }>()
  for (const piece of pieces) {
    const colour = piece.colour === 'cable jacket' ? '' : `, ${piece.colour}`
    const key = `${piece.material}, ${piece.cells.size}${colour}`
    const reel = reels.get(key) ?? { lengthMm: 0, unknown: 0 }
    reel.lengthMm += piece.lengthMm ?? 0
    if (piece.lengthMm === undefined) reel.unknown += 1
    reels.set(key, reel)
  }
  const percent = Math.round(scrapShare * 100)
  return [...reels].map(([key, { lengthMm, unknown }]) => {
    const missing = unknown === 0 ? '' : `; ${unknown} without a length not counted`
    const total = lengthText(loom, Math.ceil((lengthMm * (1 + scrapShare)) / 100) * 100)
    return `Reel: ${key}: ${formatLength(lengthMm)} + ${percent} % scrap = ${total}${missing}`
  })
}
