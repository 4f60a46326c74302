import type { Edit, Finding, ValueChange } from '../../base/finding.ts'
import { naturalOrder } from '../../base/natural-order.ts'
import { below } from '../../base/place.ts'
import { bothSizes, parseWireSize, tradeSizes, type WireGauge } from '../../base/wire-size.ts'
import type { Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import { listOf } from '../outcome.ts'
import { contactOf } from '../queries/contact-of.ts'
import { contactsFor, inCavity } from './cavity.ts'
import { type Ladder, type Mend, markedConductors } from './mend.ts'

/** Areas closer than this are one size. */
const SAME_SIZE = 0.999
/** Gauges and metric sizes of one trade name differ by this much, as `wire-fits-contact` has it. */
const CONTACT_SLACK = 1.05
/** Ends of these kinds are bought with the wire; the others have contacts of their own, which must be known. */
const BOUGHT_WITH_THE_WIRE: ReadonlySet<string> = new Set(['ring', 'stud', 'terminal', 'wire-end'])

/** Whether it can be told what fits the end of a wire: a thicker wire must not be offered for a barrel nobody has named. */
function isKnownEnd(loom: Loom, end: Terminal | undefined): boolean {
  const { half } = end ?? {}
  if (half?.side !== 'harness') return end !== undefined
  if (BOUGHT_WITH_THE_WIRE.has(half.family?.style ?? '')) return true
  return end !== undefined && contactOf(loom.parts, end).options.length > 0
}

/** A single wire whose size is written with it. Cores come with their cable, and sizes of a part with the part. */
const canThicken = (loom: Loom, wire: Conductor): boolean =>
  wire.kind === 'wire' &&
  wire.size !== undefined &&
  'size' in wire.source &&
  wire.source.size !== undefined &&
  wire.wirePart?.size === undefined &&
  isKnownEnd(loom, wire.from) &&
  isKnownEnd(loom, wire.to)

/** Sizes the wire is made in: those its part lists, else the stock sizes of its own system. */
function sizesOf(wire: Conductor): readonly WireGauge[] {
  const own = wire.size?.awg === undefined
  const listed = Object.keys(wire.wirePart?.ods ?? {}).flatMap((text) => {
    const size = parseWireSize(text)
    return size.ok && (size.value.awg === undefined) === own ? [size.value] : []
  })
  const sizes = listed.length > 0 ? listed : tradeSizes(own ? 'metric' : 'awg')
  return [...sizes].sort((a, b) => a.areaMm2 - b.areaMm2)
}

const isThinner = (wire: Conductor, size: WireGauge): boolean =>
  (wire.size?.areaMm2 ?? Number.POSITIVE_INFINITY) < size.areaMm2 * SAME_SIZE

/** A contact that is named and too small for the new size goes with the wire, where the family has one other that fits. */
function newContact(
  loom: Loom,
  end: Terminal | undefined,
  size: WireGauge,
): readonly [string, ValueChange][] {
  const { half } = end ?? {}
  if (!end || half?.side !== 'harness') return []
  const { named, options } = contactOf(loom.parts, end)
  const [meant] = options
  if (!named || !meant || size.areaMm2 <= meant.area.max * CONTACT_SLACK) return []
  const [id, second] = contactsFor(loom, end, meant, size.areaMm2)
  if (id === undefined || second !== undefined) return []
  return [[`${half.id}.${end.name} to contact ${id}`, inCavity(half, end.name, 'contact', id)]]
}

function editTo(loom: Loom, wires: readonly Conductor[], size: WireGauge): Edit {
  const contacts = wires.flatMap(({ from, to }) => [from, to].flatMap((end) => newContact(loom, end, size)))
  return {
    what: [
      `${listOf(wires.map(({ id }) => id).sort(naturalOrder))} to ${bothSizes(size)}`,
      ...new Set(contacts.map(([words]) => words)),
    ].join('; '),
    changes: [
      ...wires.map((wire) => ({ at: below(wire.at, 'size'), value: size.label })),
      ...contacts.map(([, change]) => change),
    ],
  }
}

/**
 * Sizes thicker than the first wire, the smallest first, each for the first wire and all the others that are thinner than it. None
 * where one of them cannot change by itself.
 */
export function thickerLadder(
  loom: Loom,
  wires: readonly Conductor[],
  mostMm2 = Number.POSITIVE_INFINITY,
): Ladder {
  const [first] = wires
  if (!first || !wires.every((wire) => canThicken(loom, wire))) return []
  // Twisted wires are of one size: half a pair is not made thicker.
  const lonely = wires.some(
    ({ pair }) => pair !== undefined && wires.filter((other) => other.pair === pair).length < 2,
  )
  if (lonely) return []
  const labels = wires.map((wire) => new Set(sizesOf(wire).map(({ label }) => label)))
  return sizesOf(first)
    .filter(
      (size) =>
        size.areaMm2 <= mostMm2 && isThinner(first, size) && labels.every((each) => each.has(size.label)),
    )
    .map((size) =>
      editTo(
        loom,
        wires.filter((wire) => isThinner(wire, size)),
        size,
      ),
    )
}

export const byArea = (a: Conductor, b: Conductor): number => (a.size?.areaMm2 ?? 0) - (b.size?.areaMm2 ?? 0)

/** At each size the wire that loses most alone, then all of the way that are thinner: as the fix in words has it. */
function forDrop(finding: Finding, loom: Loom): readonly Ladder[] {
  const all = markedConductors(finding, loom).filter(({ kind }) => kind !== 'shield')
  const named = finding.facts.worst?.value
  const worst =
    named === undefined ? loom.conductorAt.get(finding.marks[0] ?? '') : all.find(({ id }) => id === named)
  if (!worst) return []
  const others = all.filter((one) => one !== worst)
  const together = thickerLadder(loom, [worst, ...others])
  if (together.length > 0) return [thickerLadder(loom, [worst]), together]
  // Where the others cannot follow, one wire is not made thicker than they are to make up for them.
  const most = Math.max(...others.map(({ size }) => size?.areaMm2 ?? 0))
  return [thickerLadder(loom, [worst], most)]
}

function forReturn(finding: Finding, loom: Loom): readonly Ladder[] {
  const named = finding.facts.conductor?.value
  const wire = markedConductors(finding, loom).find(({ id }) => id === named)
  return wire ? [thickerLadder(loom, [wire])] : []
}

const DROP_RULES = ['voltage-at-load', 'feeder-drop']

/** Rules that judge a conductor by its size: the size offered has to satisfy all of them at once. */
export const SIZE_RULES: ReadonlySet<string> = new Set([
  ...DROP_RULES,
  'fuse-protects-wire',
  'load-within-ampacity',
  'return-as-big-as-feed',
  'short-opens-fuse',
  'thin-wire-afloat',
  'wire-fits-contact',
])

export const thickerWire: Mend = {
  id: 'thicker-wire',
  rules: [...DROP_RULES, 'load-within-ampacity', 'return-as-big-as-feed', 'thin-wire-afloat'],
  propose(finding, { loom }) {
    if (DROP_RULES.includes(finding.rule)) return forDrop(finding, loom)
    if (finding.rule === 'return-as-big-as-feed') return forReturn(finding, loom)
    return [thickerLadder(loom, [...markedConductors(finding, loom)].sort(byArea))]
  },
}
