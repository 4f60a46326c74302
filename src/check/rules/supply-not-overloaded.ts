import { formatAmps } from '../../base/format-quantity.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { count, found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (maxAmps: '0.2 A' | '1 A') =>
  wired({
    units: {
      station: { ...cell({ maxAmps, volts: '28 V' }), role: 'intercom' },
      pack: { ...load('0.3 A'), role: 'intercom' },
    },
    runs: [
      ['station.1', 'pack.1'],
      ['station.2', 'pack.2'],
    ],
  })

export const supplyNotOverloaded: Rule = {
  id: 'supply-not-overloaded',
  title: 'The loads on a supply do not add up to more than it gives',
  family: 'power',
  level: 'warning',
  covers: ['A19'],
  reason:
    'A supply asked for more than it gives folds back or trips, mostly in the second act when every station on a party line calls at once.',
  remedy:
    'Fewer stations, a second feed, or a larger supply. The volts at the far end are judged by the rule on volts at the load.',
  needs: '"maxAmps" of the supply and the currents of the loads',
  sources: [
    'party-line system guides, as reported: packs about 30 mA to 65 mA, loudspeaker stations 150 mA',
    'common practice',
  ],
  examples: { trips: example('0.2 A'), passes: example('1 A') },
  *check({ solution }) {
    const told = new Set<string>()
    for (const state of solution.states)
      for (const { terminal, amps } of state.sources) {
        const { does } = terminal
        if (does.kind !== 'supply-out' || does.maxAmps === undefined || told.has(terminal.address)) continue
        if (!(amps > does.maxAmps * 1.0001)) continue
        told.add(terminal.address)
        const loads = state.loads.filter((load) => load.source === terminal)
        yield found({
          subject: terminal.address,
          what: `${terminal.address} has to give ${formatAmps(amps)} in ${state.state.id} and gives ${formatAmps(does.maxAmps)}`,
          why: `${count(loads.length, 'load')} take ${formatAmps(amps)} together, ${formatAmps(amps - does.maxAmps)} too much.`,
          fix: 'Take loads off, bring a second feed, or use a larger supply.',
          facts: { amps: { value: amps, unit: 'A' }, most: { value: does.maxAmps, unit: 'A' } },
          at: terminal.at,
          marks: [terminal.address, ...loads.map((load) => load.terminal.address)],
        })
      }
  },
}
