import type { FunctionOf } from '../../describe/function.ts'
import type { Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

type DataPin = Terminal & { readonly does: FunctionOf<'data'> }

const example = (a: '1' | '2') => {
  const pins = (direction: 'in' | 'out') => ({
    '1': { kind: 'data', standard: 'tia-422', line: 'A', idle: 'low', direction, port: 'd' } as const,
    '2': { kind: 'data', standard: 'tia-422', line: 'B', idle: 'high', direction, port: 'd' } as const,
  })
  return exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf('talker', socket('J1', 'row-2', pins('out'))),
      unitOf('listener', socket('J2', 'row-2', pins('in'))),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'talker.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'listener.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: `P2.${a}`, size: '0.25 mm²', pair: 'TP1' },
        { id: 'A02', from: 'P1.2', to: `P2.${a === '1' ? '2' : '1'}`, size: '0.25 mm²', pair: 'TP1' },
      ],
    },
  })
}

const BALANCED: ReadonlySet<string> = new Set(['tia-422', 'tia-485', 'iec-61162-1'])

const isBalanced = (pin: Terminal): pin is DataPin =>
  pin.on === 'equipment' && pin.does.kind === 'data' && BALANCED.has(pin.does.standard)

const letter = (pin: DataPin): string => pin.does.line.trim().toUpperCase()

/** CAN lines have names that everybody uses alike, so the name tells. */
const isCan = (pin: Terminal): pin is DataPin =>
  pin.on === 'equipment' && pin.does.kind === 'data' && pin.does.standard === 'can'

function canLeg(pin: DataPin): 'H' | 'L' | undefined {
  const found = /(?:^|[ _-])(H|L|HIGH|LOW)$/.exec(letter(pin))?.[1]
  return found === undefined ? undefined : found.startsWith('H') ? 'H' : 'L'
}

function swapped({ paths }: RuleContext, one: DataPin, two: DataPin, how: string): Outcome {
  const wires = paths.nets.conductorsAt(two)
  return found({
    subject: two.address,
    what: `${pinWords(two)} is on the other leg: ${pinWords(one)}`,
    why: `${how}. Swapped, every bit is upside down and nothing is heard; nothing is damaged.`,
    fix: `Swap the two wires of the pair at one end, and leave the other end as it is.`,
    facts: { one: { value: one.address }, two: { value: two.address } },
    at: wires[0]?.at ?? two.at,
    cause: `swapped:${[one.half?.address, two.half?.address].sort().join(' ')}`,
    marks: [one.address, two.address, ...wires.map(({ address }) => address)],
  })
}

function* judge(context: RuleContext, pins: readonly Terminal[]): Iterable<Outcome> {
  const balanced = pins.filter(isBalanced)
  const [first] = balanced
  for (const pin of balanced.slice(1)) {
    if (!first || pin.half === first.half) continue
    const [one, two] = [first.does.idle, pin.does.idle]
    if (one !== undefined && two !== undefined) {
      if (one !== two)
        yield swapped(
          context,
          first,
          pin,
          `At rest ${first.address} is ${one} and ${pin.address} ${two}; the level tells the leg, since makers disagree about the letters A and B`,
        )
      continue
    }
    const bare = [first, pin].filter(({ does }) => does.idle === undefined).map(({ address }) => address)
    yield unknown(pin.address, `needs the level at rest of ${listOf(bare)}`, pin.at)
  }
  const can = pins.filter(isCan)
  const [bus] = can
  for (const pin of can.slice(1))
    if (bus && canLeg(bus) && canLeg(pin) && canLeg(bus) !== canLeg(pin))
      yield swapped(
        context,
        bus,
        pin,
        `${bus.address} is CAN ${canLeg(bus)} and ${pin.address} CAN ${canLeg(pin)}`,
      )
}

export const dataLegsSwapped: Rule = {
  id: 'data-legs-swapped',
  title: 'The two legs of a balanced data line keep their identity',
  family: 'data',
  level: 'warning',
  covers: ['D3'],
  reason:
    'Makers do not agree which leg of a balanced line is A and which is B, so a lead wired by letters may be swapped. The level at rest tells them apart.',
  remedy: 'Swap the pair at one end.',
  needs: 'the level of each line at rest',
  sources: ['TIA-422 and TIA-485 name the legs A and B; makers differ, as reported', 'ISO 11898-2'],
  examples: { trips: example('2'), passes: example('1') },
  *check(context) {
    for (const net of context.loom.nets) yield* judge(context, net.terminals)
  },
}
