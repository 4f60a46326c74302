import { formatCelsius } from '../../base/format-quantity.ts'
import { vehicleExample } from '../examples/vehicle.ts'
import { listOf } from '../outcome.ts'
import { isNear, type ZoneUsed, zonesUsed } from '../queries/zones-used.ts'
import type { Asking, Question } from '../question.ts'

const example = (answer: 'yes' | 'no') =>
  vehicleExample({
    place: {
      zones: [
        { id: 'bonnet', hottest: '80 °C', near: ['fuel', 'exhaust'] },
        { id: 'dash', near: [] },
      ],
      answers: [
        { question: 'clear-of-fuel-and-heat', at: 'bonnet', answer, by: 'M. Teal', date: '2026-03-09' },
      ],
    },
  })

const WORDS = {
  fuel: 'fuel lines',
  exhaust: 'hot exhaust parts',
  'moving-parts': 'moving parts',
  'high-voltage': 'orange high-voltage cable',
} as const
const HAZARDS = Object.keys(WORDS) as (keyof typeof WORDS)[]
/** Above this the zone of a vehicle or boat is taken to hold an engine, whatever its name. */
const ENGINE_CELSIUS = 50

function namedHazards({ zone }: ZoneUsed): string[] {
  return HAZARDS.filter((one) => zone?.near?.includes(one)).map((one) => WORDS[one])
}

/** Asked where something is named, or where heat says that an engine is near and nobody says that nothing is. */
function applies(used: ZoneUsed): boolean {
  return isNear(used, ...HAZARDS) ?? (used.zone?.hottest ?? 0) >= ENGINE_CELSIUS
}

export const clearOfFuelAndHeat: Question = {
  id: 'clear-of-fuel-and-heat',
  title: 'Nothing is tied to fuel lines or runs near exhaust, moving parts or high voltage',
  family: 'place',
  level: 'stop',
  covers: ['E8'],
  text: 'Is every conductor tied to nothing that carries fuel, in no hole with it, and clear of hot parts, moving parts and orange cable?',
  moment: 'route',
  reason:
    'Chafed through on a fuel line, a feed burns the vehicle down. An exhaust is hotter than any insulation of a loom bears, a belt cuts it, and orange cable kills.',
  remedy: 'Take another way and clip it there; where it has to cross, cross at right angles and in a sleeve.',
  applies:
    'on a vehicle or a boat, each zone near such things, and each zone of 50 °C or more where "near" says nothing',
  sources: ['FCS 1362:2010 §4.3 and §2.9.1', 'common practice'],
  examples: { trips: example('no'), passes: example('yes') },
  *asked({ loom }): Iterable<Asking> {
    if (loom.setting !== 'vehicle' && loom.setting !== 'boat') return
    for (const used of zonesUsed(loom)) {
      if (!applies(used)) continue
      const hazards = namedHazards(used)
      const wires = used.conductors.map(({ id }) => id)
      const hottest = used.zone?.hottest
      yield {
        subject: used.id,
        text: `In ${used.id}: is every conductor off ${listOf(hazards.length > 0 ? hazards : HAZARDS.map((one) => WORDS[one]))}, tied to none of them and in no hole with them?`,
        why: `${wires.length > 0 ? `${listOf(wires)} run there` : `${listOf(used.halves.map(({ id }) => id).concat(used.units.map(({ id }) => id)))} sit there`}${hottest === undefined ? '' : `, at up to ${formatCelsius(hottest)}`}.`,
        facts: { conductors: { value: wires.length } },
        marks: used.conductors.map(({ address }) => address),
        at: loom.at,
      }
    }
  },
}
