import type { HarnessConnector } from '../../describe/harness.ts'
import type { Half } from '../../resolve/loom.ts'
import { rowHousing } from '../examples/parts.ts'
import { wired } from '../examples/wired.ts'
import { found, unknown } from '../outcome.ts'
import { zoneOfHalf, zonesOf } from '../queries/zones.ts'
import type { Rule } from '../rule.ts'

const example = (lock: 'friction' | 'latch') =>
  wired({
    units: {
      sender: { pins: { '1': { name: 'S' } }, family: 'push-2', zone: 'engine' },
      gauge: { pins: { '1': { name: 'S' } }, family: 'push-2', zone: 'dash' },
    },
    parts: [rowHousing(2, { id: 'push-2', title: '2-way push-on housing', lock })],
    runs: [['sender.1', 'gauge.1']],
    place: { zones: [{ id: 'engine', vibration: true }, { id: 'dash' }] },
  })

/** Whether the mated pair holds by itself: by its family's lock, or by what was added here. */
function holds({ family, source, side }: Half): boolean | undefined {
  if (side === 'harness' && (source as HarnessConnector).locked !== undefined) return true
  if (family?.lock === undefined) return undefined
  return family.lock !== 'none' && family.lock !== 'friction'
}

export const vibrationLocked: Rule = {
  id: 'vibration-locked',
  title: 'Plugs that shake are locked',
  family: 'mating',
  level: 'warning',
  covers: ['M9'],
  reason:
    'A plug held by friction walks off its partner on an engine or a hull. Before it falls off it arcs, and the fault comes and goes with the revs.',
  remedy: 'A family with a latch, screws or a bayonet, or a clip over the pair.',
  needs: 'zones with "vibration", and "lock" of the family or "locked" of the connector',
  sources: ['sealed-connector guides, as reported', 'common practice'],
  examples: { trips: example('friction'), passes: example('latch') },
  *check({ loom }) {
    const zones = zonesOf(loom)
    for (const half of loom.halves) {
      if (half.side !== 'harness' || half.mates.length === 0 || half.family?.style === 'wire-end') continue
      const id = zoneOfHalf(half)
      if (id === undefined || !zones.get(id)?.vibration) continue
      const locked = holds(half)
      if (locked === undefined)
        yield unknown(half.address, `needs what locks ${half.familyId} (lock), since ${id} shakes`, half.at)
      else if (!locked)
        yield found({
          subject: half.address,
          what: `${half.address} is held by friction only in ${id}, which shakes`,
          why: `${half.familyId} has the lock “${half.family?.lock}”: 0 latches, screws or clips between it and ${half.mate?.address}.`,
          fix: 'Take the locking version, or clip the pair and say with what ("locked").',
          facts: { lock: { value: half.family?.lock ?? '' }, zone: { value: id } },
          at: half.at,
          marks: [half.address],
        })
    }
  },
}
