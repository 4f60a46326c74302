import { naturalOrder } from '../base/natural-order.ts'
import type { Half, Loom, LoomUse } from '../resolve/loom.ts'
import { NO_VIEW, sheetHead } from './head.ts'
import { type PinoutContext, pinRow } from './pinout-table.ts'
import type { Column, Row, Sheet } from './sheet.ts'

const COLUMNS: readonly Column[] = [
  { key: 'half', heading: 'End', lead: true },
  { key: 'title', heading: 'What for' },
  { key: 'family', heading: 'Kind' },
  { key: 'mate', heading: 'Goes onto' },
  { key: 'wire', heading: 'Wire' },
  { key: 'colour', heading: 'Colour' },
  { key: 'size', heading: 'Size' },
  { key: 'contact', heading: 'Contact' },
  { key: 'goes', heading: 'Other end' },
  { key: 'note', heading: 'Note' },
]

/** Rings, tabs, coax plugs and tails of one loom on one sheet: each has one contact, so a table of its own would be one row. */
export function singleEnds(loom: Loom, use: LoomUse, halves: readonly Half[], context: PinoutContext): Sheet {
  const rows = [...halves]
    .sort((a, b) => naturalOrder(a.id, b.id))
    .flatMap((half) => [...half.pins.values()].map((pin) => endRow(half, pinRow(loom, half, pin, context))))
  return {
    id: 'single-ends',
    title: 'Rings, tabs and single ends',
    use: 'One row an end. Each goes onto the place named, and nowhere else.',
    head: sheetHead(loom, use, 'Rings, tabs and single ends', NO_VIEW, context.match.get(use)),
    columns: COLUMNS.filter(({ key }) => key === 'half' || rows.some((row) => row.cells[key])),
    sections: [{ rows }],
    foot: [],
    fields: [],
  }
}

function endRow(half: Half, row: Row): Row {
  const source = half.source
  const mate = half.mate
    ? `${half.mate.unit?.id ?? half.mate.loom?.id ?? ''} ${half.mate.id}`.trim()
    : (half.fits ?? '')
  return {
    ...row,
    cells: {
      ...row.cells,
      half: half.id,
      title: ('label' in source ? source.label : undefined) ?? half.title ?? '',
      family: half.family?.title ?? half.familyId,
      mate,
    },
  }
}
