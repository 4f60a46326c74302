import { formatAmps } from '../../base/format-quantity.ts'
import { bothSizes, tradeSizes } from '../../base/wire-size.ts'
import type { Conductor, Loom } from '../../resolve/loom.ts'
import { FUSE_RATINGS } from '../../solve/formulas/fuse-ratings.ts'
import { vehicleExample } from '../examples/vehicle.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { ampacityOf, type ConductorAmpacity } from '../queries/ampacity-of.ts'
import { thinCause } from '../queries/conductor-words.ts'
import { fuseRating, type Protected, protectedConductors } from '../queries/protected-conductors.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

interface Rated {
  readonly conductor: Conductor
  readonly rating: ConductorAmpacity
}

const SLACK = 1.001

/** The smallest stock size that bears the fuse under the same conditions. */
function sizeFor(loom: Loom, conductor: Conductor, amps: number): string | undefined {
  const series = conductor.size?.awg === undefined ? 'metric' : 'awg'
  const size = tradeSizes(series).find(
    (each) => (ampacityOf(loom, { ...conductor, size: each })?.amps ?? 0) >= amps,
  )
  return size && bothSizes(size)
}

function report({ loom }: RuleContext, { fuse }: Protected, rating: number, thin: readonly Rated[]): Outcome {
  const { fuseMargin } = loom.settings
  const worst = [...thin].sort((a, b) => a.rating.amps - b.rating.amps)[0] as Rated
  const { conductor, rating: bears } = worst
  const ids = thin.map((each) => each.conductor.id)
  const smaller = FUSE_RATINGS.filter((each) => each * fuseMargin <= bears.amps).at(-1)
  const size = sizeFor(loom, conductor, rating * fuseMargin)
  const margin = fuseMargin === 1 ? '' : ` × ${fuseMargin} margin`
  return found({
    subject: fuse.address,
    what: `${fuse.id} of ${formatAmps(rating)} is too large for ${listOf(ids)}: ${conductor.id} (${conductor.size ? bothSizes(conductor.size) : ''}) bears ${formatAmps(bears.amps)}`,
    why: `${conductor.id}: ${bears.sum}, under ${formatAmps(rating)}${margin}: a short at the far end heats it and the fuse lets it.`,
    fix: [
      ...(size ? [`${conductor.id} to ${size}`] : []),
      ...(smaller === undefined ? [] : [`${fuse.id} to ${formatAmps(smaller)} if the load allows`]),
      'a fuse of its own where it becomes thinner',
    ]
      .map((text, index) => (index === 0 ? text.charAt(0).toUpperCase() + text.slice(1) : text))
      .join('; or ')
      .concat('.'),
    assumed: bears.assumed,
    facts: {
      rating: { value: rating, unit: 'A' },
      ampacity: { value: bears.amps, unit: 'A' },
      area: { value: conductor.size?.areaMm2 ?? Number.NaN, unit: 'mm²' },
      conductor: { value: conductor.id },
    },
    at: conductor.at,
    cause: thinCause(conductor),
    marks: [...thin.map((each) => each.conductor.address), ...fuseMarks(fuse)],
  })
}

const fuseMarks = (fuse: Protected['fuse']): readonly string[] =>
  [...fuse.terminals.values()].map(({ address }) => address)

function* judge(context: RuleContext, guarded: Protected): Iterable<Outcome> {
  const { fuse, conductors } = guarded
  const wires = conductors.filter(({ kind }) => kind !== 'shield')
  if (wires.length === 0) return
  const rating = fuseRating(fuse)
  if (rating === undefined) {
    yield unknown(fuse.address, `needs the rating of ${fuse.id}`, fuse.at)
    return
  }
  const bare = wires.filter(({ size }) => !size).map(({ id }) => id)
  if (bare.length > 0) yield unknown(fuse.address, `needs the size of ${listOf(bare)}`, fuse.at)
  const thin = wires.flatMap((conductor) => {
    const bears = ampacityOf(context.loom, conductor)
    return bears && bears.amps * SLACK < rating * context.loom.settings.fuseMargin
      ? [{ conductor, rating: bears }]
      : []
  })
  if (thin.length > 0) yield report(context, guarded, rating, thin)
}

export const fuseProtectsWire: Rule = {
  id: 'fuse-protects-wire',
  title: 'A fuse is no larger than its thinnest conductor bears',
  family: 'power',
  level: 'stop',
  covers: ['W3', 'W13'],
  reason:
    'A fuse is there for the wire, not for the equipment. With a wire that bears less than the fuse, a short at the far end makes the wire the hottest part of the circuit for minutes.',
  remedy: 'A smaller fuse, a thicker wire, or a second fuse where the wire becomes thinner. Both legs count.',
  needs: 'the rating of each fuse, and size, insulation class and surroundings of each conductor',
  sources: [
    '33 CFR 183.425 table 5 with its notes (the same as ABYC E-11 table VI)',
    'FCS 1362 UK code of practice §4.6.2.1',
    'FAA AC 43.13-1B ¶11-66 to 11-69 for derating; its table 11-9 gives less, since it supposes a full bundle',
  ],
  examples: {
    trips: vehicleExample({ fuse: '60 A' }),
    passes: vehicleExample(),
  },
  *check(context) {
    for (const guarded of protectedConductors(context.loom, context.paths)) yield* judge(context, guarded)
  },
}
