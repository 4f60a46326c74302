import { formatLength, formatOhms } from '../../base/format-quantity.ts'
import type { Loom, Terminal } from '../../resolve/loom.ts'
import { canTermination } from '../../solve/formulas/can-termination.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { count, found, listOf, unknown } from '../outcome.ts'
import { BUS_END_OHMS, type BusEnd, type CanBus, type CanPin, canBuses } from '../queries/can-buses.ts'
import { metalDistances } from '../queries/metal-distance.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const nodeOf = (id: string, isEnd: boolean) =>
  unitOf(
    id,
    socket('J1', 'row-2', {
      '1': {
        kind: 'data',
        standard: 'can',
        line: 'CAN_H',
        port: 'BUS',
        ...(isEnd ? { terminates: '120 Ω' as const } : {}),
      },
      '2': { kind: 'data', standard: 'can', line: 'CAN_L', port: 'BUS' },
    }),
  )

const example = (isEnded: boolean) =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [nodeOf('engine', true), nodeOf('display', isEnded)],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'engine.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'display.J1' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.5 mm²', length: '6 m', pair: 'TP1' },
        { id: 'A02', from: 'P1.2', to: 'P2.2', size: '0.5 mm²', length: '6 m', pair: 'TP1' },
      ],
    },
    more: {
      installations: [
        {
          id: 'boat',
          title: 'Example boat',
          units: [
            { id: 'engine', of: 'engine', zone: 'stern' },
            { id: 'display', of: 'display', zone: 'helm' },
          ],
          looms: [{ id: 'bus', of: 'lead' }],
        },
      ],
    },
  })

/** Longest drop off the trunk of an instrument bus at 250 kbit/s; a faster bus allows less. */
const DROP_MM = 6000

const endWords = (ends: readonly BusEnd[]): string =>
  listOf(ends.map(({ address, ohms }) => `${address} ${formatOhms(ohms)}`))

/** The unit farthest from a terminal along the bus: where the missing terminator goes. */
function farthest(loom: Loom, pins: readonly CanPin[], from: Terminal): CanPin | undefined {
  const distances = metalDistances(loom, from)
  return [...pins].sort((a, b) => (distances.to(b) ?? 0) - (distances.to(a) ?? 0))[0]
}

function cureWords(ends: readonly BusEnd[], places: readonly CanPin[]): string {
  const off = ends.filter(({ ohms }) => Math.abs(ohms - BUS_END_OHMS) > 0.1 * BUS_END_OHMS)
  const each = formatOhms(BUS_END_OHMS)
  if (ends.length > 2) return `Remove ${ends.length - 2} of them, and keep those at the two ends: then 60 Ω.`
  if (off.length > 0) return `Fit ${each} in place of ${endWords(off)}, one at each end: then 60 Ω.`
  const where = listOf(places.map((pin) => pin.address))
  return ends.length === 0
    ? `Fit a terminator of ${each} at each end, by ${where}: then 60 Ω.`
    : `Fit a terminator of ${each} at the far end, by ${where}: then 60 Ω.`
}

/** The ends of the longest run that have no terminator yet. */
function openEnds({ loom }: RuleContext, { pins, ends }: CanBus): readonly CanPin[] {
  const [first] = pins
  const one = first && farthest(loom, pins, ends[0]?.on ?? first)
  if (!one || ends.length > 0) return one ? [one] : []
  const other = farthest(loom, pins, one)
  return other && other !== one ? [one, other] : [one]
}

