import type { Unit } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { pinWords } from '../queries/pin-words.ts'
import { isKey, type KeyInput, type UnpluggedKey, unplugKey } from '../queries/unplugged-keys.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (pull: 'up' | 'down') =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf(
        'radio',
        socket('J1', 'row-2', {
          '1': { kind: 'switch-in', name: 'PTT', active: 'low', pull, purpose: 'key', note: 'time-out 60 s' },
          '2': { kind: 'signal-return' },
        }),
      ),
      unitOf(
        'pedal',
        socket('J2', 'row-2', {
          '1': { kind: 'contact', port: 'foot', rest: 'open' },
          '2': { kind: 'contact', port: 'foot' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'radio.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'pedal.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.22 mm²' },
        { id: 'A02', from: 'P1.2', to: 'P2.2', size: '0.22 mm²' },
      ],
    },
  })

const DOES = { key: 'keys the transmitter', alarm: 'sounds the alarm' } as const

const doesWhat = (pin: KeyInput): string => DOES[pin.does.purpose === 'alarm' ? 'alarm' : 'key']

function unplugged({ pin, half, level, effect }: UnpluggedKey): Outcome | undefined {
  const { active } = pin.does
  if (effect === 'off' || active === undefined) return undefined
  return found({
    subject: pin.address,
    level: level === undefined ? 'warning' : 'stop',
    what: `With ${half.address} unplugged ${pinWords(pin)} ${level === undefined ? 'floats, and may be taken for on' : `goes ${level} and ${doesWhat(pin)}`}`,
    why:
      level === undefined
        ? `It is active ${active} and nothing pulls it to ${active === 'low' ? 'high' : 'low'} once the plug is off.`
        : `It is active ${active}, and what is left on the line holds it ${level}.`,
    fix: `Pull it ${active === 'low' ? 'up' : 'down'} at ${pin.half?.address}, or turn its sense, so that a missing plug is “off”.`,
    facts: {
      unplugged: { value: half.address },
      active: { value: active },
      level: { value: level ?? 'floating' },
    },
    at: pin.at,
    cause: `key:${pin.address}`,
    marks: [pin.address, half.address],
  })
}

/** Every active-low line keys when it touches 0 V: only a time-out stops that, and its note says so. */
function shortable(pins: readonly KeyInput[]): readonly KeyInput[] {
  return pins.filter(({ does }) => does.active === 'low' && !/time-?\s?out/i.test(does.note ?? ''))
}

function* judge(context: RuleContext, unit: Unit | undefined, pins: readonly KeyInput[]): Iterable<Outcome> {
  for (const pin of pins) {
    const missing = [
      ...(pin.does.active === undefined ? ['its active level'] : []),
      ...(pin.does.pull === undefined ? ['how it is pulled'] : []),
    ]
    if (missing.length > 0) yield unknown(pin.address, `needs ${listOf(missing)} of ${pin.address}`, pin.at)
    for (const trial of unplugKey(context, pin)) {
      const outcome = unplugged(trial)
      if (!outcome) continue
      yield outcome
      break
    }
  }
  const bare = shortable(pins)
  if (bare[0])
    yield unknown(
      bare[0].address,
      `needs a note that ${unit?.id ?? 'the unit'} has a time-out timer: a short of ${listOf(bare.map(({ address }) => address))} to 0 V ${doesWhat(bare[0])}`,
      bare[0].at,
    )
}

export const cableFaultKeys: Rule = {
  id: 'cable-fault-keys',
  title: 'An unplugged or shorted cable neither keys nor sounds the alarm',
  family: 'switching',
  level: 'stop',
  covers: ['L6'],
  reason:
    'A microphone plug that falls off must not leave a transmitter on the air: it blocks the channel for everybody and nobody near it notices. A short to 0 V keys any active-low line; against that only a time-out timer helps.',
  remedy:
    'Active low with a pull-up at the equipment, or active high with a pull-down; and a time-out timer.',
  needs: 'active level and pull of key and alarm inputs, and a note on those whose unit has a time-out timer',
  sources: ['common practice'],
  examples: { trips: example('down'), passes: example('up') },
  *check(context) {
    const byUnit = new Map<Unit | undefined, KeyInput[]>()
    for (const pin of context.loom.terminals) {
      if (!isKey(pin) || context.paths.nets.conductorsAt(pin).length === 0) continue
      byUnit.set(pin.half?.unit, [...(byUnit.get(pin.half?.unit) ?? []), pin])
    }
    for (const [unit, pins] of byUnit) yield* judge(context, unit, pins)
  },
}
