import { formatAmps, formatPercent } from '../../base/format-quantity.ts'
import type { Loom, Terminal } from '../../resolve/loom.ts'
import { load, wired } from '../examples/wired.ts'
import { found, unknown } from '../outcome.ts'
import { zoneCelsius } from '../queries/ampacity-of.ts'
import type { Rule } from '../rule.ts'

const example = (loaded: '6 A' | '2 A') =>
  wired({
    units: {
      tap: {
        pins: {
          '1': {
            kind: 'supply-out',
            port: 'tap',
            volts: '12 V',
            feed: 'ignition',
            fused: '10 A',
            loaded,
            addOn: true,
          },
          '2': { kind: 'return', port: 'tap' },
        },
      },
      lamp: load('3 A'),
    },
    components: [{ id: 'F1', kind: 'fuse', rating: '5 A' }],
    runs: [
      ['tap.1', 'F1.in', { size: '2.5 mm²', length: '0.1 m' }],
      ['F1.out', 'lamp.1', { size: '2.5 mm²' }],
      ['lamp.2', 'tap.2', { size: '2.5 mm²' }],
    ],
  })

const HOT_CELSIUS = 60

/** Share of a vehicle's fuse that may be used: less in the heat of an engine bay. */
const shareIn = (loom: Loom, { half }: Terminal): number =>
  (zoneCelsius(loom, half?.unit?.zone) ?? 0) >= HOT_CELSIUS ? 0.6 : 0.8

/** A feed that the vehicle brings along, and no battery. */
const isTap = ({ does }: Terminal): boolean =>
  does.kind === 'supply-out' &&
  does.feed !== undefined &&
  does.battery !== true &&
  does.capacity === undefined

export const vehicleCircuitOverloaded: Rule = {
  id: 'vehicle-circuit-overloaded',
  title: 'A circuit of the vehicle is not loaded past its reserve',
  family: 'power',
  level: 'stop',
  covers: ['W9'],
  reason:
    'The maker chose wire and fuse for what the circuit carries already. What is added takes the reserve, and the fuse that blows on the road is that of the wipers or the lights.',
  remedy: 'Take the load from a feed of its own, with a relay if it has to be switched.',
  needs: '"fused" and "loaded" on the tap',
  sources: ['converter quality bulletin E1106: 80 % in the cabin, 60 % in the engine bay, as reported'],
  examples: { trips: example('6 A'), passes: example('2 A') },
  *check({ loom, solution }) {
    for (const terminal of loom.terminals) {
      const { does } = terminal
      if (terminal.on !== 'equipment' || does.kind !== 'supply-out' || !isTap(terminal)) continue
      const drawn = solution.states.map(
        (state) => state.sources.find((source) => source.terminal === terminal)?.amps ?? 0,
      )
      const added = Math.max(0, ...drawn.filter((amps) => !Number.isNaN(amps)))
      if (added <= 0.001) continue
      if (does.fused === undefined || does.loaded === undefined) {
        if (terminal.half?.unit?.equipment.role === 'distribution' && loom.setting === 'vehicle')
          yield unknown(
            terminal.address,
            `needs the rating of the vehicle’s fuse before ${terminal.address} and what that circuit carries already`,
            terminal.at,
          )
        continue
      }
      const share = shareIn(loom, terminal)
      const limit = does.fused * share
      if (added + does.loaded <= limit) continue
      yield found({
        subject: terminal.address,
        what: `${terminal.address} would carry ${formatAmps(added + does.loaded)}, and ${formatAmps(limit)} is the most its ${formatAmps(does.fused)} fuse should`,
        why: `${formatAmps(does.loaded)} are there already and ${formatAmps(added)} are added; ${formatPercent(share)} of the fuse is the reserve rule.`,
        fix: `Take ${formatAmps(added)} from a feed of its own; ${formatAmps(Math.max(0, limit - does.loaded))} are left here.`,
        facts: { added: { value: added, unit: 'A' }, limit: { value: limit, unit: 'A' } },
        at: terminal.at,
        marks: [terminal.address],
      })
    }
  },
}
