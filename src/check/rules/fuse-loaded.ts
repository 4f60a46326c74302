import { formatAmps, formatPercent } from '../../base/format-quantity.ts'
import type { ComponentUse, Link, State } from '../../resolve/loom.ts'
import { fuseForLoad } from '../../solve/formulas/fuse-for-load.ts'
import { vehicleExample } from '../examples/vehicle.ts'
import { found, unknown } from '../outcome.ts'
import { fuseRating } from '../queries/protected-conductors.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

/** A fuse carries this share of its rating for good in a warm place; makers say three quarters to four fifths. */
const LONG_SHARE = 0.8
const SLACK = 1.001

interface Load {
  readonly amps: number
  readonly state: State
}

/** The largest current in states that last, and that in brief ones. NaN where a current is not known. */
function loadsOn({ solution }: RuleContext, link: Link): { readonly long?: Load; readonly brief?: Load } {
  const all = solution.states.map(({ state, amps }) => ({
    state,
    amps: Math.abs(amps[link.index] ?? Number.NaN),
  }))
  const most = (brief: boolean): Load | undefined =>
    all.filter(({ state }) => state.brief === brief).sort((a, b) => b.amps - a.amps)[0]
  const [long, brief] = [most(false), most(true)]
  return { ...(long ? { long } : {}), ...(brief ? { brief } : {}) }
}

function report(fuse: ComponentUse, rating: number, { amps, state }: Load, limit: number): Outcome {
  const next = fuseForLoad(amps)
  return found({
    subject: fuse.address,
    level: amps > rating * SLACK ? 'stop' : 'warning',
    what: `${fuse.id} of ${formatAmps(rating)} carries ${formatAmps(amps)} in ${state.id}: ${formatPercent(amps / rating)} (limit ${formatPercent(limit)})`,
    why: `${formatAmps(amps)} ÷ ${formatAmps(rating)} = ${formatPercent(amps / rating)}${
      state.brief ? ', for short times' : ' for as long as it is on'
    }: a fuse loaded past ${formatPercent(limit)} ages and opens some day for no reason.`,
    fix: next
      ? `${fuse.id} to ${formatAmps(next)} (${formatPercent(amps / next)}), and a wire that bears it; or part the loads.`
      : 'Part the loads over two fuses.',
    facts: {
      current: { value: amps, unit: 'A' },
      rating: { value: rating, unit: 'A' },
      ...(rating > 0 ? { share: { value: (100 * amps) / rating, unit: '%' } } : {}),
      state: { value: state.id },
    },
    at: fuse.at,
    marks: [...fuse.terminals.values()].map(({ address }) => address),
  })
}

function* judge(context: RuleContext, link: Link, fuse: ComponentUse): Iterable<Outcome> {
  const { long, brief } = loadsOn(context, link)
  const rating = fuseRating(fuse)
  if (rating === undefined) {
    if ([long, brief].some((load) => load !== undefined && load.amps > 0))
      yield unknown(fuse.address, `needs the rating of ${fuse.id}`, fuse.at)
    return
  }
  if (long && long.amps > rating * LONG_SHARE * SLACK) yield report(fuse, rating, long, LONG_SHARE)
  else if (brief && brief.amps > rating * SLACK) yield report(fuse, rating, brief, 1)
  else if ([long, brief].some((load) => Number.isNaN(load?.amps)))
    yield unknown(fuse.address, `needs all currents through ${fuse.id}`, fuse.at)
}

export const fuseLoaded: Rule = {
  id: 'fuse-loaded',
  title: 'A fuse is not loaded to its limit for long',
  family: 'power',
  level: 'warning',
  covers: ['W4'],
  reason:
    'A fuse carries its rated current for hours, not for years. In a warm place it carries less. Loaded to the limit it opens some day without any fault.',
  remedy: 'The next fuse, with a wire that bears it; or fewer loads on it.',
  needs: 'ratings of the fuses, and the currents of the loads by state',
  sources: ['fuse makers’ notes: 75 to 80 % of the rating for good at 25 °C', 'common practice'],
  examples: {
    trips: vehicleExample({ load: { amps: { off: '0 A', standby: '17 A' } }, metres: '1 m' }),
    passes: vehicleExample(),
  },
  *check(context) {
    for (const link of context.loom.links)
      if (link.kind === 'fuse' && link.component) yield* judge(context, link, link.component)
  },
}
