import { colourLabel } from '../base/colour.ts'
import { formatAmps, formatFarads, formatOhms } from '../base/format-quantity.ts'
import { naturalOrder } from '../base/natural-order.ts'
import type { Component } from '../describe/component.ts'
import type { ComponentUse, Half, Loom, LoomUse } from '../resolve/loom.ts'
import { SCRAP_SHARE } from './cut-list.ts'
import { fittingAt, isPlugged } from './fitting.ts'
import { sheetHead } from './head.ts'
import { type Landings, landingsAt, landingsOf } from './landings.ts'
import { cableTitle, lengthText, sizeText } from './names.ts'
import type { Column, Row, Section, Sheet } from './sheet.ts'

const COLUMNS: readonly Column[] = [
  { key: 'part', heading: 'Part', lead: true },
  { key: 'title', heading: 'What it is' },
  { key: 'need', heading: 'Needed' },
  { key: 'order', heading: 'With scrap' },
  { key: 'where', heading: 'Used in' },
  { key: 'picked', heading: 'Picked', use: 'tick' },
]

/** One kind of thing as it is counted up. */
interface Line {
  readonly part: string
  readonly title: string
  count: number
  lengthMm: number
  readonly where: Set<string>
  unknown: number
}

class Tally {
  readonly #lines = new Map<string, Line>()

  add(
    part: string,
    title: string,
    where: string,
    amount: { count?: number; lengthMm?: number | undefined } = { count: 1 },
  ) {
    const key = `${part}\n${title}`
    const line = this.#lines.get(key) ?? {
      part,
      title,
      count: 0,
      lengthMm: 0,
      where: new Set<string>(),
      unknown: 0,
    }
    this.#lines.set(key, line)
    line.count += amount.count ?? 0
    line.lengthMm += amount.lengthMm ?? 0
    if ('lengthMm' in amount && amount.lengthMm === undefined) line.unknown += 1
    line.where.add(where)
  }

  lines(): Line[] {
    return [...this.#lines.values()].sort(
      (a, b) => naturalOrder(a.part, b.part) || naturalOrder(a.title, b.title),
    )
  }
}

/** The bill of materials of one loom, counted again from its tables: nothing in it is typed by hand. */
export function billOfMaterials(loom: Loom, use: LoomUse, scrapShare = SCRAP_SHARE): Sheet {
  const landings = landingsOf(loom, use)
  const sections = [
    counted('Connectors', halvesOf(use), 0),
    counted('Contacts', contactsOf(loom, use, landings), scrapShare),
    counted('Seals and cavity plugs', sealsOf(loom, use, landings), scrapShare),
    counted('Fuses and parts in the run', componentsOf(loom, use), 0),
    counted('Splices', splicesOf(use), scrapShare),
    measured(loom, 'Wire', wiresOf(loom, use), scrapShare),
    measured(loom, 'Cable', cablesOf(use), scrapShare),
  ].filter((section) => section.rows.length > 0)
  return {
    id: 'bill-of-materials',
    title: 'Bill of materials',
    use: 'For one loom. Pick against it, and buy what is short.',
    head: sheetHead(loom, use, 'Bill of materials'),
    columns: COLUMNS,
    sections,
    foot: [
      `Scrap: ${Math.round(scrapShare * 100)} %, at least one piece, on contacts, seals and splices; ${Math.round(scrapShare * 100)} % on wire and cable.`,
      'Labels, sleeve, tape and ties are not counted.',
    ],
    fields: ['Picked by', 'Date'],
  }
}

const whereText = (where: ReadonlySet<string>): string => {
  const all = [...where].sort(naturalOrder)
  return all.length > 12 ? `${all.slice(0, 12).join(', ')} and ${all.length - 12} more` : all.join(', ')
}

function counted(title: string, tally: Tally, scrapShare: number): Section {
  const rows = tally.lines().map((line): Row => {
    const spare = scrapShare === 0 ? 0 : Math.max(1, Math.ceil(line.count * scrapShare))
    return {
      attention: line.part === 'not stated',
      cells: {
        part: line.part,
        title: line.title,
        need: String(line.count),
        order: String(line.count + spare),
        where: whereText(line.where),
      },
    }
  })
  return { title, rows }
}

function measured(loom: Loom, title: string, tally: Tally, scrapShare: number): Section {
  const rows = tally.lines().map((line): Row => {
    const missing = line.unknown === 0 ? '' : ` + ${line.unknown} without a length`
    const withScrap = Math.ceil((line.lengthMm * (1 + scrapShare)) / 100) * 100
    return {
      attention: line.unknown > 0,
      cells: {
        part: line.part,
        title: line.title,
        need: `${lengthText(loom, line.lengthMm)}${missing}`,
        order: lengthText(loom, withScrap),
        where: whereText(line.where),
      },
    }
  })
  return { title, rows }
}

