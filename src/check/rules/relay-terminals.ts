import type { ComponentUse } from '../../resolve/loom.ts'
import { across, throughSupply, walk } from '../../solve/reach.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const on = ['standby', 'receive', 'transmit']

const example = (feed: '30' | '87', out: '30' | '87') =>
  wired({
    units: {
      supply: cell({ feed: 'switched' }),
      lamp: load('2 A'),
    },
    components: [
      { id: 'F1', kind: 'fuse', rating: '5 A' },
      { id: 'K1', kind: 'relay', coil: '90 Ω', suppressed: 'resistor', maxAmps: '30 A', pulled: on },
    ],
    splices: ['SP1', 'SP2'],
    runs: [
      ['supply.1', 'F1.in', { size: '1 mm²', length: '0.1 m' }],
      ['F1.out', 'SP1', { size: '1 mm²' }],
      ['SP1', `K1.${feed}`, { size: '1 mm²' }],
      ['SP1', 'K1.86', { size: '1 mm²' }],
      ['K1.85', 'SP2', { size: '1 mm²' }],
      [`K1.${out}`, 'lamp.1', { size: '1 mm²' }],
      ['lamp.2', 'SP2', { size: '1 mm²' }],
      ['SP2', 'supply.2', { size: '1 mm²', length: '0.1 m' }],
    ],
  })

/** Whether a source reaches a terminal of the relay without going through the relay's own contact or coil. */
function fed({ loom, paths }: RuleContext, relay: ComponentUse, name: string): boolean {
  const terminal = relay.terminals.get(name)
  if (!terminal) return false
  return paths.supply.supplies(terminal).some(({ links }) => links.every((link) => link.component !== relay))
    ? true
    : backwards(loom, relay, name)
}

/** The breadth-first way may lead through the relay though another does not: look from the terminal outwards. */
function backwards(loom: RuleContext['loom'], relay: ComponentUse, name: string): boolean {
  const start = relay.terminals.get(name)
  if (!start) return false
  return walk(loom, start, (link, from) => {
    if (link.component === relay) return false
    // Against the arrow of a diode, since the walk goes up the feed.
    return link.kind === 'diode' ? link.b === from : throughSupply(link, from) && across(link, from) !== start
  }).order.some((pin) => pin.on === 'equipment' && pin.does.kind === 'supply-out')
}

const isUsed = ({ loom }: RuleContext, relay: ComponentUse, name: string): boolean => {
  const terminal = relay.terminals.get(name)
  return (
    (terminal &&
      loom.linksAt[terminal.index]?.some((link) => link.kind === 'conductor' || link.kind === 'join')) ??
    false
  )
}

function tell(relay: ComponentUse, what: string, why: string, fix: string): Outcome {
  return found({
    subject: relay.address,
    what,
    why,
    fix,
    facts: { relay: { value: relay.id } },
    at: relay.at,
    marks: [relay.address, ...[...relay.terminals.values()].map((terminal) => terminal.address)],
  })
}

export const relayTerminals: Rule = {
  id: 'relay-terminals',
  title: 'Relay terminals do what their numbers say',
  family: 'switching',
  level: 'warning',
  covers: ['L9'],
  reason:
    'Terminal 30 takes the feed and 87 gives it out; 86 is the plus of the coil and 85 its minus. A relay wired the other way may work until somebody fits one with a diode, or the spare from the glove box.',
  remedy: 'Feed on 30, load on 87, coil plus on 86.',
  needs: 'what feeds the terminals of the relay',
  sources: ['DIN 72552'],
  examples: { trips: example('87', '30'), passes: example('30', '87') },
  *check(context) {
    for (const relay of context.loom.components) {
      if (relay.source.kind !== 'relay') continue
      const contactFed = ['87', '87a'].filter((name) => fed(context, relay, name))
      if (
        contactFed.length === 1 &&
        !fed(context, relay, '30') &&
        !isUsed(context, relay, contactFed[0] === '87' ? '87a' : '87')
      )
        yield tell(
          relay,
          `The feed of ${relay.id} comes in at ${contactFed[0]} and goes out at 30`,
          'By the numbers 30 is the input; with a changeover relay in its place the rest contact would be live too.',
          `Swap 30 and ${contactFed[0]}.`,
        )
      const [plus, minus] = [fed(context, relay, '86'), fed(context, relay, '85')]
      if (plus || !minus || !isUsed(context, relay, '86')) continue
      yield tell(
        relay,
        `The coil of ${relay.id} has its plus on 85 and its minus on 86`,
        'A relay with a diode has its cathode at 86: fitted here the diode shorts the feed.',
        'Swap 85 and 86.',
      )
    }
  },
}
