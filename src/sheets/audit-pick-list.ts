import { colourLabel } from '../base/colour.ts'
import type { Finding } from '../base/finding.ts'
import { quote } from '../base/quote.ts'
import type { Loom, LoomUse } from '../resolve/loom.ts'
import { isPlugged } from './fitting.ts'
import { landingsAt, landingsOf } from './landings.ts'
import { lengthText, sizeText } from './names.ts'
import { allRows, type Row, type Sheet } from './sheet.ts'

/** The papers of one loom that have to agree on what is used. */
export interface PickPapers {
  readonly bill: Sheet
  readonly crimps: Sheet
  readonly cuts: Sheet
}

/** How much of one thing a paper wants, as printed. */
type Amounts = ReadonlyMap<string, string>

const rowsOf = (sheet: Sheet, section: string): readonly Row[] =>
  sheet.sections.filter(({ title }) => title === section).flatMap(({ rows }) => rows)

/** Numbers of the bill by part; one part under two titles is added up. */
function billCounts(bill: Sheet, section: string): Amounts {
  const counts = new Map<string, number>()
  for (const { cells } of rowsOf(bill, section))
    counts.set(cells.part ?? '', (counts.get(cells.part ?? '') ?? 0) + Number(cells.need))
  return asText(counts)
}

const asText = (counts: ReadonlyMap<string, number>): Amounts =>
  new Map([...counts].map(([part, count]) => [part, String(count)]))

function countBy(parts: readonly string[]): Amounts {
  const counts = new Map<string, number>()
  for (const part of parts) counts.set(part, (counts.get(part) ?? 0) + 1)
  return asText(counts)
}

/** One row for each cavity, however many wires share its contact. */
function cavities(crimps: Sheet): Row[] {
  const byCavity = new Map(allRows(crimps).map((row) => [`${row.cells.half} ${row.cells.cavity}`, row]))
  return [...byCavity.values()]
}

/** A ring, a stud or a coaxial plug is its own contact, and is bought as a connector. */
function crimpedContacts(crimps: Sheet, use: LoomUse): Amounts {
  const single = new Set(use.halves.filter(({ pins }) => pins.size === 1).map(({ id }) => id))
  const named = cavities(crimps).map(({ cells }) => ({
    half: cells.half ?? '',
    contact: (cells.contact ?? '').replace(/ \(usual\)$/, ''),
  }))
  return countBy(
    named
      .filter(({ half, contact }) => !(contact === 'not stated' && single.has(half)))
      .map(({ contact }) => contact),
  )
}

/** Seals of the crimp sheet, and plugs of the cavities that stay empty. */
function sealsAndPlugs(loom: Loom, use: LoomUse, crimps: Sheet): Amounts {
  const landings = landingsOf(loom, use)
  const plugs = use.halves.flatMap((half) => {
    const plug = half.family?.seals?.map((id) => loom.parts.seals.get(id)).find((part) => part?.plug)
    return [...half.pins.values()]
      .filter((pin) => landingsAt(landings, pin).length === 0 && isPlugged(half, pin.name))
      .map(() => plug?.id ?? 'not stated')
  })
  const seals = cavities(crimps).flatMap(({ cells }) => (cells.seal ? [cells.seal] : []))
  return countBy([...seals, ...plugs])
}

/** Metres of each wire or cable on the cut list, under the title the bill gives it. */
function cutLengths(loom: Loom, use: LoomUse, cuts: Sheet, cables: boolean): Amounts {
  const sums = new Map<string, { mm: number; unknown: number }>()
  const add = (title: string, lengthMm: number | undefined) => {
    const sum = sums.get(title) ?? { mm: 0, unknown: 0 }
    sums.set(title, {
      mm: sum.mm + (lengthMm ?? 0),
      unknown: sum.unknown + Number(lengthMm === undefined),
    })
  }
  for (const { address } of allRows(cuts)) {
    const cable = use.cables.find((one) => one.address === address)
    const wire = loom.conductorAt.get(address ?? '')
    if (cable && cables) add(cable.source.part, cable.source.length)
    if (wire && !cable && !cables)
      add(
        [
          sizeText(wire.size) || 'size not stated',
          wire.colour ? colourLabel(wire.colour) : 'colour not stated',
          wire.wirePart?.title ?? 'make not stated',
        ].join(', '),
        wire.lengthMm,
      )
  }
  return new Map(
    [...sums].map(([title, { mm, unknown }]) => [
      title,
      `${lengthText(loom, mm)}${unknown === 0 ? '' : ` + ${unknown} without a length`}`,
    ]),
  )
}

