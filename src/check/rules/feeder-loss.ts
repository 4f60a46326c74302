import { formatDecibels, formatHertz, formatLength, formatPercent } from '../../base/format-quantity.ts'
import { coaxJointLossDb } from '../../solve/formulas/coax-loss.ts'
import { coaxLead } from '../examples/coax-lead.ts'
import { count, found, listOf, unknown } from '../outcome.ts'
import { cableLossDbPerMetre, type Feeder, feedersOf } from '../queries/feeders.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const place = { setting: 'building', highest: '450 MHz' } as const
/** A feeder is cut by hand; this much is the same length. */
const CUT_TOLERANCE_MM = 50

/** Longest run of the same cable that keeps the limit, its joints counted; undefined where joints alone take it. */
function longestMm({ cables, hertz, joints }: Feeder, limitDb: number): number | undefined {
  const perMetre = hertz === undefined ? undefined : cableLossDbPerMetre(cables[0]?.part, hertz)
  if (perMetre === undefined || hertz === undefined || cables.length !== 1) return undefined
  const left = limitDb - joints * coaxJointLossDb(hertz)
  return left > 0 ? (left / perMetre) * 1000 : undefined
}

function* loss(feeder: Feeder, { loom }: RuleContext): Iterable<Outcome> {
  const { antenna, radio, cables, lossDb, needs, joints, hertz, lengthMm } = feeder
  const unit = antenna.half?.unit?.id ?? antenna.address
  if (lossDb === undefined || hertz === undefined || lengthMm === undefined) {
    yield unknown(antenna.address, `needs ${needs ?? 'its length'}`, cables[0]?.at ?? antenna.at)
    return
  }
  const limit = loom.settings.feederLossDb
  if (lossDb <= limit) return
  const longest = longestMm(feeder, limit)
  const share = 1 - 10 ** (-lossDb / 10)
  yield found({
    subject: cables[0]?.address ?? antenna.address,
    what: `The feeder from ${radio.address} to ${unit} loses ${formatDecibels(lossDb)} at ${formatHertz(hertz)} (limit ${formatDecibels(limit)})`,
    why: `${formatLength(lengthMm)} of ${listOf(cables.map(({ source }) => source.part))} and ${count(joints, 'joint')} of ${formatDecibels(coaxJointLossDb(hertz))}: ${formatPercent(Math.round(share * 1000) / 1000)} of the power warms the cable, and as much is missing on receive.`,
    fix: `Use a cable with less loss${longest === undefined ? '' : `, or keep it within ${formatLength(Math.floor(longest / 10) * 10)}`}.`,
    assumed: [
      'loss between published frequencies by skin and dielectric loss',
      `${formatDecibels(coaxJointLossDb(hertz))} a joint`,
    ],
    facts: {
      loss: { value: lossDb, unit: 'dB' },
      limit: { value: limit, unit: 'dB' },
      length: { value: lengthMm, unit: 'mm' },
    },
    at: cables[0]?.at ?? antenna.at,
    marks: cables.flatMap(({ conductors }) => conductors.map(({ address }) => address)),
  })
}

/** A feeder of another length than the shop's own makes every reading of its vehicle stand alone. */
function offLength({ cables, lengthMm }: Feeder, { loom }: RuleContext): Outcome | undefined {
  const standard = loom.settings.stated.rf?.feederLengths
  const [cable] = cables
  if (!standard || standard.length === 0 || !cable || lengthMm === undefined) return undefined
  const nearest = [...standard].sort((a, b) => Math.abs(a - lengthMm) - Math.abs(b - lengthMm))[0] ?? 0
  if (Math.abs(nearest - lengthMm) <= CUT_TOLERANCE_MM) return undefined
  return found({
    subject: cable.address,
    level: 'note',
    what: `The feeder ${cable.id} is ${formatLength(lengthMm)}, and the shop cuts feeders to ${listOf(standard.map(formatLength))}`,
    why: `It is ${formatLength(Math.abs(nearest - lengthMm))} off the nearest: forward and reflected power of this job cannot be held against the rest of the fleet.`,
    fix: `Cut it to ${formatLength(nearest)} and coil what is left, or add the length to the policy.`,
    facts: { length: { value: lengthMm, unit: 'mm' }, nearest: { value: nearest, unit: 'mm' } },
    at: cable.at,
    marks: cable.conductors.map(({ address }) => address),
  })
}

export const feederLoss: Rule = {
  id: 'feeder-loss',
  title: 'An antenna feeder loses no more than the shop allows, and is cut to a standard length',
  family: 'data',
  level: 'warning',
  covers: ['R4'],
  reason:
    'Three decibels are half the power, on transmit and on receive alike, and a bad feeder even flatters the reading of a wattmeter at the radio: what comes back is lost on the way too. Feeders of one length make the readings of a fleet comparable.',
  remedy: 'A cable with less loss, a shorter run, or the shop’s standard length.',
  needs: 'length of the feeder, loss of the cable by frequency, and "highest" of the installation',
  sources: ['trade press on feeders cut at random, as reported', 'common practice: 3 dB at most'],
  examples: {
    trips: coaxLead({ length: '12 m', place }),
    passes: coaxLead({ length: '4 m', place }),
  },
  *check(context) {
    for (const feeder of feedersOf(context)) {
      yield* loss(feeder, context)
      const off = offLength(feeder, context)
      if (off) yield off
    }
  },
}