function wrongSum(context: RuleContext, bus: CanBus): Outcome {
  const { high, pins, ends } = bus
  const { ohms } = canTermination(ends.map((end) => end.ohms))
  const places = openEnds(context, bus)
  const reads =
    ends.length === 0 ? 'no terminator' : `${count(ends.length, 'terminator')} (${formatOhms(ohms)})`
  const harm =
    ohms > 60
      ? 'Edges come back from the open end and are read as bits: faults that come and go.'
      : 'The drivers cannot move the lines far enough, and the far units stop hearing.'
  return found({
    subject: (ends.length > 2 ? ends[2]?.address : places[0]?.address) ?? high.name,
    what: `The bus ${high.name} has ${reads}; it wants two of ${formatOhms(BUS_END_OHMS)}, which are 60 Ω`,
    why: `${ends.length === 0 ? 'Nothing lies between its two lines' : endWords(ends)}. ${harm}`,
    fix: cureWords(ends, places),
    assumed: ['a unit that does not say so has no terminator inside'],
    facts: {
      terminators: { value: ends.length },
      ...(Number.isFinite(ohms) ? { ohms: { value: ohms, unit: 'Ω' } } : {}),
    },
    at: high.conductors[0]?.at ?? pins[0]?.at ?? { doc: '', path: [] },
    marks: [...pins.map((pin) => pin.address), ...ends.map((end) => end.address)],
  })
}

function wrongPlace(pin: CanPin, stubMm: number, bus: CanBus): Outcome {
  return found({
    subject: pin.address,
    what: `${pin.address} hangs ${formatLength(stubMm)} off the line between the two terminators (limit ${formatLength(DROP_MM)})`,
    why: `${endWords(bus.ends)} are not at the two ends of the longest run: what lies beyond them is an open end that answers with echoes.`,
    fix: `Move a terminator to ${pin.address}, or run the trunk past it and keep the drop short.`,
    assumed: ['250 kbit/s; a faster bus allows less'],
    facts: { stub: { value: stubMm, unit: 'mm' }, limit: { value: DROP_MM, unit: 'mm' } },
    at: bus.high.conductors[0]?.at ?? pin.at,
    marks: [pin.address, ...bus.ends.map((end) => end.address)],
  })
}

/** With two terminators of the right size: whether any unit lies far off the line between them. */
function placed({ loom }: RuleContext, bus: CanBus): Outcome | undefined {
  const [one, two] = bus.ends
  if (!one || !two) return undefined
  const [fromOne, fromTwo] = [metalDistances(loom, one.on), metalDistances(loom, two.on)]
  const trunk = fromOne.to(two.on) ?? 0
  // In a tree the ways to both ends count the trunk once and the drop twice.
  const stubs = bus.pins.map((pin) => ({
    pin,
    mm: ((fromOne.to(pin) ?? 0) + (fromTwo.to(pin) ?? 0) - trunk) / 2,
  }))
  const worst = stubs.sort((a, b) => b.mm - a.mm)[0]
  if (worst && worst.mm > DROP_MM) return wrongPlace(worst.pin, worst.mm, bus)
  const unmeasured = fromOne.unmeasured
  if (unmeasured.length === 0) return undefined
  return unknown(
    bus.high.name,
    `needs the length of ${listOf(unmeasured, 3)}, to tell whether the terminators are at the ends`,
    bus.high.conductors[0]?.at,
  )
}

function judge(context: RuleContext, bus: CanBus): Outcome | undefined {
  const { verdict } = canTermination(bus.ends.map((end) => end.ohms))
  if (bus.ends.length === 2 && verdict === 'right') return placed(context, bus)
  // A harness alone may be a piece of a bus: what is missing may be on the next piece, what is too much stays.
  if (context.loom.kind === 'harness' && verdict === 'too few')
    return unknown(
      bus.high.name,
      'needs an installation that shows the whole bus',
      bus.high.conductors[0]?.at,
    )
  return wrongSum(context, bus)
}

export const busTerminated: Rule = {
  id: 'bus-terminated',
  title: 'A CAN bus has two terminators of 120 Ω, at its ends',
  family: 'data',
  level: 'warning',
  covers: ['D1', 'D2'],
  reason:
    'The terminators swallow the edges at the two ends of the line. With one the bus works on the bench and fails in the boat; with three the drivers are overloaded; in the wrong place the rest of the line still rings.',
  remedy: 'Keep one terminator at each end of the longest run, and none elsewhere.',
  needs: 'which resistors or units terminate the bus, and the lengths',
  sources: ['ISO 11898-2', 'CiA 303-1', 'SAE J1939-11, as reported'],
  examples: { trips: example(false), passes: example(true) },
  *check(context) {
    for (const bus of canBuses(context)) {
      const outcome = judge(context, bus)
      if (outcome) yield outcome
    }
  },
}