function halvesOf(use: LoomUse): Tally {
  const tally = new Tally()
  for (const half of use.halves) tally.add(half.familyId, halfTitle(half), half.id)
  return tally
}

const halfTitle = (half: Half): string =>
  [
    half.family?.title ?? half.familyId,
    half.gender ? `${half.gender} half` : '',
    half.coding ? `coding ${half.coding}` : '',
  ]
    .filter((text) => text !== '')
    .join(', ')

function contactsOf(loom: Loom, use: LoomUse, landings: Landings): Tally {
  const tally = new Tally()
  for (const half of use.halves) {
    for (const pin of half.pins.values()) {
      const wires = landingsAt(landings, pin)
      if (wires.length === 0 || pin.name === 'shell') continue
      const { contact, contactId, usual } = fittingAt(loom, pin, wires[0]?.size?.areaMm2)
      // A ring, stud or coaxial plug is its own contact.
      if (contactId === undefined && half.pins.size === 1) continue
      const title = `${contact?.title ?? (contactId === undefined ? `contact for ${half.familyId}` : contactId)}${usual ? ' (the usual one)' : ''}`
      tally.add(contactId ?? 'not stated', title, half.id)
    }
  }
  return tally
}

function sealsOf(loom: Loom, use: LoomUse, landings: Landings): Tally {
  const tally = new Tally()
  for (const half of use.halves) {
    const plug = half.family?.seals?.map((id) => loom.parts.seals.get(id)).find((part) => part?.plug)
    for (const pin of half.pins.values()) {
      const wires = landingsAt(landings, pin)
      if (wires.length === 0) {
        if (isPlugged(half, pin.name))
          tally.add(plug?.id ?? 'not stated', plug?.title ?? 'cavity plug', half.id)
        continue
      }
      const { seal, sealId } = fittingAt(loom, pin, wires[0]?.size?.areaMm2)
      if (sealId !== undefined) tally.add(sealId, seal?.title ?? sealId, half.id)
    }
  }
  return tally
}

function componentsOf(loom: Loom, use: LoomUse): Tally {
  const tally = new Tally()
  for (const component of loom.components) {
    if (component.loom !== use) continue
    tally.add(componentPart(component), componentTitle(component), component.id)
    if (component.source.kind === 'fuse')
      tally.add(
        'fuse holder',
        `holder${component.source.holderAmps ? ` for ${formatAmps(component.source.holderAmps)}` : ''}`,
        component.id,
      )
  }
  return tally
}

const componentPart = ({ source, fusePart }: ComponentUse): string =>
  source.kind === 'fuse' ? (fusePart?.id ?? source.part ?? 'fuse') : source.kind

/** The value a store needs to pick the part. */
function componentTitle({ source, fusePart }: ComponentUse): string {
  const value = componentValue(source)
  const title = fusePart?.title ?? (value === '' ? (source.title ?? 'value not stated') : '')
  return [title, value].filter((text) => text !== '').join(', ')
}

function componentValue(source: Component): string {
  switch (source.kind) {
    case 'fuse':
      return source.rating === undefined ? '' : formatAmps(source.rating)
    case 'resistor':
    case 'coil':
      return source.ohms === undefined ? '' : formatOhms(source.ohms)
    case 'capacitor':
      return source.farads === undefined ? '' : formatFarads(source.farads)
    case 'relay':
      return source.coil === undefined ? '' : `coil ${formatOhms(source.coil)}`
    default:
      return ''
  }
}

function splicesOf(use: LoomUse): Tally {
  const tally = new Tally()
  for (const splice of use.harness.splices ?? [])
    tally.add('splice', splice.kind === undefined ? 'kind not stated' : `${splice.kind} splice`, splice.id)
  return tally
}

function wiresOf(loom: Loom, use: LoomUse): Tally {
  const tally = new Tally()
  for (const wire of loom.conductors) {
    if (wire.loom !== use || wire.kind !== 'wire') continue
    const make = wire.wirePart?.title ?? 'make not stated'
    const colour = wire.colour ? colourLabel(wire.colour) : 'colour not stated'
    const title = `${sizeText(wire.size) || 'size not stated'}, ${colour}, ${make}`
    tally.add(wire.wirePart?.id ?? 'wire', title, wire.id, { lengthMm: wire.lengthMm })
  }
  return tally
}

function cablesOf(use: LoomUse): Tally {
  const tally = new Tally()
  for (const cable of use.cables)
    tally.add(cable.source.part, cableTitle(cable), cable.id, { lengthMm: cable.source.length })
  return tally
}
