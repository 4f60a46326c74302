import { formatAmps } from '../../base/format-quantity.ts'
import type { Terminal, Unit } from '../../resolve/loom.ts'
import { load, wired } from '../examples/wired.ts'
import { listOf } from '../outcome.ts'
import type { Asking, Question } from '../question.ts'
import type { RuleContext } from '../rule.ts'

const example = (answer: 'yes' | 'no') =>
  wired({
    units: {
      taps: {
        role: 'distribution',
        pins: {
          '1': { kind: 'supply-out', port: 'tap', volts: '12 V', feed: 'ignition', maxAmps: '2 A' },
          '2': { kind: 'return', port: 'tap' },
        },
      },
      lamp: load('1 A'),
    },
    runs: [
      ['taps.1', 'lamp.1', { size: '1 mm²', length: '0.2 m' }],
      ['lamp.2', 'taps.2', { size: '1 mm²', length: '0.2 m' }],
    ],
    place: {
      setting: 'vehicle',
      answers: [{ question: 'feed-from-permitted-point', answer, by: 'M. Teal', date: '2026-03-09' }],
    },
  })

const OWN: ReadonlySet<string | undefined> = new Set(['distribution', 'chassis'])

/** Feeds and buses that belong to the vehicle, are wired to, and are not said to be offered for added equipment. */
function tapped({ paths }: RuleContext, unit: Unit): Terminal[] {
  if (!OWN.has(unit.equipment.role) || unit.equipment.cautions?.includes('airbag')) return []
  return unit.halves
    .flatMap((half) => [...half.pins.values()])
    .filter(
      ({ does }) =>
        (does.kind === 'supply-out' && does.feed !== undefined && !does.addOn) || does.kind === 'data',
    )
    .filter((pin) => paths.nets.conductorsAt(pin).length > 0)
}

const amps = ({ solution, loom }: RuleContext, pin: Terminal): number =>
  Math.max(0, ...(loom.linksAt[pin.index] ?? []).map((link) => solution.worstLinkAmps.get(link)?.amps ?? 0))

function tapWords(context: RuleContext, pin: Terminal): string {
  if (pin.does.kind === 'data') return `${pin.address} is a bus of the vehicle.`
  const most = amps(context, pin)
  return most > 0
    ? `${pin.address} gives us up to ${formatAmps(most)}.`
    : `${pin.address} feeds what is ours.`
}

export const feedFromPermittedPoint: Question = {
  id: 'feed-from-permitted-point',
  title: 'Feeds and buses of the vehicle are tapped where its maker allows',
  family: 'power',
  level: 'stop',
  covers: ['W23'],
  text: 'Does the vehicle maker offer this point for added equipment, and is it on no circuit of a control unit or restraint?',
  moment: 'supply',
  reason:
    'An added load moves what a control unit measures on its own feed; on a restraint circuit it can fire or disable an airbag. A bus tapped anywhere but where the maker says reflects, and stores fault codes.',
  remedy: 'Take the feed from the battery, or from the connection point of the vehicle maker for converters.',
  applies: 'on a vehicle, each unit of the vehicle itself that a feed or bus is taken from without "addOn"',
  sources: ['FCS 1362:2010 §4.6 and §2.2.2'],
  examples: { trips: example('no'), passes: example('yes') },
  *asked(context): Iterable<Asking> {
    const { loom } = context
    if (loom.setting !== 'vehicle') return
    for (const unit of loom.units) {
      const pins = tapped(context, unit)
      if (!pins[0]) continue
      yield {
        subject: unit.id,
        text: `Are ${listOf(pins.map(({ address }) => address))} offered by the vehicle maker for added equipment, on no circuit of a control unit or restraint?`,
        why: pins
          .slice(0, 4)
          .map((pin) => tapWords(context, pin))
          .join(' '),
        facts: { pins: { value: pins.length } },
        marks: pins.map(({ address }) => address),
        at: unit.at,
      }
    }
  },
}
