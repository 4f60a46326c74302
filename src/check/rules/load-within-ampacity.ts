import { formatAmps } from '../../base/format-quantity.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import { ampacityOf } from '../queries/ampacity-of.ts'
import { thinCause } from '../queries/conductor-words.ts'
import type { Rule } from '../rule.ts'

const example = (size: '0.5 mm²' | '4 mm²') =>
  wired({
    units: { supply: cell(), lamp: load('10 A') },
    components: [{ id: 'F1', kind: 'fuse', rating: '15 A' }],
    runs: [
      ['supply.1', 'F1.in', { size: '4 mm²', length: '0.1 m' }],
      ['F1.out', 'lamp.1', { size: '4 mm²', length: '0.5 m' }],
      ['lamp.2', 'supply.2', { size, length: '0.5 m' }],
    ],
  })

/** A load of exactly the rating is solved to a hair more or less. */
const SLACK = 1.0001

export const loadWithinAmpacity: Rule = {
  id: 'load-within-ampacity',
  title: 'A conductor bears the current that flows in it, bundle and heat counted',
  family: 'power',
  level: 'stop',
  covers: ['W13'],
  reason:
    'The load alone heats the conductor, fuse or no fuse. In a bundle or a hot zone it bears far less than the open-air figure in a catalogue.',
  remedy: 'Use a thicker conductor or better insulation, split the bundle, or route it where it is cooler.',
  needs: 'size, insulation class and zone of the conductor, "bundled" of the harness, and the load currents',
  sources: ['33 CFR 183.425 table 5', 'FAA AC 43.13-1B ¶11-66 to 11-69'],
  examples: { trips: example('0.5 mm²'), passes: example('4 mm²') },
  *check({ loom, solution }) {
    for (const [conductor, { amps, state }] of solution.worstAmps) {
      const bears = amps > 0.1 ? ampacityOf(loom, conductor) : undefined
      if (!bears || amps <= bears.amps * SLACK) continue
      yield found({
        subject: conductor.address,
        what: `${conductor.id} carries ${formatAmps(amps)} in ${state.id} and bears ${formatAmps(bears.amps)}`,
        why: `${bears.sum}.`,
        fix: `Use a conductor that bears ${formatAmps(amps)} or more, or route it apart from the others and out of the heat.`,
        assumed: bears.assumed,
        facts: { amps: { value: amps, unit: 'A' }, ampacity: { value: bears.amps, unit: 'A' } },
        at: conductor.at,
        cause: thinCause(conductor),
        marks: [conductor.address],
      })
    }
  },
}
