import { formatDecibels, formatHertz, formatLength, formatWatts } from '../../base/format-quantity.ts'
import { feederOutputWatts } from '../../solve/formulas/feeder-power.ts'
import { wired } from '../examples/wired.ts'
import { type Feeder, feedersOf, isAntenna, isRf } from '../queries/feeders.ts'
import type { Asking, Question } from '../question.ts'
import type { RuleContext } from '../rule.ts'

const example = (distance: '0.4 m' | '1.2 m') =>
  wired({
    units: {
      radio: { pins: { '1': { kind: 'rf', watts: '25 W', to: '174 MHz' }, '2': { kind: 'chassis' } } },
      whip: {
        role: 'antenna',
        keepAway: '0.9 m',
        pins: { '1': { kind: 'rf', to: '174 MHz' }, '2': { kind: 'chassis' } },
      },
    },
    cables: [
      {
        id: 'W1',
        part: 'rg-58',
        length: '4 m',
        cores: [{ core: 'centre', from: 'radio.1', to: 'whip.1' }],
        shields: [{ shield: 'shield', from: 'P1.2', to: 'P2.2' }],
      },
    ],
    place: {
      setting: 'vehicle',
      highest: '174 MHz',
      answers: [
        { question: 'antenna-clear-of-people', answer: 'yes', distance, by: 'M. Teal', date: '2026-03-09' },
      ],
    },
  })

/** What leaves the antenna, as far as it can be told. */
function powerWords({ radio, lossDb, lengthMm, hertz }: Feeder): string {
  const { watts } = radio.does
  if (watts === undefined) return `${radio.address} transmits; its power is not stated.`
  const from = `${formatWatts(watts)} at ${radio.address}`
  if (lossDb === undefined || lengthMm === undefined || hertz === undefined) return `${from}.`
  return `${from}, less ${formatDecibels(lossDb)} in ${formatLength(lengthMm)} of feeder at ${formatHertz(hertz)}: ${formatWatts(feederOutputWatts(watts, lossDb))} into the antenna.`
}

export const antennaClearOfPeople: Question = {
  id: 'antenna-clear-of-people',
  title: 'The antenna keeps its distance from people, restraints and modules',
  family: 'place',
  level: 'stop',
  covers: ['R5'],
  text: 'Is the antenna as far from people as its maker states, and its feeder clear of restraint parts and control units? How far is it?',
  moment: 'antenna',
  reason:
    'Close to a transmitting antenna the body heats, and control units and airbag sensors see volts they were never tested with. How far is far enough belongs to each antenna and power: its maker states it.',
  remedy:
    'Move the antenna or its feeder, or lower the power, until the distance of the exposure statement is kept.',
  applies: 'each antenna; the distance is held against "keepAway" of its equipment where that is given',
  sources: ['FCS 1362:2010 §4.2', 'the exposure statement of the equipment maker'],
  examples: { trips: example('0.4 m'), passes: example('1.2 m') },
  *asked(context: RuleContext): Iterable<Asking> {
    const fed = new Map(feedersOf(context).map((feeder) => [feeder.antenna.half?.unit, feeder]))
    for (const unit of context.loom.units) {
      const pin = unit.halves
        .flatMap((half) => [...half.pins.values()])
        .find((one) => isRf(one) && isAntenna(one))
      if (!pin) continue
      const feeder = fed.get(unit)
      const leastMm = unit.equipment.keepAway
      const far = leastMm === undefined ? 'the distance its maker states' : formatLength(leastMm)
      yield {
        subject: unit.id,
        text: `Is ${unit.id} at least ${far} from people, and its feeder clear of restraint parts and control units?`,
        why: feeder
          ? powerWords(feeder)
          : `Nothing described feeds ${unit.id}; whatever does, transmits from there.`,
        distance: leastMm === undefined ? {} : { leastMm },
        marks: [pin.address],
        at: unit.at,
      }
    }
  },
}
