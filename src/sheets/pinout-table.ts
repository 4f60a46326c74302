import { colourLabel } from '../base/colour.ts'
import type { Conductor, Half, Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import { type Bench, onTheBench, type Piece, waysFrom, wayText } from './bench.ts'
import { fittingAt, isPlugged } from './fitting.ts'
import { functionWords } from './function-words.ts'
import { BOTH_VIEWS, sheetHead } from './head.ts'
import { type Landings, landingsAt, landingsOf } from './landings.ts'
import { matchCodeOf } from './match-code.ts'
import { cableText, halfName, pinName, sizeText } from './names.ts'
import type { Column, Row, Sheet } from './sheet.ts'

const COLUMNS: readonly Column[] = [
  { key: 'pin', heading: 'Pin', lead: true },
  { key: 'signal', heading: 'Signal' },
  { key: 'direction', heading: 'Way' },
  { key: 'type', heading: 'Type' },
  { key: 'volts', heading: 'Volts' },
  { key: 'amps', heading: 'Current' },
  { key: 'level', heading: 'Level' },
  { key: 'wire', heading: 'Wire' },
  { key: 'colour', heading: 'Colour' },
  { key: 'size', heading: 'Size' },
  { key: 'cable', heading: 'Cable and pair' },
  { key: 'contact', heading: 'Contact' },
  { key: 'seal', heading: 'Seal or plug' },
  { key: 'goes', heading: 'Goes to' },
  { key: 'note', heading: 'Note' },
]

/** What the pinout tables of one loom share, worked out once. */
export interface PinoutContext {
  readonly landings: Landings
  readonly benches: readonly Bench[]
  /** Match code by loom: it is worked out over the whole loom. */
  readonly match: ReadonlyMap<LoomUse | undefined, string>
}

export function pinoutContext(loom: Loom): PinoutContext {
  return {
    landings: landingsOf(loom),
    benches: loom.looms.map((use) => onTheBench(loom, use)),
    match: new Map(loom.looms.map((use) => [use, matchCodeOf(loom, use)])),
  }
}

/** The pinout table of one half, every pin in the order of the family, unused ones included. */
export function pinoutTable(loom: Loom, half: Half, context = pinoutContext(loom)): Sheet {
  const rows = [...half.pins.values()].map((terminal) => pinRow(loom, half, terminal, context))
  return {
    id: `pinout-${half.id}`,
    title: `Pinout ${halfName(half)}`,
    use: 'One row a pin, unused ones too. Hold the plug as the picture shows before you count.',
    head: sheetHead(loom, half.loom, `Pinout ${halfName(half)}`, BOTH_VIEWS, context.match.get(half.loom)),
    columns: COLUMNS.filter((column) => keep(column, half, rows)),
    sections: [{ rows }],
    foot: halfFacts(half),
    fields: [],
  }
}

/** Columns that no row fills are left out, except those whose emptiness says something. */
function keep(column: Column, half: Half, rows: readonly Row[]): boolean {
  if (column.key === 'pin' || column.key === 'signal' || column.key === 'type') return true
  if (column.key === 'wire' || column.key === 'goes') return half.side === 'harness'
  return rows.some((row) => (row.cells[column.key] ?? '') !== '')
}

/** One pin with everything a fitter asks about it. */
export function pinRow(loom: Loom, half: Half, terminal: Terminal, context: PinoutContext): Row {
  const wires = landingsAt(context.landings, terminal)
  const words = functionWords(terminal.does)
  const harness = half.side === 'harness'
  return {
    address: terminal.address,
    cells: {
      pin: terminal.name,
      ...words,
      // A pin with no described function still has its wire to tell it by.
      type: terminal.does.kind === 'unstated' ? '' : words.type,
      wire: wires.map((wire) => wire.id).join(' + '),
      colour: each(wires, (wire) => (wire.colour ? colourLabel(wire.colour) : '')),
      size: each(wires, (wire) => sizeText(wire.size)),
      cable: each(wires, cableText),
      contact: harness ? contactText(loom, terminal, wires) : '',
      seal: harness ? sealText(loom, half, terminal, wires) : '',
      goes: harness ? goesTo(terminal, context) : '',
      note: noteOf(terminal),
    },
  }
}

const each = (wires: readonly Conductor[], text: (wire: Conductor) => string): string =>
  [...new Set(wires.map(text).filter((one) => one !== ''))].join(' + ')

function contactText(loom: Loom, terminal: Terminal, wires: readonly Conductor[]): string {
  if (wires.length === 0) return terminal.name === 'shell' ? '' : 'none'
  const { contactId, usual } = fittingAt(loom, terminal, wires[0]?.size?.areaMm2)
  return contactId === undefined ? '' : `${contactId}${usual ? ' (usual)' : ''}`
}

function sealText(loom: Loom, half: Half, terminal: Terminal, wires: readonly Conductor[]): string {
  if (wires.length === 0) return isPlugged(half, terminal.name) ? 'cavity plug' : ''
  return fittingAt(loom, terminal, wires[0]?.size?.areaMm2).sealId ?? ''
}

/** The far ends in the same loom, by the shortest way, through splices and fuses. */
function goesTo(terminal: Terminal, context: PinoutContext): string {
  const piece = context.benches.map((bench) => bench.pieceOf.get(terminal.index)).find(Boolean)
  if (!piece) return ''
  const ends = farEnds(piece, terminal)
  const more = ends.length > MOST_ENDS ? `; and ${ends.length - MOST_ENDS} more` : ''
  return `${ends
    .slice(0, MOST_ENDS)
    .map((way) => {
      const through = way.links.length > 1 ? ` via ${wayText(way)}` : ''
      return `${pinName(way.to)}${through}`
    })
    .join('; ')}${more}`
}

/** A bar or a common has too many ends to list at each of them. */
const MOST_ENDS = 8

function farEnds(piece: Piece, terminal: Terminal) {
  const ways = [...waysFrom(piece, terminal, undefined).values()]
  return ways.filter((way) => way.to !== terminal && isEnd(way.to))
}

const isEnd = (terminal: Terminal): boolean =>
  terminal.on === 'harness' ||
  (terminal.on === 'component' &&
    terminal.component?.source.kind !== 'fuse' &&
    terminal.component?.source.kind !== 'link')

function noteOf(terminal: Terminal): string {
  const own = terminal.half?.source.pins?.[terminal.name]
  const texts = [own && 'note' in own ? own.note : undefined, terminal.does.note]
  return [...new Set(texts.filter((text) => text !== undefined))].join('; ')
}

const LOCKS = {
  none: 'no lock',
  latch: 'latch: click, then tug',
  screw: 'screws: both tight',
  bayonet: 'bayonet: turn to the stop',
  friction: 'held by friction only',
  thread: 'thread: finger tight and a mark',
} as const

/** What stands under the table: the half itself. */
function halfFacts(half: Half): string[] {
  const { family } = half
  const source = half.source
  // The pin numbers of a plug are those of the connector it mates with, and so is the side they were taken from.
  const view = source.view ?? half.mate?.source.view
  const gender = half.gender === undefined ? '' : `, ${half.gender} contacts`
  return [
    `${family?.title ?? half.familyId}${gender}${half.coding ? `, coding ${half.coding}` : ''}, ${half.pins.size} positions`,
    half.mate
      ? `Mates with ${halfName(half.mate)}`
      : half.fits
        ? `Made for ${half.fits}`
        : 'Mates with nothing described',
    view === undefined
      ? 'The source of this pinout does not say from which side it was drawn: prove one pin before you trust the rest'
      : `Taken from a drawing of the ${view === 'mating' ? 'mating face' : 'wire-entry face'}`,
    family?.lock ? `Lock: ${LOCKS[family.lock]}` : '',
    'hotPlug' in source && source.hotPlug ? 'Joined or parted while live' : '',
    half.zone ? `Place: ${half.zone}` : '',
    source.note ?? '',
  ].filter((line) => line !== '')
}
