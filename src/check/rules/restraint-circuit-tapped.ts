import { load, wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (airbag: boolean) =>
  wired({
    units: {
      module: {
        pins: {
          '1': {
            kind: 'supply-out',
            port: 'tap',
            volts: '12 V',
            feed: 'ignition',
            addOn: true,
            maxAmps: '2 A',
          },
          '2': { kind: 'return', port: 'tap' },
        },
        ...(airbag ? { cautions: ['airbag' as const] } : {}),
      },
      lamp: load('1 A'),
    },
    runs: [
      ['module.1', 'lamp.1', { size: '1 mm²', length: '0.2 m' }],
      ['lamp.2', 'module.2', { size: '1 mm²', length: '0.2 m' }],
    ],
    harness: {},
    place: { setting: 'vehicle' },
  })

export const restraintCircuitTapped: Rule = {
  id: 'restraint-circuit-tapped',
  title: 'No feed is taken from restraint or control-unit circuits',
  family: 'power',
  level: 'stop',
  covers: ['W23'],
  reason:
    'A load on the circuit of an airbag or an engine computer disturbs what it measures, may fire or disable a restraint, and voids the approval of the vehicle.',
  remedy: 'Take the feed from the battery, or from a point the maker offers for added equipment.',
  needs: 'cautions of the unit tapped; where nothing is stated, feed-from-permitted-point asks',
  sources: ['FCS 1362:2010 §4.6 and §2.2.2'],
  examples: { trips: example(true), passes: example(false) },
  *check({ loom, paths }) {
    if (loom.setting !== 'vehicle') return
    for (const terminal of loom.terminals) {
      const { does } = terminal
      const unit = terminal.half?.unit
      if (terminal.on !== 'equipment' || does.kind !== 'supply-out' || !unit) continue
      if (paths.nets.conductorsAt(terminal).length === 0) continue
      const wire = paths.nets.conductorsAt(terminal)[0]
      if (unit.equipment.cautions?.includes('airbag'))
        yield found({
          subject: terminal.address,
          what: `${wire?.id ?? 'A wire'} takes a feed from ${unit.id}, which belongs to a restraint circuit`,
          why: 'Restraint circuits watch their own current and must not be spliced or loaded.',
          fix: 'Take the feed from the battery or from a point the vehicle maker offers.',
          facts: { unit: { value: unit.id } },
          at: terminal.at,
          marks: [terminal.address],
        })
    }
  },
}
