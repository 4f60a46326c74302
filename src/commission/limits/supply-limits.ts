import { formatAmps, formatDays, formatOhms, formatVolts } from '../../base/format-quantity.ts'
import { dropLimitVolts } from '../../check/queries/drop-limit.ts'
import { type Run, supplyRuns } from '../../check/queries/supply-runs.ts'
import type { RuleContext } from '../../check/rule.ts'
import type { Installation } from '../../describe/installation.ts'
import type { Loom, Terminal } from '../../resolve/loom.ts'
import { pinName } from '../../sheets/names.ts'
import { standingDrainAllowed } from '../../solve/formulas/days-to-flat.ts'
import { sumOhms } from '../../solve/link-ohms.ts'
import type { Drain } from '../../solve/solution.ts'
import { figureLimit } from '../figure-limit.ts'
import type { FigureLimit, Limits } from '../limit.ts'
import { AMPS, OHMS, VOLTS } from '../measures.ts'
import { unitFor } from '../unit-for.ts'

/** A quarter over what was worked out is looked into; common practice, as the install guide says. */
const DROP_SHARE = 1.25
/** What a hand meter cannot tell on its 20 V range. */
const METER_VOLTS = 0.02
/** Good-practice line of cable-tester makers, as on the ring-out sheet. */
const LOOP_SHARE = 1.2
/** What a clamp or a meter in line cannot tell. */
const METER_AMPS = 1e-3

/** Volts, drops, loop resistances, standing current of an installation. */
export function supplyLimits(context: RuleContext): Limits {
  const { loom, solution } = context
  const runs = supplyRuns(context)
  const byLoad = new Map<Terminal, Run[]>()
  for (const run of runs) byLoad.set(run.load.terminal, [...(byLoad.get(run.load.terminal) ?? []), run])
  const loads = [...byLoad.values()].flatMap((some) => loadLimits(loom, context, some))
  return {
    limits: [
      ...batteryLimits(loom),
      ...solution.drains.flatMap((drain) => drainLimits(loom, drain)),
      ...loads,
    ],
    missing: [
      ...solution.drains.flatMap((drain) =>
        drain.needs.map((needs) => ({ what: 'standing current', needs, address: drain.source.address })),
      ),
      ...solution.states.flatMap(({ state, unsolved }) =>
        unsolved.map(({ terminal, needs }) => ({
          what: `volts in ${state.id}`,
          needs,
          address: terminal.address,
        })),
      ),
      ...solution.unfed.map(({ terminal, needs }) => ({ what: 'volts', needs, address: terminal.address })),
    ],
  }
}

/** The lightest lasting state in which the load draws, and the one in which it draws most. */
function tellingRuns(runs: readonly Run[]): readonly Run[] {
  const [first] = runs
  if (!first) return []
  const heaviest = runs.reduce((most, run) => (run.load.amps > most.load.amps ? run : most), first)
  const lasting = runs.filter(({ state }) => state.ignition && !state.brief)
  const lightest = lasting.reduce(
    (least, run) => (run.load.amps < least.load.amps ? run : least),
    lasting[0] ?? heaviest,
  )
  return [...new Set([lightest, heaviest])]
}

function loadLimits(loom: Loom, context: RuleContext, runs: readonly Run[]): FigureLimit[] {
  const telling = tellingRuns(runs)
  const heaviest = telling.at(-1)
  if (!heaviest) return []
  return [
    ...telling.flatMap((run) => voltsLimit(run)),
    ...dropLimit(loom, heaviest),
    ...loopLimit(context, heaviest),
  ]
}

const across = ({ load }: Run): string =>
  load.back ? `${pinName(load.terminal)} against ${pinName(load.back)}` : pinName(load.terminal)

/** What the load gets, held against the range it works on. */
function voltsLimit(run: Run): FigureLimit[] {
  const { load, state } = run
  const range = load.terminal.does.kind === 'supply-in' ? load.terminal.does.volts : undefined
  if (!range || !Number.isFinite(load.volts)) return []
  return [
    figureLimit({
      id: `${load.terminal.address}/volts/${state.id}`,
      group: 'supply',
      what: `Volts at ${pinName(load.terminal)}: ${state.title}`,
      how: `${across(run)}.`,
      measure: VOLTS,
      unit: 'V',
      least: range.min,
      most: range.max,
      expected: load.volts,
      sum: `${formatVolts(load.sourceVolts)} at ${pinName(load.source)} less ${formatVolts(load.dropVolts)} at ${formatAmps(load.amps)}; it works on ${formatVolts(range.min)} to ${formatVolts(range.max)}.`,
      source: 'range the equipment states; expected figure from the solved network',
      rule: 'voltage-at-load',
      address: load.terminal.address,
    }),
  ]
}

/** Most that may be lost on the way in a state, and who says so. */
function policyDrop(
  loom: Loom,
  { load, state }: Run,
): { readonly volts: number; readonly source: string } | undefined {
  const nominal = loom.supplyVolts ?? load.sourceVolts
  if (loom.setting === 'boat')
    return {
      volts: nominal * loom.settings.dropOtherShare,
      source: 'ABYC E-11 and ISO 10133, share for the whole way (from memory)',
    }
  if (loom.setting !== 'vehicle') return undefined
  return {
    volts: dropLimitVolts(loom.settings, nominal, state.brief),
    source: 'shop policy, or FAA AC 43.13-1B table 11-6 (from memory)',
  }
}

