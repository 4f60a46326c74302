import { formatVolts } from '../../base/format-quantity.ts'
import type { PinKind } from '../../describe/function.ts'
import type { Link, Loom, Terminal } from '../../resolve/loom.ts'
import type { HighestVolts } from '../../solve/volts-reach.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { conductorsOf } from '../queries/conductor-words.ts'
import { functionWords, pinWords } from '../queries/pin-words.ts'
import { circuitOf, straySupply } from '../queries/stray-supply.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (limit: '-0.3..5.5 V' | '-0.5..16 V') =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf(
        'base',
        socket('J1', 'row-2', {
          '1': { kind: 'supply-out', name: 'ACC', volts: '12..14.4 V', maxAmps: '0.5 A' },
          '2': { kind: 'return' },
        }),
      ),
      unitOf(
        'box',
        socket('J2', 'row-2', {
          '1': { kind: 'switch-in', name: 'ALERT', active: 'high', limit },
          '2': { kind: 'signal-return' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'base.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'box.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.5 mm²', length: '1 m' },
        { id: 'A02', from: 'P1.2', to: 'P2.2', size: '0.5 mm²', length: '1 m' },
      ],
    },
  })

interface Limit {
  readonly volts: number
  /** "stands" for a limit of damage, "works on" for a working range. */
  readonly verb: string
}

/** What a pin may see at most. A supply input that states no limit of damage is held to the range it works on. */
function limitOf({ does }: Terminal): Limit | undefined {
  if (does.limit) return { volts: does.limit.max, verb: 'stands' }
  return does.kind === 'supply-in' && does.volts ? { volts: does.volts.max, verb: 'works on' } : undefined
}

/** Pins a supply has no business on, whatever they stand. */
const SIGNALS: ReadonlySet<PinKind> = new Set(['audio-in', 'audio-out', 'data'])

/** Whether the supply stands on the pin itself and does not come through a resistor or a coil. */
const isDirect = (links: readonly Link[]): boolean =>
  links.every((link) => link.kind !== 'resistor' && link.kind !== 'coil')

function wayWords(links: readonly Link[]): string {
  const ids = [...new Set(conductorsOf(links).map(({ id }) => id))]
  const through = links.filter((link) => link.component && link.kind !== 'bond').map((link) => link.component)
  const parts = [...new Set(through.map((component) => component?.id ?? ''))]
  const route = ids.length > 0 ? listOf(ids, 5) : 'the mated contact'
  return parts.length > 0 ? `${route}, through ${listOf(parts, 4)}` : route
}

/** The conductor nearest the pin: the one that brings the voltage to it. */
const lastWire = (links: readonly Link[]) => conductorsOf(links).at(-1)

function report(loom: Loom, pin: Terminal, limit: Limit, { volts, source, links }: HighestVolts): Outcome {
  const wire = lastWire(links)
  const circuit = circuitOf(loom, pin)
  return found({
    subject: pin.address,
    what: `${formatVolts(volts)} on ${pinWords(pin)}, which ${limit.verb} at most ${formatVolts(limit.volts)}`,
    why: `It comes from ${pinWords(source)} by ${wayWords(links)}.`,
    fix: `Move ${wire ? wire.id : 'the contact'} off ${pin.address}, or put a divider or converter for at most ${formatVolts(limit.volts)} in between.`,
    facts: {
      volts: { value: volts, unit: 'V' },
      limit: { value: limit.volts, unit: 'V' },
      source: { value: source.address },
    },
    at: wire?.at ?? pin.at,
    ...(circuit ? { cause: straySupply(source, circuit) } : {}),
    marks: [source.address, pin.address, ...conductorsOf(links).map(({ address }) => address)],
  })
}

function judge({ loom, paths }: RuleContext, pin: Terminal): Outcome | undefined {
  const reached = paths.highestVolts(pin)
  if (!reached || reached.source === pin) return undefined
  const limit = limitOf(pin)
  if (limit) return reached.volts > limit.volts ? report(loom, pin, limit, reached) : undefined
  const meetsSupply = reached.source.does.kind === 'supply-out' && isDirect(reached.links)
  if (!SIGNALS.has(pin.does.kind) || !meetsSupply) return undefined
  return unknown(
    pin.address,
    `needs the highest voltage ${pin.address} (${functionWords(pin.does)}) stands: ${formatVolts(reached.volts)} from ${reached.source.address} is on it`,
    pin.at,
  )
}

export const voltsWithinLimit: Rule = {
  id: 'volts-within-limit',
  title: 'No pin gets more voltage than it stands',
  family: 'power',
  level: 'stop',
  covers: ['P8'],
  reason:
    'One wire in the wrong cavity puts a supply on an input that stands a few volts. The input dies at once, often with the board behind it, and the radio looks as if it had been faulty before.',
  remedy: 'Take the supply off that pin, or bring it down by a divider, relay or converter.',
  needs: 'the highest voltage of supplies, and the limits of pins',
  sources: ['limits stated by the maker of each unit', 'common practice'],
  examples: { trips: example('-0.3..5.5 V'), passes: example('-0.5..16 V') },
  *check(context) {
    for (const pin of context.loom.terminals) {
      if (pin.on !== 'equipment') continue
      const outcome = judge(context, pin)
      if (outcome) yield outcome
    }
  },
}
