import { formatLength, formatNewtons } from '../base/format-quantity.ts'
import { naturalOrder } from '../base/natural-order.ts'
import { parseQuantity } from '../base/quantity.ts'
import type { Conductor, Half, Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import { type Fitting, fittingAt, stripText } from './fitting.ts'
import { groupBy } from './group-by.ts'
import { sheetHead } from './head.ts'
import { insertOrder } from './insert-order.ts'
import { landingsAt, landingsOf } from './landings.ts'
import { sizeText } from './names.ts'
import { pullForceN } from './pull-force.ts'
import type { Column, Row, Sheet } from './sheet.ts'

const COLUMNS: readonly Column[] = [
  { key: 'half', heading: 'Half' },
  { key: 'cavity', heading: 'Cavity', lead: true },
  { key: 'wire', heading: 'Wire' },
  { key: 'size', heading: 'Size' },
  { key: 'contact', heading: 'Contact' },
  { key: 'plating', heading: 'Plating' },
  { key: 'seal', heading: 'Seal' },
  { key: 'strip', heading: 'Strip', unit: 'mm', use: 'number' },
  { key: 'grip', heading: 'Insulation check' },
  { key: 'pull', heading: 'Sample pull' },
  { key: 'insert', heading: 'Insert no.', use: 'number' },
  { key: 'click', heading: 'Click and tug', use: 'tick' },
  { key: 'initials', heading: 'Initials', use: 'fill' },
]

/** One contact with everything that goes into it. */
export interface Crimp {
  readonly half: Half
  readonly terminal: Terminal
  readonly wires: readonly Conductor[]
  readonly fitting: Fitting
  readonly setUp: string
  /** Place in the order in which this half is filled. */
  readonly insert: number
}

/** Joints that are not crimped stand on the sheet too: they are made at the same bench, with another tool. */
export const JOINED = {
  crimp: 'Crimp',
  solder: 'Solder',
  screw: 'Screw clamp',
  'punch-down': 'Punch down',
  pierce: 'Insulation displacement',
} as const

/** The crimp sheet of one loom, grouped by tool set-up, so that a die is changed once. */
export function crimpSheet(loom: Loom, use: LoomUse): Sheet {
  const sections = crimpGroups(loom, use).map(({ title, crimps }) => ({
    title,
    rows: crimps.flatMap((crimp) => crimp.wires.map((wire) => crimpRow(crimp, wire))),
  }))
  return {
    id: 'crimp-sheet',
    title: 'Crimp sheet',
    use: 'Set the tool up once for each block. Pull one sample before the first crimp of a block and write the figure down. Insert in the order given: furthest from the edge first.',
    head: sheetHead(loom, use, 'Crimp sheet'),
    columns: COLUMNS.filter(
      (c) =>
        !['plating', 'seal', 'grip'].includes(c.key) ||
        sections.some((s) => s.rows.some((r) => r.cells[c.key])),
    ),
    sections,
    foot: [
      'Sample pull: the contact maker’s figure where one is known, else the commercial minimum for the size.',
      'Never tin a strand that goes under a crimp or a screw.',
    ],
    fields: [
      'Tool serial numbers',
      'Calibration due',
      'Sample results (N)',
      'Reworked',
      'Crimped by',
      'Date',
    ],
  }
}

/** The contacts of one tool set-up, in the order in which they are made. */
export interface CrimpGroup {
  readonly title: string
  readonly crimps: readonly Crimp[]
}

/** Every contact of one loom by tool set-up, within it by half and insertion. */
export function crimpGroups(loom: Loom, use: LoomUse): CrimpGroup[] {
  const landings = landingsOf(loom, use)
  const crimps = use.halves.flatMap((half) => crimpsOf(loom, half, (pin) => landingsAt(landings, pin)))
  return [...groupBy(crimps, (crimp) => crimp.setUp)]
    .sort(([a], [b]) => naturalOrder(a, b))
    .map(([title, group]) => ({
      title,
      crimps: [...group].sort((a, b) => naturalOrder(a.half.id, b.half.id) || a.insert - b.insert),
    }))
}

function crimpsOf(loom: Loom, half: Half, wiresAt: (pin: Terminal) => readonly Conductor[]): Crimp[] {
  const used = [...half.pins.values()].filter((pin) => pin.name !== 'shell' && wiresAt(pin).length > 0)
  const order = insertOrder(
    half,
    used.map((pin) => pin.name),
  )
  return used.map((terminal) => {
    const wires = wiresAt(terminal)
    const fitting = fittingAt(loom, terminal, wires[0]?.size?.areaMm2)
    return {
      half,
      terminal,
      wires,
      fitting,
      setUp: setUpTitle(fitting),
      insert: order.get(terminal.name) ?? 0,
    }
  })
}

function setUpTitle({ contact, contactId }: Fitting): string {
  if (contactId === undefined) return 'No contact named: find the contact and its tool before you start'
  const how = contact ? JOINED[contact.join] : 'Joint'
  return `${how}: ${contact?.tool ?? 'tool not stated'}: ${contact?.title ?? contactId}`
}

function crimpRow(crimp: Crimp, wire: Conductor): Row {
  const { fitting, half, terminal, wires, insert } = crimp
  const shared =
    wires.length > 1
      ? ` (with ${wires
          .filter((w) => w !== wire)
          .map((w) => w.id)
          .join(', ')})`
      : ''
  return {
    address: terminal.address,
    attention: fitting.contact === undefined,
    cells: {
      half: half.id,
      cavity: terminal.name,
      wire: `${wire.id}${shared}`,
      size: sizeText(wire.size),
      contact: fitting.contactId ? `${fitting.contactId}${fitting.usual ? ' (usual)' : ''}` : 'not stated',
      plating: fitting.contact?.plating ?? '',
      seal: fitting.sealId ?? '',
      strip: stripText(fitting),
      grip: gripText(fitting, wire),
      pull: pullText(fitting, wire),
      insert: String(insert),
    },
  }
}

/** The wire's diameter against the insulation grip, when both are known. */
export function gripText({ contact }: Fitting, wire: Conductor): string {
  const grip = contact?.insulation
  if (!grip) return ''
  const range = `grip ${formatLength(grip.min)} to ${formatLength(grip.max)}`
  const od = wireOdMm(wire)
  if (od === undefined) return `${range}; measure the wire`
  const fits = od >= grip.min && od <= grip.max
  return fits ? `${formatLength(od)}: fits` : `${formatLength(od)}: OUTSIDE ${range}`
}

function wireOdMm({ wirePart, size }: Conductor): number | undefined {
  if (wirePart?.od !== undefined) return wirePart.od
  const text = size && wirePart?.ods?.[size.label]
  const read = text === undefined ? undefined : parseQuantity(text, 'length')
  return read?.ok ? read.value : undefined
}

/** Least pull-out force in N of a sample; undefined where it is not known, or the joint is no crimp. */
export const samplePullN = ({ contact }: Fitting, wire: Conductor | undefined): number | undefined =>
  contact && contact.join !== 'crimp'
    ? undefined
    : (contact?.pull ?? (wire?.size && pullForceN(wire.size.areaMm2)))

function pullText(fitting: Fitting, wire: Conductor): string {
  if (fitting.contact && fitting.contact.join !== 'crimp') return ''
  const newtons = samplePullN(fitting, wire)
  return newtons === undefined ? 'ask the contact maker' : `${formatNewtons(newtons)} or more`
}