function dropLimit(loom: Loom, run: Run): FigureLimit[] {
  const { load, state } = run
  if (!Number.isFinite(load.dropVolts) || load.dropVolts <= 0) return []
  const over = load.dropVolts * DROP_SHARE + METER_VOLTS
  const policy = policyDrop(loom, run)
  const most = Math.min(over, policy?.volts ?? Number.POSITIVE_INFINITY)
  const named = run.whole.losses.slice(0, 3).map((loss) => `${loss.conductor.id} ${formatVolts(loss.volts)}`)
  const joints = run.whole.volts - run.whole.conductorVolts
  const bound =
    policy && most === policy.volts
      ? `No more than ${formatVolts(policy.volts)} may be lost.`
      : `A quarter and ${formatVolts(METER_VOLTS)} more is looked into${policy ? `, long before the ${formatVolts(policy.volts)} allowed` : ''}.`
  return [
    figureLimit({
      id: `${load.terminal.address}/drop/${state.id}`,
      group: 'supply',
      what: `Volts lost on the way to ${pinName(load.terminal)}: ${state.title}`,
      how: `${pinName(load.source)} to ${pinName(load.terminal)}, then the return; the two added.`,
      measure: VOLTS,
      unit: most < 0.1 ? 'mV' : 'V',
      most,
      expected: load.dropVolts,
      sum: `${formatAmps(load.amps)}: ${[...named, `joints ${formatVolts(joints)}`].join(', ')}; in all ${formatVolts(load.dropVolts)}. ${bound}`,
      source: policy?.source ?? 'common practice',
      rule: 'voltage-at-load',
      address: load.terminal.address,
    }),
  ]
}

/** Feed and return as a four-wire meter reads them with the source taken out and its leads joined. */
function loopLimit({ solution }: RuleContext, run: Run): FigureLimit[] {
  const way = sumOhms([...run.feed, ...run.back], solution.linkOhms)
  if (way.missing.length > 0 || !(way.ohms > 0)) return []
  const { terminal, source } = run.load
  const named = way.terms.slice(0, 3).map(({ sum, ohms }) => `${sum} = ${formatOhms(ohms)}`)
  return [
    figureLimit({
      id: `${terminal.address}/loop`,
      group: 'supply',
      what: `Loop to ${pinName(terminal)}`,
      how: `Supply isolated; feed and return taken off at ${pinName(source)} and clipped to each other, fuses in: four-wire meter at the plug of ${pinName(terminal)}.`,
      measure: OHMS,
      unit: unitFor(OHMS, way.ohms),
      most: way.ohms * LOOP_SHARE,
      expected: way.ohms,
      sum: `${named.join('; ')}; copper ${formatOhms(way.conductorOhms)}, joints ${formatOhms(way.jointOhms)}. A fifth more is the limit, leads zeroed.`,
      source: 'IEC 60228 and ASTM B258 for the copper; a fifth over: good practice of cable-tester makers',
      address: terminal.address,
    }),
  ]
}

const batteriesOf = (loom: Loom): readonly Terminal[] =>
  loom.terminals.filter(
    ({ on, does }) => on === 'equipment' && does.kind === 'supply-out' && does.battery === true,
  )

function batteryLimits(loom: Loom): FigureLimit[] {
  return batteriesOf(loom).flatMap((battery) => {
    const { does } = battery
    if (does.kind !== 'supply-out' || !does.volts) return []
    const common = {
      group: 'supply',
      measure: VOLTS,
      unit: 'V',
      address: battery.address,
      source: 'range stated for the battery',
    } as const
    const rest = figureLimit({
      ...common,
      id: `${battery.address}/rest`,
      what: `Volts of ${pinName(battery)} at rest`,
      how: 'Everything off for an hour, surface charge gone.',
      least: does.volts.min,
      most: does.volts.max,
      sum: `Stated: ${formatVolts(does.volts.min)} to ${formatVolts(does.volts.max)}.`,
    })
    if (does.cranking === undefined) return [rest]
    const dip = figureLimit({
      ...common,
      id: `${battery.address}/cranking`,
      what: `Lowest volts of ${pinName(battery)} while cranking`,
      how: 'Lowest reading of a meter that holds it; engine from cold.',
      least: does.cranking,
      sum: `Equipment that has to survive it was judged at ${formatVolts(does.cranking)}.`,
      source: 'figure stated for the battery',
    })
    return [rest, dip]
  })
}

const parkedDays = (loom: Loom): number =>
  (loom.kind === 'installation' ? (loom.source as Installation).parked : undefined) ??
  loom.settings.parkedDays

function drainLimits(loom: Loom, drain: Drain): FigureLimit[] {
  const wanted = parkedDays(loom)
  const allowed =
    drain.usableAh === undefined ? Number.POSITIVE_INFINITY : standingDrainAllowed(drain.usableAh, wanted)
  const over = drain.amps * DROP_SHARE + METER_AMPS
  const most = Math.min(allowed, over)
  const days =
    drain.usableAh === undefined || drain.days === undefined
      ? 'How many days it lasts is not known: the usable charge is not stated.'
      : `${drain.usableAh} Ah last ${Number.isFinite(drain.days) ? formatDays(drain.days) : 'as long as the battery keeps'}; ${formatDays(wanted)} are wanted, so never more than ${formatAmps(allowed)}.`
  const parts = drain.parts
    .slice(0, 3)
    .map(({ terminal, amps }) => `${pinName(terminal)} ${formatAmps(amps)}`)
  return [
    figureLimit({
      id: `${drain.source.address}/standing`,
      group: 'supply',
      what: `Standing current from ${pinName(drain.source)}`,
      how: 'Everything off and asleep; clamp or meter on the leads that were added. What was there before comes on top.',
      measure: AMPS,
      unit: unitFor(AMPS, most),
      most,
      expected: drain.amps,
      sum: `${parts.length > 0 ? parts.join(', ') : 'Nothing that was described draws anything'}. ${days}`,
      source: 'days = usable Ah ÷ (24 × A)',
      rule: 'standing-drain',
      address: drain.source.address,
    }),
  ]
}
