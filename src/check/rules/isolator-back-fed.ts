import { formatVolts } from '../../base/format-quantity.ts'
import { openIsolators } from '../../solve/simulate/open-isolators.ts'
import { load, wired } from '../examples/wired.ts'
import { found, unknown } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const all = ['standby', 'receive', 'transmit']

/** A supply with a switch in its minus lead; the load that returns behind the switch is fed back through the other. */
const example = (isolates: boolean, second: boolean) =>
  wired({
    units: {
      supply: {
        pins: {
          '1': { kind: 'supply-out', port: 'cell', volts: '12 V', feed: 'switched', maxAmps: '5 A' },
          '2': { kind: 'return', port: 'cell' },
        },
      },
      lamp: load('1 A'),
    },
    components: [
      { id: 'S1', kind: 'switch', closed: all, isolates, maxAmps: '5 A' },
      ...(second ? [{ id: 'R1', kind: 'resistor' as const, ohms: '10 Ω' as const }] : []),
    ],
    splices: ['SP1', 'SP2'],
    runs: [
      ['supply.1', 'SP1', { size: '1 mm²', length: '0.1 m' }],
      ['SP1', 'S1.1', { size: '1 mm²' }],
      ['S1.2', 'SP2', { size: '1 mm²' }],
      ['SP2', 'lamp.1', { size: '1 mm²' }],
      ['lamp.2', 'supply.2', { size: '1 mm²' }],
      ...(second
        ? ([
            ['SP1', 'R1.1', { size: '1 mm²' }],
            ['R1.2', 'SP2', { size: '1 mm²' }],
          ] as const)
        : []),
    ],
  })

const HOW = {
  reversed: 'the wrong way round',
  'through a load': 'through something else',
  'another feed': 'from another feed',
} as const

export const isolatorBackFed: Rule = {
  id: 'isolator-back-fed',
  title: 'With a switch open, nothing behind it is fed another way',
  family: 'power',
  level: 'warning',
  covers: ['W18'],
  reason:
    'Current finds a way round an open switch: through the other load on the same feed, through a lamp, or backwards through a return. Equipment then half works, or someone touches what he thinks is dead.',
  remedy: 'Give what belongs together one common disconnect, or put a diode or a relay in the other way.',
  needs: 'the states in which a switch is closed, and the load currents',
  sources: ['isolator maker’s technical note on back-feed, as reported', 'common practice'],
  examples: { trips: example(false, true), passes: example(true, false) },
  *check({ loom, solution }) {
    const { results, left } = openIsolators(loom, solution)
    for (const { isolator, state, fed } of results) {
      const first = fed[0]
      const { component } = isolator
      if (!first || !component) continue
      yield found({
        subject: component.address,
        level: first.how === 'reversed' ? 'stop' : 'warning',
        what: `With ${component.id} open in ${state.id}, ${first.load.terminal.address} still gets ${formatVolts(first.volts)} ${HOW[first.how]}`,
        why: `Normally it has ${formatVolts(first.load.volts)}. Solved with ${component.id} open and each load as the resistance it shows at work${fed.length > 1 ? `; ${fed.length - 1} more likewise` : ''}.`,
        fix: 'Find the other way by opening it on paper, and give it a diode, a relay, or the same disconnect.',
        assumed: ['each load as a resistance'],
        facts: {
          volts: { value: first.volts, unit: 'V' },
          load: { value: first.load.terminal.address },
          loads: { value: fed.length },
        },
        at: component.at,
        marks: [component.address, ...fed.map(({ load: one }) => one.terminal.address)],
      })
    }
    if (left > 0)
      yield unknown(loom.id, `needs a look by hand at ${left} more switches: they were not opened`, loom.at)
  },
}
