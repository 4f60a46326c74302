import { formatRange, formatVolts } from '../../base/format-quantity.ts'
import type { FunctionOf } from '../../describe/function.ts'
import type { Circuit, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { pinWords } from '../queries/pin-words.ts'
import { straySupply } from '../queries/stray-supply.ts'
import type { Outcome, Rule } from '../rule.ts'

type Standard = FunctionOf<'data'>['standard']

const example = (standard: Standard) =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf(
        'computer',
        socket('J1', 'row-2', {
          '1': { kind: 'data', name: 'TXD', standard: 'tia-232', line: 'TXD', direction: 'out' },
          '2': { kind: 'signal-return' },
        }),
      ),
      unitOf(
        'radio',
        socket('J2', 'row-2', {
          '1': { kind: 'data', name: 'PROG', standard, line: 'RXD', direction: 'in', limit: '-15..15 V' },
          '2': { kind: 'signal-return' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'computer.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'radio.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.22 mm²', length: '1 m' },
        { id: 'A02', from: 'P1.2', to: 'P2.2', size: '0.22 mm²', length: '1 m' },
      ],
    },
  })

type DataPin = Terminal & { readonly does: FunctionOf<'data'> }
type SupplyPin = Terminal & { readonly does: FunctionOf<'supply-out'> }

const isData = (pin: Terminal): pin is DataPin => pin.on === 'equipment' && pin.does.kind === 'data'
const isSupply = (pin: Terminal): pin is SupplyPin => pin.on === 'equipment' && pin.does.kind === 'supply-out'

/** Lines of balanced drivers: IEC 61162-1 talkers are V.11 drivers, which is TIA-422, and TIA-485 receivers hear them. */
const BALANCED: ReadonlySet<Standard> = new Set(['tia-422', 'tia-485', 'iec-61162-1'])

const world = (standard: Standard): string => (BALANCED.has(standard) ? 'balanced' : standard)

/** Levels on a line, as the standards give them: TIA-232 drivers ±5 to ±15 V, ISO 11898-2, USB 2.0 and logic below 5.5 V. */
const LEVELS: Partial<Record<Standard, string>> = {
  'tia-232': 'tia-232 swings to ±5 to ±15 V',
  'tia-422': 'tia-422 puts 2 to 6 V between two legs',
  'tia-485': 'tia-485 puts 1.5 to 5 V between two legs',
  'iec-61162-1': 'iec-61162-1 puts 2 to 6 V between two legs',
  can: 'can lines rest at 2.5 V and move by 1 V',
  ttl: 'ttl stays between 0 and 5 V',
  'usb-2.0': 'usb-2.0 stays between 0 and 3.6 V',
  ethernet: 'ethernet is coupled through transformers at 1 to 2.5 V',
  'audio-aes3': 'audio-aes3 puts 2 to 7 V between two legs, at 110 Ω',
}

const wiresOf = (circuit: Circuit) => circuit.nets.flatMap((net) => net.conductors)

function mixed(one: DataPin, other: DataPin, circuit: Circuit): Outcome {
  const levels = [one, other].flatMap((pin) => LEVELS[pin.does.standard] ?? [])
  const wires = wiresOf(circuit)
  const [dangerous] = [one, other].filter((pin) => pin.does.standard === 'tia-232')
  return found({
    subject: (dangerous === one ? other : one).address,
    level: dangerous ? 'stop' : 'warning',
    what: `Two standards on one line: ${pinWords(one)} and ${pinWords(other)}`,
    why: `${listOf(levels)}. ${dangerous ? 'The higher one can end the input of the lower.' : 'They do not understand each other.'}`,
    fix: `Put a converter from ${one.does.standard} to ${other.does.standard} between, or wire to another port.`,
    facts: { first: { value: one.does.standard }, second: { value: other.does.standard } },
    at: wires[0]?.at ?? one.at,
    marks: [one.address, other.address, ...wires.map((wire) => wire.address)],
  })
}

function powered(data: DataPin, supply: SupplyPin, circuit: Circuit): Outcome {
  const { volts } = supply.does
  const { limit } = data.does
  const wires = wiresOf(circuit)
  return found({
    subject: data.address,
    what: `A supply is on a data pin: ${pinWords(supply)} meets ${pinWords(data)}`,
    why: `${volts ? formatRange(volts, formatVolts) : 'The supply'} stands on a ${data.does.standard} line${
      limit ? ` that bears ${formatRange(limit, formatVolts)}` : ''
    }, and nothing limits its current: the port is lost at switch-on.`,
    fix: `Take ${wires[0] ? `${listOf(wires.map((wire) => wire.id))} off ${data.address}` : 'one of the two off'}, and blank the pin in the plug.`,
    facts: {
      supply: { value: supply.address },
      data: { value: data.address },
      ...(volts ? { volts: { value: volts.max, unit: 'V' } } : {}),
    },
    at: wires[0]?.at ?? data.at,
    cause: straySupply(supply, circuit),
    marks: [supply.address, data.address, ...wires.map((wire) => wire.address)],
  })
}

/** Each standard on the line against the first: one finding for each that is foreign there. */
function* standardsOn(pins: readonly DataPin[], circuit: Circuit): Iterable<Outcome> {
  const known = pins.filter((pin) => pin.does.standard !== 'proprietary')
  const [first] = known
  if (!first) return
  const met = new Set([world(first.does.standard)])
  for (const pin of known) {
    const own = world(pin.does.standard)
    if (met.has(own)) continue
    met.add(own)
    yield mixed(first, pin, circuit)
  }
  const blank = pins.find((pin) => pin.does.standard === 'proprietary')
  if (blank)
    yield unknown(
      blank.address,
      `needs the electrical standard of ${pinWords(blank)}, which meets ${first.does.standard}`,
      blank.at,
    )
}

export const oneStandardPerJoint: Rule = {
  id: 'one-standard-per-joint',
  title: 'A data line has one standard, and no supply',
  family: 'data',
  level: 'stop',
  covers: ['D5'],
  reason:
    'Connectors are shared by standards that do not mix: the nine-way that carries TIA-232 at one end may carry logic levels or a supply at the other. A port that gets the wrong volts is dead, and it looks like a fault of the software.',
  remedy: 'Put a converter between, or leave the pin unconnected and blank it.',
  needs: 'the electrical standard of each data pin, and which pins are supplies',
  sources: ['TIA-232-F', 'TIA-422-B', 'IEC 61162-1', 'ISO 11898-2', 'common practice'],
  examples: { trips: example('ttl'), passes: example('tia-232') },
  *check({ loom }) {
    for (const circuit of loom.circuits) {
      const pins = circuit.terminals.filter(isData)
      const first = pins[0]
      if (!first) continue
      const supply = circuit.terminals.find(isSupply)
      if (supply) yield powered(first, supply, circuit)
      yield* standardsOn(pins, circuit)
    }
  },
}
