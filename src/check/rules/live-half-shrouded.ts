import { formatVolts } from '../../base/format-quantity.ts'
import type { Half, Terminal } from '../../resolve/loom.ts'
import { across, type Crosses, throughSupply } from '../../solve/reach.ts'
import { exampleLead, socket, unitOf } from '../examples/parts.ts'
import { count, found, listOf, unknown } from '../outcome.ts'
import { cavitiesOf, isPlug } from '../queries/plug-styles.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const opposite = { pin: 'socket', socket: 'pin' } as const

const example = (liveHalf: 'pin' | 'socket') =>
  exampleLead({
    parts: [
      {
        kind: 'connector',
        id: 'round-2',
        title: 'Round connector, 2 ways, latched',
        style: 'circular',
        lock: 'latch',
        pins: ['1', '2'],
      },
    ],
    equipment: [
      unitOf(
        'supply',
        socket('J1', 'round-2', {
          '1': { kind: 'supply-out', port: 'cell', volts: '12 V', maxAmps: '5 A' },
          '2': { kind: 'return', port: 'cell' },
        }),
      ),
      unitOf('radio', {
        ...socket('J2', 'round-2', {
          '1': { kind: 'supply-in', port: 'dc', amps: '1 A' },
          '2': { kind: 'return', port: 'dc' },
        }),
        half: opposite[liveHalf],
      }),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'round-2', half: 'pin', fits: 'supply.J1' },
        { id: 'P2', family: 'round-2', half: liveHalf, fits: 'radio.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '1.5 mm²', length: '2 m' },
        { id: 'A02', from: 'P1.2', to: 'P2.2', size: '1.5 mm²', length: '2 m' },
      ],
    },
  })

/** As current flows to a terminal, walked against it. */
const againstSupply: Crosses = (link, from) => throughSupply(link, across(link, from))

interface Live {
  readonly pin: Terminal
  readonly source: Terminal
}

/** Pins of a half that a supply still reaches with its partner pulled off. */
function livePins({ paths }: RuleContext, half: Half): readonly Live[] {
  return cavitiesOf(half).flatMap((pin) => {
    if (paths.highestVolts(pin)?.source.does.kind !== 'supply-out') return []
    const source = paths
      .unplugged(pin, half, againstSupply)
      .order.find(({ on, does }) => on === 'equipment' && does.kind === 'supply-out')
    return source ? [{ pin, source }] : []
  })
}

const voltsOf = ({ does }: Terminal): number | undefined =>
  does.kind === 'supply-out' ? does.volts?.max : undefined

function exposed(half: Half, live: readonly Live[]): Outcome {
  const [first] = live
  const volts = Math.max(...live.map(({ source }) => voltsOf(source) ?? 0))
  const pins = listOf(live.map(({ pin }) => pin.name))
  return found({
    subject: half.address,
    what: `${half.address} has pins, and ${live.length === 1 ? `pin ${pins} is` : `pins ${pins} are`} live with it unplugged: ${volts > 0 ? formatVolts(volts) : 'a supply'} from ${first?.source.address}`,
    why: `${count(live.length, 'bare pin')} at ${volts > 0 ? formatVolts(volts) : 'supply voltage'} beside its return and the shell: a key, a tool or the other half held askew shorts it.`,
    fix: `Swap the halves, so that the side with the supply has sockets, or use a family whose pins are shrouded and say so ("shrouded").`,
    facts: { volts: { value: volts, unit: 'V' }, pins: { value: live.map(({ pin }) => pin.name).join(' ') } },
    at: half.at,
    marks: live.map(({ pin }) => pin.address),
  })
}

export const liveHalfShrouded: Rule = {
  id: 'live-half-shrouded',
  title: 'The half that stays live has sockets',
  family: 'mating',
  level: 'stop',
  covers: ['M4'],
  reason:
    'Plugs are pulled with the supply on. The half that stays live has to keep its contacts where nothing touches them; bare pins of a battery feed weld to the first piece of metal they meet.',
  remedy: 'Sockets on the side of the supply, pins on the side of the load.',
  needs: 'which half has pins, what each pin does, and "shrouded" of housings',
  sources: [
    'emergency-communications practice for 12 V plugs: the exposed contact is never source plus',
    'common practice',
  ],
  examples: { trips: example('pin'), passes: example('socket') },
  *check(context) {
    for (const half of context.loom.halves) {
      const { family } = half
      if (half.gender !== 'pin' || !family || family.genderless) continue
      // A live tab on a wire is bare; one on equipment sits behind its cover.
      if (!isPlug(half) && !(family.style === 'tab' && half.side === 'harness')) continue
      // Contacts of a modular plug lie in slots, and a coaxial centre stands in its ring.
      if (family.shrouded || family.style === 'modular' || family.style === 'coax') continue
      const live = livePins(context, half)
      if (live.length === 0) continue
      if (family.style === 'housing' && family.shrouded === undefined)
        yield unknown(
          half.address,
          `needs whether the pins of ${family.id} are shrouded: ${half.address} stays live when it is unplugged`,
          half.at,
        )
      else yield exposed(half, live)
    }
  },
}
