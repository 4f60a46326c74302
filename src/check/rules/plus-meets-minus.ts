import { formatRange, formatVolts } from '../../base/format-quantity.ts'
import type { Circuit, Loom, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import { crowdedContacts } from '../queries/crowded-contacts.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (to: string) =>
  exampleLead({
    parts: [rowHousing(4)],
    equipment: [
      unitOf(
        'supply',
        socket('J1', 'row-4', {
          '1': { kind: 'supply-out', volts: '12 V', maxAmps: '0.1 A', port: 'OUT' },
          '2': { kind: 'return', port: 'OUT' },
        }),
      ),
      unitOf('panel', socket('J2', 'row-4', { '1': {}, '2': { kind: 'return' } })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'supply.J1' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'panel.J2' },
      ],
      components: [{ id: 'F1', kind: 'fuse', rating: '1 A' }],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'F1.in', size: '0.5 mm²', length: '0.1 m' },
        { id: 'A02', from: 'F1.out', to, size: '0.5 mm²', length: '1 m' },
        { id: 'A03', from: 'P1.2', to: 'P2.3', size: '0.5 mm²', length: '1 m' },
      ],
    },
  })

const isPlus = (pin: Terminal): boolean => pin.does.kind === 'supply-out' && (pin.does.volts?.max ?? 1) > 0

const isMinus = (pin: Terminal): boolean =>
  pin.does.kind === 'return' || pin.does.kind === 'chassis' || pin.does.kind === 'signal-return'

const hasSource = (pin: Terminal): boolean =>
  pin.half?.unit?.halves.some((half) => [...half.pins.values()].some(isPlus)) ?? false

/** Batteries in series: the minus of one source on the plus of another is meant, and so is what hangs on the middle. */
const isSeriesJoint = (plus: readonly Terminal[], minus: readonly Terminal[]): boolean =>
  minus.some((pin) => hasSource(pin) && plus.every((other) => other.half?.unit !== pin.half?.unit))

/** An overfull contact on the way is the one place to mend, so the two findings share its cause. */
function causeIn(circuit: Circuit, crowded: ReadonlySet<Terminal>): string | undefined {
  const there = circuit.terminals.filter((terminal) => crowded.has(terminal))
  return there.length === 1 && there[0] ? `contact:${there[0].address}` : undefined
}

const wiresOf = (circuit: Circuit) => circuit.nets.flatMap((net) => net.conductors)

function shorted(circuit: Circuit, plus: Terminal, minus: Terminal, cause: string | undefined): Outcome {
  const volts = plus.does.kind === 'supply-out' ? plus.does.volts : undefined
  const wires = wiresOf(circuit)
  return found({
    subject: plus.address,
    what: `Plus meets minus: ${pinWords(plus)} and ${pinWords(minus)} are one circuit`,
    why: `${volts ? formatRange(volts, formatVolts) : 'The supply'} stands across nothing but copper: ${
      circuit.nets.length > 1 ? 'a fuse blows at once' : 'no fuse lies between, and the wire burns'
    }.`,
    fix: `Follow the conductors between the two and part them${wires[0] ? `, from ${wires[0].address} on` : ''}.`,
    facts: {
      plus: { value: plus.address },
      minus: { value: minus.address },
      ...(volts ? { volts: { value: volts.max, unit: 'V' } } : {}),
    },
    at: wires[0]?.at ?? plus.at,
    ...(cause ? { cause } : {}),
    marks: [plus.address, minus.address, ...wires.map((wire) => wire.address)],
  })
}

function reversed(circuit: Circuit, load: Terminal, minus: Terminal, cause: string | undefined): Outcome {
  const wires = wiresOf(circuit)
  return found({
    subject: load.address,
    what: `A supply input is on the negative: ${pinWords(load)} meets ${pinWords(minus)}`,
    why: 'The load gets no volts, or gets them the wrong way round through its return.',
    fix: `Bring ${load.address} to the positive, and look whether its return has taken that place.`,
    facts: { input: { value: load.address }, minus: { value: minus.address } },
    at: wires[0]?.at ?? load.at,
    ...(cause ? { cause } : {}),
    marks: [load.address, minus.address, ...wires.map((wire) => wire.address)],
  })
}

function judge(circuit: Circuit, crowded: ReadonlySet<Terminal>): Outcome | undefined {
  const pins = circuit.terminals.filter((terminal) => terminal.on === 'equipment')
  const plus = pins.filter(isPlus)
  const minus = pins.filter(isMinus)
  if (minus.length === 0 || isSeriesJoint(plus, minus)) return undefined
  const first = plus[0]
  const cause = causeIn(circuit, crowded)
  if (first) {
    const other = minus.find((pin) => pin.half?.unit === first.half?.unit) ?? minus[0]
    return other && shorted(circuit, first, other, cause)
  }
  const load = pins.find((pin) => pin.does.kind === 'supply-in')
  const other = minus[0]
  return load && other ? reversed(circuit, load, other, cause) : undefined
}

const crowdedIn = (loom: Loom): ReadonlySet<Terminal> =>
  new Set([...crowdedContacts(loom)].map(({ contact }) => contact))

export const plusMeetsMinus: Rule = {
  id: 'plus-meets-minus',
  title: 'Plus and minus never meet through the loom',
  family: 'power',
  level: 'stop',
  covers: ['P9'],
  reason:
    'A battery gives hundreds of amperes into a short. Where a fuse lies between it blows; where none does the wire glows. A load connected the wrong way round often dies before either.',
  remedy: 'Find the conductor, the contact or the crossed pair that joins them, and part it.',
  needs: 'which pins are supplies and which are returns',
  sources: ['common practice'],
  examples: { trips: example('P2.2'), passes: example('P2.1') },
  *check({ loom }) {
    const crowded = crowdedIn(loom)
    for (const circuit of loom.circuits) {
      const outcome = judge(circuit, crowded)
      if (outcome) yield outcome
    }
  },
}
