import { formatAmps } from '../../base/format-quantity.ts'
import type { Installation } from '../../describe/installation.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (pair: boolean) =>
  wired({
    units: { supply: cell({ maxAmps: '3 A' }), lamp: load('2 A') },
    runs: [
      ['supply.1', 'lamp.1', { size: '2.5 mm²', zone: 'helm', ...(pair ? { pair: 'TP1' } : {}) }],
      ['supply.2', 'lamp.2', { size: '2.5 mm²', zone: 'helm', ...(pair ? { pair: 'TP1' } : {}) }],
    ],
    place: { setting: 'boat', zones: [{ id: 'helm', compass: true }] },
  })

const LEAST_AMPS = 0.1

export const compassClear: Rule = {
  id: 'compass-clear',
  title: 'Near a compass DC is twisted, and loudspeakers stay away',
  family: 'grounding',
  level: 'warning',
  covers: ['G12'],
  reason:
    'A direct current or a magnet within a metre turns the compass, and only while the lamp or the radio is on.',
  remedy: 'Twist feed and return together, or move them a metre away.',
  needs: '"compass" on the zone, zones of conductors and units, load currents',
  sources: ['ABYC E-11.16.4.2.1, as reported'],
  examples: { trips: example(false), passes: example(true) },
  *check({ loom, solution }) {
    if (loom.kind !== 'installation') return
    const zones = new Set(
      (loom.source as Installation).zones?.filter(({ compass }) => compass === true).map(({ id }) => id) ??
        [],
    )
    if (zones.size === 0) return
    for (const conductor of loom.conductors) {
      const amps = solution.worstAmps.get(conductor)?.amps ?? 0
      if (
        !zones.has(conductor.zone ?? '') ||
        conductor.pair !== undefined ||
        conductor.cable ||
        amps < LEAST_AMPS
      )
        continue
      yield found({
        subject: conductor.address,
        what: `${conductor.id} with ${formatAmps(amps)} passes the compass and is not twisted with its return`,
        why: `A single wire with ${formatAmps(amps)} makes ${(0.2 * amps).toFixed(1)} µT at a metre; the earth’s field across the needle is about 20 µT.`,
        fix: 'Twist it with its return, or move both a metre away.',
        facts: { amps: { value: amps, unit: 'A' } },
        at: conductor.at,
        cause: `compass:${conductor.zone}`,
        marks: [conductor.address],
      })
    }
    for (const unit of loom.units) {
      if (unit.equipment.role !== 'speaker' || !zones.has(unit.zone ?? '')) continue
      yield found({
        subject: unit.id,
        what: `The loudspeaker ${unit.id} sits near the compass`,
        why: 'Its magnet turns the needle whether it is on or off.',
        fix: 'Move it a metre away.',
        facts: { zone: { value: unit.zone ?? '' } },
        at: unit.at,
        marks: [unit.id],
      })
    }
  },
}
