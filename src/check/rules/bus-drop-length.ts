import { formatLength } from '../../base/format-quantity.ts'
import type { Terminal } from '../../resolve/loom.ts'
import { throughMetal } from '../../solve/reach.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { count, found, listOf, unknown } from '../outcome.ts'
import { type CanBus, type CanPin, canBuses } from '../queries/can-buses.ts'
import { conductorsOf } from '../queries/conductor-words.ts'
import { type Distances, metalDistances } from '../queries/metal-distance.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const bus = {
  '1': { kind: 'data', standard: 'can', line: 'CAN_H', port: 'BUS' },
  '2': { kind: 'data', standard: 'can', line: 'CAN_L', port: 'BUS' },
} as const

const example = (length: '7 m' | '6 m') =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      {
        ...unitOf('tee', socket('A', 'row-2', bus), socket('B', 'row-2', bus)),
        role: 'distribution',
        joins: [{ pins: ['A.1', 'B.1'] }, { pins: ['A.2', 'B.2'] }],
      },
      unitOf('display', socket('J1', 'row-2', bus)),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'tee.A' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'display.J1' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.5 mm²', length, pair: 'TP1' },
        { id: 'A02', from: 'P1.2', to: 'P2.2', size: '0.5 mm²', length, pair: 'TP1' },
      ],
    },
  })

/** Limits of an instrument bus at 250 kbit/s. */
const DROP_MM = 6000
const ALL_DROPS_MM = 78_000
const TRUNK_MM = 100_000

interface Drop {
  readonly pin: CanPin
  readonly tee: Terminal
  readonly mm: number
}

const isTee = (pin: Terminal): boolean => pin.half?.unit?.equipment.role === 'distribution'

/** Each unit with the tee nearest to it along the bus. */
function dropsOf(distances: ReadonlyMap<CanPin, Distances>, { pins }: CanBus): readonly Drop[] {
  const tees = pins.filter(isTee)
  return pins.flatMap((pin) => {
    if (isTee(pin)) return []
    const near = tees
      .flatMap((tee) => {
        const mm = distances.get(tee)?.to(pin)
        return mm === undefined ? [] : [{ pin, tee, mm }]
      })
      .sort((a, b) => a.mm - b.mm)[0]
    return near ? [near] : []
  })
}

function tooLong({ paths }: RuleContext, { pin, tee, mm }: Drop): Outcome {
  const wires = conductorsOf(paths.between(tee, pin, throughMetal) ?? [])
  const longest = [...wires].sort((a, b) => (b.lengthMm ?? 0) - (a.lengthMm ?? 0))[0]
  return found({
    subject: pin.address,
    what: `The drop from ${tee.address} to ${pin.address} is ${formatLength(mm)} long (limit ${formatLength(DROP_MM)})`,
    why: `A drop has no terminator: each edge runs to its end and back, and ${formatLength(mm)} are long enough to be seen as bits.`,
    fix: `Bring the trunk within ${formatLength(DROP_MM)} of ${pin.half?.unit?.id ?? pin.address}: move ${tee.half?.unit?.id ?? 'the tee'} there, or run the trunk past it and end it there.`,
    assumed: ['250 kbit/s; a faster bus allows less'],
    facts: { drop: { value: mm, unit: 'mm' }, limit: { value: DROP_MM, unit: 'mm' } },
    at: longest?.at ?? pin.at,
    marks: [pin.address, tee.address, ...wires.map(({ address }) => address)],
  })
}

function tooMuch(
  high: CanBus['high'],
  what: string,
  mm: number,
  limit: number,
  marks: readonly string[],
): Outcome {
  return found({
    subject: marks[0] ?? high.name,
    what: `${what} ${formatLength(mm)} on the bus ${high.name} (limit ${formatLength(limit)})`,
    why: 'The bits have to be at the far end and back before they are sampled, and every drop loads the line.',
    fix: 'Shorten it, or part the bus in two with a bridge.',
    assumed: ['250 kbit/s; a faster bus allows less'],
    facts: { length: { value: mm, unit: 'mm' }, limit: { value: limit, unit: 'mm' } },
    at: high.conductors[0]?.at ?? { doc: '', path: [] },
    marks,
  })
}

function* judge(context: RuleContext, one: CanBus): Iterable<Outcome> {
  const tees = one.pins.filter(isTee)
  if (tees.length === 0) return
  const distances = new Map(tees.map((tee) => [tee, metalDistances(context.loom, tee)]))
  const unmeasured = [...new Set([...distances.values()].flatMap((each) => each.unmeasured))]
  if (unmeasured.length > 0)
    yield unknown(one.high.name, `needs the length of ${listOf(unmeasured, 3)}`, one.high.conductors[0]?.at)
  const drops = dropsOf(distances, one)
  // Between two terminators a long drop is the same finding as a terminator in the wrong place.
  if (one.ends.length !== 2) for (const drop of drops) if (drop.mm > DROP_MM) yield tooLong(context, drop)
  const all = drops.reduce((total, { mm }) => total + mm, 0)
  const marks = drops.map(({ pin }) => pin.address)
  if (all > ALL_DROPS_MM)
    yield tooMuch(one.high, `${count(drops.length, 'drop')} together make`, all, ALL_DROPS_MM, marks)
  const trunk = Math.max(0, ...tees.flatMap((tee) => tees.map((other) => distances.get(tee)?.to(other) ?? 0)))
  if (trunk > TRUNK_MM)
    yield tooMuch(
      one.high,
      'The trunk is',
      trunk,
      TRUNK_MM,
      tees.map(({ address }) => address),
    )
}

export const busDropLength: Rule = {
  id: 'bus-drop-length',
  title: 'Drops and trunk of an instrument bus keep within their lengths',
  family: 'data',
  level: 'warning',
  covers: ['D7'],
  reason:
    'The bus is a line with short branches. A long branch is a second line with an open end, and its echoes are read as bits: one instrument drops out now and then and nobody finds out why.',
  remedy: 'Bring the trunk to the instrument, so that the drop is short.',
  needs: 'lengths of the bus cables, and role "distribution" of the tees',
  sources: [
    'installation text of marine instrument buses: drop 6 m, all drops 78 m, trunk 100 m at 250 kbit/s',
  ],
  examples: { trips: example('7 m'), passes: example('6 m') },
  *check(context) {
    for (const one of canBuses(context)) yield* judge(context, one)
  },
}
