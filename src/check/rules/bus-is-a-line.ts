import { formatLength } from '../../base/format-quantity.ts'
import type { Terminal } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { count, found } from '../outcome.ts'
import { type DataBus, dataBuses } from '../queries/data-buses.ts'
import { lineTopology } from '../queries/line-topology.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const node = {
  pins: {
    '1': { kind: 'data' as const, standard: 'tia-485' as const, line: 'A', direction: 'both' as const },
    '2': { kind: 'data' as const, standard: 'tia-485' as const, line: 'B', direction: 'both' as const },
    '3': { kind: 'signal-return' as const },
  },
}

const example = (reference: boolean) =>
  wired({
    units: { controller: node, sensor: node },
    runs: [
      ['controller.1', 'sensor.1', { length: '4 m', pair: 'TP1' }],
      ['controller.2', 'sensor.2', { length: '4 m', pair: 'TP1' }],
      ...(reference ? ([['controller.3', 'sensor.3', { length: '4 m' }]] as const) : []),
    ],
  })

/** A line shorter than this needs no termination at usual rates: common practice. */
const SHORT_MM = 10_000
const STUB_MM = 1000

const isZero = ({ does }: Terminal): boolean =>
  does.kind === 'signal-return' || does.kind === 'return' || does.kind === 'chassis'

/** Whether two units share a reference: some zero-volt pins of theirs are one circuit. */
function share({ paths }: RuleContext, a: Terminal, b: Terminal): boolean {
  const nets = ({ half }: Terminal) =>
    (half?.unit?.halves ?? [])
      .flatMap((entry) => [...entry.pins.values()])
      .filter(isZero)
      .map((pin) => paths.nets.circuit(paths.nets.net(pin)))
  const there = new Set(nets(b))
  return nets(a).some((circuit) => there.has(circuit))
}

function* judge(bus: DataBus, context: RuleContext): Iterable<Outcome> {
  const { pins, terminators, net } = bus
  const [first] = pins
  if (!first) return
  const at = net.conductors[0]?.at ?? first.at
  const lone = pins.find(
    (pin) => pin !== first && pin.half?.unit !== first.half?.unit && !share(context, first, pin),
  )
  if (lone && !lone.does.isolated)
    yield found({
      subject: lone.address,
      what: `${lone.half?.unit?.id} shares no reference with ${first.half?.unit?.id} on the line of ${first.address}`,
      why: 'Receivers bear -7 V to +12 V against their own zero; two floating units drift out of that.',
      fix: 'Run a reference conductor beside the pair.',
      facts: { units: { value: `${first.half?.unit?.id} ${lone.half?.unit?.id}` } },
      at,
      marks: [first.address, lone.address],
    })
  const line = lineTopology(context.loom, [...pins, ...terminators], pins)
  if (!line) return
  const star = line.stubs.find(({ mm }) => mm > STUB_MM)
  if (star)
    yield found({
      subject: star.pin.address,
      what: `${star.pin.address} hangs ${formatLength(star.mm)} off the line: a star, and the bus is a line`,
      why: `From ${line.ends[0].address} to ${line.ends[1].address} it is ${formatLength(line.backboneMm)}; the branch sends back echoes.`,
      fix: 'Run the pair in and out at each unit.',
      facts: { stub: { value: star.mm, unit: 'mm' } },
      at: star.pin.at,
      marks: [star.pin.address],
    })
  if (line.backboneMm > SHORT_MM && terminators.length !== 2)
    yield found({
      subject: first.address,
      what: `The line of ${first.address} is ${formatLength(line.backboneMm)} long and has ${count(terminators.length, 'terminator')}`,
      why: 'A long pair wants 120 Ω at each of its two ends and nowhere else.',
      fix: `Terminate at ${line.ends[0].address} and ${line.ends[1].address}.`,
      facts: { terminators: { value: terminators.length }, length: { value: line.backboneMm, unit: 'mm' } },
      at,
      marks: line.ends.map((end) => end.address),
    })
}

export const busIsALine: Rule = {
  id: 'bus-is-a-line',
  title: 'An RS-485 bus is one line, ended at both ends, with a reference',
  family: 'data',
  level: 'warning',
  covers: ['D6'],
  reason:
    'The pair carries the difference, but each receiver bears only so much between the pair and its own zero. And a line with branches or without ends echoes.',
  remedy: 'Daisy-chain, 120 Ω at the two ends, and a reference conductor.',
  needs: 'which units are on the bus, their return pins, lengths and terminators',
  sources: ['TIA-485-A, from memory', 'bus guides, as reported'],
  examples: { trips: example(false), passes: example(true) },
  *check(context) {
    for (const bus of dataBuses(context.loom, 'tia-485')) yield* judge(bus, context)
  },
}
