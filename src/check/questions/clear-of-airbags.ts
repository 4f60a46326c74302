import { vehicleExample } from '../examples/vehicle.ts'
import { count } from '../outcome.ts'
import { isNear, type ZoneUsed, zonesUsed } from '../queries/zones-used.ts'
import type { Asking, Question } from '../question.ts'

const example = (answer: 'yes' | 'no') =>
  vehicleExample({
    place: {
      zones: [
        { id: 'bonnet', near: [] },
        { id: 'dash', near: ['airbag'] },
      ],
      answers: [{ question: 'clear-of-airbags', at: 'dash', answer, by: 'M. Teal', date: '2026-03-09' }],
    },
  })

/** What of ours is there, counted: each of it can be in the way. */
function contents({ units, halves, conductors }: ZoneUsed): string {
  const parts = [
    units.length > 0 ? count(units.length, 'unit') : '',
    halves.length > 0 ? count(halves.length, 'connector') : '',
    conductors.length > 0 ? count(conductors.length, 'conductor') : '',
  ]
  return parts.filter((text) => text !== '').join(', ')
}

export const clearOfAirbags: Question = {
  id: 'clear-of-airbags',
  title: 'Nothing is fixed in the way of an airbag',
  family: 'place',
  level: 'stop',
  covers: ['E9'],
  text: 'Is everything of ours out of the way of every airbag, and tied to no part of the restraint system?',
  moment: 'open-up',
  reason:
    'A curtain or a dash airbag opens in about 30 ms with the force to throw whatever is in front of it. A tie round its loom, or a plug parted with the battery on, can set it off or keep it from opening.',
  remedy:
    'Move it. Part seat plugs only with the battery off and after the waiting time the vehicle maker states.',
  applies: 'on a vehicle, each zone with something of ours in it, unless "near" of the zone says no airbag',
  sources: ['FCS 1362:2010 §2.9.2.2', 'vehicle makers’ restraint manuals', 'common practice'],
  examples: { trips: example('no'), passes: example('yes') },
  *asked({ loom }): Iterable<Asking> {
    if (loom.setting !== 'vehicle') return
    for (const used of zonesUsed(loom)) {
      const near = isNear(used, 'airbag')
      if (near === false) continue
      yield {
        subject: used.id,
        text: `In ${used.id}: is everything out of the way of the airbags, and tied to no restraint loom?`,
        why: `${near ? 'An airbag is near' : 'Nobody has said whether an airbag is near'}. Of ours: ${contents(used)}.`,
        facts: { units: { value: used.units.length }, connectors: { value: used.halves.length } },
        marks: [...used.units.map(({ id }) => id), ...used.halves.map(({ address }) => address)],
        at: loom.at,
      }
    }
  },
}
