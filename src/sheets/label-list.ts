import { colourLabel } from '../base/colour.ts'
import { formatAmps } from '../base/format-quantity.ts'
import type { Loom, LoomUse } from '../resolve/loom.ts'
import { sheetHead } from './head.ts'
import { halfLabel, type LabelText, wireLabel } from './label-text.ts'
import type { Column, Row, Sheet } from './sheet.ts'

const COLUMNS: readonly Column[] = [
  { key: 'label', heading: 'Label', use: 'number' },
  { key: 'id', heading: 'Number', lead: true },
  { key: 'line1', heading: 'Line 1: what it is' },
  { key: 'line2', heading: 'Line 2: from here to' },
  { key: 'revision', heading: 'Rev' },
  { key: 'where', heading: 'Where' },
  { key: 'kind', heading: 'Kind' },
  { key: 'width', heading: 'Width', unit: 'mm', use: 'number' },
  { key: 'height', heading: 'Text height', unit: 'mm', use: 'number' },
  { key: 'reads', heading: 'Reads' },
  { key: 'quantity', heading: 'Qty', use: 'number' },
  { key: 'band', heading: 'Colour band' },
  { key: 'note', heading: 'Note' },
  { key: 'done', heading: 'On', use: 'tick' },
]

/** Smallest text a person reads in a vehicle, in mm; common practice. */
const TEXT_MM = 2.5
/** Average advance of a plain sans capital over its height. */
const ADVANCE = 0.75
const MARGIN_MM = 4

interface Label {
  readonly id: string
  readonly address: string
  readonly text: LabelText
  readonly where: string
  readonly kind: string
  readonly reads: string
  readonly band: string
}

/** Labels of one loom: both ends of every wire and cable, each connector, each fuse. Words that are not unique are marked. */
export function labelList(loom: Loom, use: LoomUse): Sheet {
  const labels = [...halfLabels(use), ...fuseLabels(loom, use), ...cableLabels(use), ...wireLabels(loom, use)]
  const clashes = labelClashes(labels)
  return {
    id: 'label-list',
    title: 'Label list',
    use: 'Print all, lay out by number, and put each label on before the contact goes on. The words stand without the colours.',
    head: sheetHead(loom, use, 'Label list'),
    columns: COLUMNS.filter((column) => column.key !== 'note' || clashes.size > 0),
    sections: [{ rows: labels.map((label, index) => labelRow(label, index + 1, use, clashes)) }],
    foot: [
      `Text ${TEXT_MM} mm high or more, dark on light, laminated or under clear sleeve. Colour bands fade: the number counts.`,
      clashes.size === 0
        ? 'All connector, fuse and cable words are unique in this loom.'
        : 'Rows marked NOT UNIQUE: change the words before printing; two plugs with the same words get swapped.',
    ],
    fields: ['Printed by', 'Date'],
  }
}

/** Words shared by labels of different things, with the numbers that share them. Wires carry their number and are left out. */
function labelClashes(labels: readonly Label[]): Map<string, string[]> {
  const byWords = new Map<string, Set<string>>()
  for (const label of labels) {
    if (label.kind.startsWith('wrap') || label.text.line1 === '') continue
    const words = label.text.line1.toLowerCase()
    byWords.set(words, (byWords.get(words) ?? new Set()).add(label.id))
  }
  const shared = [...byWords].filter(([, ids]) => ids.size > 1)
  return new Map(shared.map(([words, ids]) => [words, [...ids]]))
}

function labelRow(label: Label, index: number, use: LoomUse, clashes: ReadonlyMap<string, string[]>): Row {
  const { line1, line2 } = label.text
  const same = label.kind.startsWith('wrap') ? [] : (clashes.get(line1.toLowerCase()) ?? [])
  const others = same.filter((id) => id !== label.id)
  const longest = Math.max([...line1].length, [...line2].length, [...label.id].length + 5)
  return {
    address: label.address,
    attention: others.length > 0,
    cells: {
      label: String(index),
      id: label.id,
      line1,
      line2,
      revision: use.harness.revision ?? '',
      where: label.where,
      kind: label.kind,
      width: String(Math.ceil(longest * TEXT_MM * ADVANCE + MARGIN_MM)),
      height: String(TEXT_MM),
      reads: label.reads,
      quantity: '1',
      band: label.band,
      note: others.length > 0 ? `NOT UNIQUE: same words as ${others.join(', ')}` : '',
    },
  }
}

function halfLabels(use: LoomUse): Label[] {
  return use.halves.map((half) => ({
    id: half.id,
    address: half.address,
    text: halfLabel(half),
    where: 'on the cable, 50 mm behind the plug',
    kind: 'flag',
    reads: 'from the plug outward',
    band: '',
  }))
}

function fuseLabels(loom: Loom, use: LoomUse): Label[] {
  const fuses = loom.components.filter(
    (component) => component.loom === use && component.source.kind === 'fuse',
  )
  return fuses.map((fuse) => {
    const rating = fuse.source.kind === 'fuse' ? (fuse.source.rating ?? fuse.fusePart?.rating) : undefined
    const line1 = fuse.source.title ?? 'fuse'
    const line2 = rating === undefined ? 'rating not stated' : `${formatAmps(rating)} only`
    return {
      id: fuse.id,
      address: fuse.address,
      text: { line1, line2, text: `${fuse.id} | ${line1} | ${line2}` },
      where: 'on the holder, seen with the cover on',
      kind: 'plate',
      reads: 'upright',
      band: '',
    }
  })
}

function cableLabels(use: LoomUse): Label[] {
  return use.cables.flatMap((cable) =>
    (['from', 'to'] as const).map((side) => {
      const ends = cable.conductors.map((conductor) => conductor[side]).filter((end) => end !== undefined)
      const names = [...new Set(ends.map((end) => end.half?.id ?? end.component?.id ?? end.name))].join(', ')
      const line1 = cable.source.label ?? ''
      return {
        id: cable.id,
        address: cable.address,
        text: { line1, line2: `at ${names || 'the cut end'}`, text: `${cable.id} | ${line1}` },
        where: `end ${side === 'from' ? 'A' : 'B'}, 25 mm from the jacket’s end`,
        kind: 'flag',
        reads: 'from the plug outward',
        band: '',
      }
    }),
  )
}

function wireLabels(loom: Loom, use: LoomUse): Label[] {
  const wires = loom.conductors.filter((conductor) => conductor.loom === use && conductor.kind === 'wire')
  return wires.flatMap((wire) =>
    (['from', 'to'] as const).map((side) => ({
      id: wire.id,
      address: wire.address,
      text: wireLabel(loom, wire, side),
      where: `end ${side === 'from' ? 'A' : 'B'}, 25 mm from the contact`,
      kind: 'wrap, laminated',
      reads: 'from the contact outward',
      band: wire.colour ? colourLabel(wire.colour) : '',
    })),
  )
}