const billLengths = (bill: Sheet, section: string, key: 'part' | 'title'): Amounts =>
  new Map(rowsOf(bill, section).map(({ cells }) => [cells[key] ?? '', cells.need ?? '']))

interface Held {
  readonly section: string
  readonly bill: Amounts
  readonly used: Amounts
  /** The paper that uses it. */
  readonly paper: string
}

function held(loom: Loom, use: LoomUse, { bill, crimps, cuts }: PickPapers): Held[] {
  const parts = loom.components.filter((one) => one.loom === use)
  const fuses = parts.filter(({ source }) => source.kind === 'fuse').length
  const components = billCounts(bill, 'Fuses and parts in the run')
  const inRun = [...components].filter(([part]) => part !== 'fuse holder')
  return [
    {
      section: 'connectors',
      bill: billCounts(bill, 'Connectors'),
      used: countBy(use.halves.map(({ familyId }) => familyId)),
      paper: 'drawing',
    },
    {
      section: 'contacts',
      bill: billCounts(bill, 'Contacts'),
      used: crimpedContacts(crimps, use),
      paper: 'crimp sheet',
    },
    {
      section: 'seals and plugs',
      bill: billCounts(bill, 'Seals and cavity plugs'),
      used: sealsAndPlugs(loom, use, crimps),
      paper: 'crimp sheet',
    },
    {
      section: 'parts in the run',
      bill: new Map([
        ['parts', String(inRun.reduce((sum, [, count]) => sum + Number(count), 0))],
        ['fuse holders', components.get('fuse holder') ?? '0'],
      ]),
      used: new Map([
        ['parts', String(parts.length)],
        ['fuse holders', String(fuses)],
      ]),
      paper: 'drawing',
    },
    {
      section: 'wire',
      bill: billLengths(bill, 'Wire', 'title'),
      used: cutLengths(loom, use, cuts, false),
      paper: 'cut list',
    },
    {
      section: 'cable',
      bill: billLengths(bill, 'Cable', 'part'),
      used: cutLengths(loom, use, cuts, true),
      paper: 'cut list',
    },
  ]
}

/**
 * Counts what the crimp sheet, the cut list and the drawing use and holds it against the bill of materials as it is printed.
 * Both are made from one description, so a finding is a fault of the papers; it is told like any other.
 */
export function auditPickList(loom: Loom, use: LoomUse, papers: PickPapers): Finding[] {
  return held(loom, use, papers).flatMap(({ section, bill, used, paper }) =>
    [...new Set([...bill.keys(), ...used.keys()])].flatMap((part): Finding[] => {
      const [have, want] = [bill.get(part) ?? 'none', used.get(part) ?? 'none']
      if (have === want) return []
      return [
        {
          rule: 'pick-list-complete',
          level: 'warning',
          subject: `${loom.id}/${use.id}`,
          what: `The bill of materials of ${use.id} lists ${have} of ${quote(part)}, and the ${paper} uses ${want}`,
          why: `Picked against the bill, the ${section} do not come out: the last crimp waits for an order, or something is left over and nobody knows of which.`,
          fix: 'Do not pick from this bill. Report the description that does this: both papers are made from it.',
          assumed: [],
          facts: { part: { value: part }, listed: { value: have }, used: { value: want } },
          at: use.at,
          notes: [],
          marks: [],
        },
      ]
    }),
  )
}
