import type { Loom, LoomUse } from '../resolve/loom.ts'
import { TEXT_MM } from '../solve/formulas/label-size.ts'
import { sheetHead } from './head.ts'
import { type Label, labelsOf } from './labels.ts'
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

/** Labels of one loom as a list to work from. Words that are not unique or too long are marked. */
export function labelList(loom: Loom, use: LoomUse): Sheet {
  const labels = labelsOf(loom, use)
  const bad = labels.filter(({ problems }) => problems.length > 0)
  return {
    id: 'label-list',
    title: 'Label list',
    use: 'Print all, lay out by number, and put each label on before the contact goes on. The words stand without the colours.',
    head: sheetHead(loom, use, 'Label list'),
    columns: COLUMNS.filter((column) => column.key !== 'note' || bad.length > 0),
    sections: [{ rows: labels.map((label, index) => labelRow(label, index + 1, use)) }],
    foot: [
      `Text ${TEXT_MM} mm high or more, dark on light, laminated or under clear sleeve. Colour bands fade: the number counts.`,
      bad.length === 0
        ? 'All words are unique in this loom, and short enough.'
        : 'Marked rows: change the words before printing. Two plugs with the same words get swapped, and a text cut off says something else.',
    ],
    fields: ['Printed by', 'Date'],
  }
}

function labelRow(label: Label, index: number, use: LoomUse): Row {
  return {
    address: label.address,
    attention: label.problems.length > 0,
    cells: {
      label: String(index),
      id: label.id,
      line1: label.text.line1,
      line2: label.text.line2,
      revision: use.harness.revision ?? '',
      where: label.where,
      kind: label.kindText,
      width: String(label.widthMm),
      height: String(label.heightMm),
      reads: label.reads,
      quantity: String(label.copies),
      band: label.band,
      note: label.problems.join('; '),
    },
  }
}
