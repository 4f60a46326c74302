import type { Fact } from '../../base/finding.ts'
import { formatAmps, formatOhms, formatPercent, formatVolts } from '../../base/format-quantity.ts'
import { bothSizes } from '../../base/wire-size.ts'
import type { Conductor, Loom } from '../../resolve/loom.ts'
import { vehicleExample } from '../examples/vehicle.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { conductorsOf, thinCause, thinnest } from '../queries/conductor-words.ts'
import { dropCure, worstLoss } from '../queries/drop-cure.ts'
import { dropLimitVolts } from '../queries/drop-limit.ts'
import { type Loss, type Run, type Stretch, supplyRuns } from '../queries/supply-runs.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

/** A limit that a run breaks. */
interface Breach {
  readonly run: Run
  readonly what: string
  /** Volts over the limit. */
  readonly overVolts: number
  /** How far over, as a ratio of the limit. */
  readonly ratio: number
  readonly limitVolts: number
  readonly losses: readonly Loss[]
  /** Says the figure after a cure that saves so many volts. */
  readonly after: (savedVolts: number) => string
  readonly stop: boolean
}

/** Beyond this the limit is not a matter of taste any more. */
const FAR_OVER = 1.25
/** Less than this is not worth a word. */
const LEAST_VOLTS = 0.001
/** Rounding of lengths is no fault. */
const SLACK = 1.001

const nominalOf = (loom: Loom, run: Run): number => loom.supplyVolts ?? run.load.sourceVolts

function breaches(loom: Loom, run: Run): Breach[] {
  const list = [lowVolts(run)]
  if (loom.setting === 'boat') list.push(...sharesOfBoat(loom, run))
  if (loom.setting === 'vehicle') list.push(dropInVolts(loom, run))
  return list.filter((breach) => breach !== undefined)
}

function lowVolts(run: Run): Breach | undefined {
  const { load, state, whole } = run
  const least = load.terminal.does.kind === 'supply-in' ? load.terminal.does.volts?.min : undefined
  if (least === undefined || load.volts >= least / SLACK) return undefined
  const allowed = load.sourceVolts - least
  return {
    run,
    what: `${load.terminal.address} gets ${formatVolts(load.volts)} in ${state.id} and needs ${formatVolts(least)}`,
    overVolts: least - load.volts,
    ratio: allowed > 0 ? 1 + (least - load.volts) / allowed : Number.POSITIVE_INFINITY,
    limitVolts: least,
    losses: whole.losses,
    after: (saved) => `${formatVolts(load.volts + saved)} at the load`,
    stop: true,
  }
}

function dropInVolts(loom: Loom, run: Run): Breach | undefined {
  const { brief } = run.state
  const limitVolts = dropLimitVolts(loom.settings, nominalOf(loom, run), brief)
  const volts = run.load.dropVolts
  if (!(volts > limitVolts * SLACK)) return undefined
  return {
    run,
    what: `${run.load.terminal.address} loses ${formatVolts(volts)} in ${run.state.id} (limit ${formatVolts(limitVolts)} ${brief ? 'for short times' : 'for good'})`,
    overVolts: volts - limitVolts,
    ratio: volts / limitVolts,
    limitVolts,
    losses: run.whole.losses,
    after: (saved) => formatVolts(volts - saved),
    stop: volts > limitVolts * FAR_OVER,
  }
}

/** On a boat the copper of the branch is judged by the load it feeds, and that of the whole way by the wider limit. */
function sharesOfBoat(loom: Loom, run: Run): (Breach | undefined)[] {
  const where = run.feeder.volts === 0 ? 'on the way there and back' : 'in its own wires'
  return [
    overShare(loom, run, branchOf(run), branchShare(loom, run), where),
    overShare(loom, run, run.whole, loom.settings.dropOtherShare, 'from source to load and back'),
  ]
}

/**
 * Electronics get the narrow limit; motors the wide one, and so do units that a data bus feeds: the bus rules count the volts at
 * the last unit, which its own range judges.
 */
function branchShare(loom: Loom, run: Run): number {
  const { does, half } = run.load.terminal
  const motor = does.kind === 'supply-in' && does.motor === true
  const onBus = [...(half?.pins.values() ?? [])].some(
    (pin) => pin.does.kind === 'data' && pin.does.standard === 'can',
  )
  return motor || onBus ? loom.settings.dropOtherShare : loom.settings.dropCriticalShare
}

const branchOf = (run: Run): Stretch => joined(run.own, run.shared)

const joined = (a: Stretch, b: Stretch): Stretch => ({
  volts: a.volts + b.volts,
  conductorVolts: a.conductorVolts + b.conductorVolts,
  losses: [...a.losses, ...b.losses].sort((one, two) => two.volts - one.volts),
})

function overShare(loom: Loom, run: Run, part: Stretch, share: number, where: string): Breach | undefined {
  const nominal = nominalOf(loom, run)
  const limitVolts = nominal * share
  const volts = part.conductorVolts
  if (!(volts > limitVolts * SLACK)) return undefined
  const percent = (value: number) => (nominal > 0 ? `${((100 * value) / nominal).toFixed(1)} %` : 'all')
  return {
    run,
    what: `${run.load.terminal.address} loses ${formatVolts(volts)} ${where} in ${run.state.id}: ${percent(volts)} of ${formatVolts(nominal)} (limit ${formatPercent(share)})`,
    overVolts: volts - limitVolts,
    ratio: volts / limitVolts,
    limitVolts,
    losses: part.losses,
    after: (saved) => `${formatVolts(volts - saved)} (${percent(volts - saved)})`,
    stop: false,
  }
}

function why(loom: Loom, breach: Breach): string {
  const { run } = breach
  if (!Number.isFinite(run.whole.volts))
    return `${formatAmps(run.load.amps)} at ${run.load.terminal.address}. What is lost where on the way cannot be told: the current or the resistance of a stretch of it is not known.`
  const nominal = nominalOf(loom, run)
  const share = (volts: number) =>
    nominal > 0 ? `${formatVolts(volts)} (${((100 * volts) / nominal).toFixed(1)} %)` : formatVolts(volts)
  const named = breach.losses.slice(0, 2).map((loss) => lossWords(loss))
  const loop = run.whole.volts / run.load.amps
  const parts = (
    [
      ['feeder', run.feeder],
      ['shared with some', run.shared],
      [run.feeder.conductorVolts > 0 ? 'own wires' : 'copper', run.own],
    ] as const
  ).filter(([, part]) => part.conductorVolts > LEAST_VOLTS)
  const split = parts.map(([name, part]) => `${name} ${share(part.conductorVolts)}`).join(', ')
  const joints = run.whole.volts - run.whole.conductorVolts
  const alone = run.feeder.volts === 0 && run.shared.volts === 0
  const start = `${formatAmps(run.load.amps)} ${alone ? `through a loop of ${formatOhms(loop)}` : `at ${run.load.terminal.address}`}`
  return `${start}: ${named.join('; ')}. In all ${share(run.whole.volts)}: ${split}, joints ${formatVolts(joints)}.`
}

const lossWords = ({ volts, amps, sum }: Loss): string =>
  `${sum} = ${formatOhms(amps === 0 ? 0 : volts / amps)} at ${formatAmps(Math.abs(amps))}, ${formatVolts(volts)}`

/** Thicker wire in words, and what it saves. */
interface Step {
  readonly text: string
  readonly savedVolts: number
}

function step(losses: readonly Loss[], needVolts: number, loom: Loom, floorMm2?: number): Step | undefined {
  const cure = dropCure(losses, needVolts, loom.settings.conductorCelsius, floorMm2)
  if (!cure) return undefined
  const cables = new Set(cure.conductors.flatMap(({ cable }) => (cable ? [cable] : [])))
  const names = [
    ...cure.conductors.filter(({ cable }) => !cable).map(({ id }) => id),
    ...[...cables].map((cable) => `the cores of ${cable.id}`),
  ]
  return { text: `${listOf(names)} to ${bothSizes(cure.size)}`, savedVolts: cure.savedVolts }
}

/** On a boat the feeder is brought within its own share first, and the branch does the rest. */
function stepsOfBoat(loom: Loom, { run, overVolts, losses }: Breach): readonly (Step | undefined)[] {
  const nominal = nominalOf(loom, run)
  const feederOver = run.feeder.conductorVolts - nominal * loom.settings.dropCriticalShare
  const seesFeeder = losses.some((loss) =>
    run.feeder.losses.some((each) => each.conductor === loss.conductor),
  )
  const first = seesFeeder && feederOver > 0 ? step(run.feeder.losses, feederOver, loom) : undefined
  const branch = branchOf(run)
  const rest = Math.max(
    overVolts - (first?.savedVolts ?? 0),
    branch.conductorVolts - nominal * branchShare(loom, run),
  )
  return [...(first ? [first] : []), ...(rest > 0 ? [step(branch.losses, rest, loom)] : [])]
}

function stepsOnLand(loom: Loom, { run, losses, overVolts }: Breach, worst?: Conductor) {
  const inBack = worst !== undefined && conductorsOf(run.back).includes(worst)
  const feedMm2 = thinnest(conductorsOf(run.feed).filter((each) => each.loom === worst?.loom))?.size?.areaMm2
  return [step(losses, overVolts, loom, inBack && worst.cable === undefined ? feedMm2 : undefined)]
}

function fix(loom: Loom, breach: Breach, worst: Conductor | undefined): string {
  const steps = loom.setting === 'boat' ? stepsOfBoat(loom, breach) : stepsOnLand(loom, breach, worst)
  const known = steps.filter((each) => each !== undefined)
  const saved = known.reduce((sum, each) => sum + each.savedVolts, 0)
  const thicker = capital(known.map(({ text }) => text).join('; '))
  if (!Number.isFinite(breach.run.whole.volts))
    return 'Say what each load on the way takes and how long each wire is; then thicken the one that loses most, or bring the load nearer.'
  if (known.length > 0 && known.length === steps.length)
    return `${thicker}: ${breach.after(saved)}. Or bring the load nearer.`
  const joints = breach.run.whole.volts - breach.run.whole.conductorVolts
  const rest = `No stock size is enough: bring the load nearer, give it a feed of its own, or take fewer and better joints than those that lose ${formatVolts(joints)}.`
  return known.length > 0 ? `${thicker} gives ${breach.after(saved)}. ${rest}` : rest
}

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`

function report(context: RuleContext, breach: Breach): Outcome {
  const { loom } = context
  const { run } = breach
  const worst = worstLoss(breach.losses)?.conductor ?? breach.losses[0]?.conductor
  const { load } = run
  return found({
    subject: load.terminal.address,
    level: breach.stop ? 'stop' : 'warning',
    what: breach.what,
    why: why(loom, breach),
    fix: fix(loom, breach, worst),
    assumed: [
      `${formatOhms(loom.settings.contactOhms)} a joint where no figure is given, copper at ${loom.settings.conductorCelsius} °C`,
      ...(context.solution.states.find(({ state }) => state === run.state)?.assumed ?? []),
    ],
    facts: known({
      drop: { value: load.dropVolts, unit: 'V' },
      volts: { value: load.volts, unit: 'V' },
      current: { value: load.amps, unit: 'A' },
      limit: { value: breach.limitVolts, unit: 'V' },
      feeder: { value: run.feeder.conductorVolts, unit: 'V' },
      branch: { value: run.own.conductorVolts + run.shared.conductorVolts, unit: 'V' },
      copper: { value: run.whole.conductorVolts, unit: 'V' },
      state: { value: run.state.id },
      ...(worst ? { worst: { value: worst.id } } : {}),
    }),
    at: worst?.at ?? load.terminal.at,
    ...(worst ? { cause: thinCause(worst) } : {}),
    marks: [load.terminal.address, ...run.whole.losses.map(({ conductor }) => conductor.address)],
  })
}

/** Facts without those that are no number. */
const known = (facts: Readonly<Record<string, Fact>>): Readonly<Record<string, Fact>> =>
  Object.fromEntries(Object.entries(facts).filter(([, { value }]) => !Number.isNaN(value)))

/** Loads of a boat whose copper cannot be judged, since a current or a resistance on the way is not known. */
function* untold(runs: readonly Run[]): Iterable<Outcome> {
  const loads = runs
    .filter(({ whole }) => !Number.isFinite(whole.conductorVolts))
    .map(({ load }) => load.terminal)
  for (const terminal of new Set(loads))
    yield unknown(
      terminal.address,
      `needs the current and the length and size of every conductor on the way to ${terminal.address}`,
      terminal.at,
    )
}

/** Loads without a figure, and on land those that neither a drop limit nor a range of their own judges. */
function* gaps({ loom, solution }: RuleContext): Iterable<Outcome> {
  for (const { unsolved } of solution.states)
    for (const { terminal, needs } of unsolved) yield unknown(terminal.address, `needs ${needs}`, terminal.at)
  for (const { terminal, needs } of solution.unfed)
    yield unknown(terminal.address, `needs ${needs}`, terminal.at)
  if (loom.setting === 'boat' || loom.setting === 'vehicle') return
  const drawing = solution.states.flatMap(({ loads }) => loads).filter(({ amps }) => amps > 0)
  for (const terminal of new Set(drawing.map((load) => load.terminal)))
    if (terminal.does.kind === 'supply-in' && terminal.does.volts === undefined)
      yield unknown(
        terminal.address,
        `needs the lowest voltage that ${terminal.address} works on`,
        terminal.at,
      )
}

export const voltageAtLoad: Rule = {
  id: 'voltage-at-load',
  title: 'Each load gets its volts at its highest current',
  family: 'power',
  level: 'warning',
  covers: ['W10', 'A19'],
  reason:
    'A radio that loses a volt when it transmits gives less power, hums, or falls off the air when the engine is stopped. Feed and return count alike, and every joint with them.',
  remedy: 'Make the conductor that loses most thicker, or the run shorter; both legs count.',
  needs: 'lengths and sizes of the conductors, the current of each load by state, and its lowest voltage',
  sources: [
    'FAA AC 43.13-1B ¶11-66 and table 11-6 (14 V: 0.5 V continuous, 1 V intermittent; 28 V: twice that)',
    'ABYC E-11 and ISO 10133: 3 % for feeders and electronics, 10 % for the rest, in conductors alone (from memory)',
  ],
  examples: {
    trips: vehicleExample({ back: '6 mm²', metres: '16 m' }),
    passes: vehicleExample(),
  },
  *check(context) {
    const worst = new Map<string, Breach>()
    const runs = supplyRuns(context)
    for (const run of runs)
      for (const breach of breaches(context.loom, run)) {
        const key = run.load.terminal.address
        const known = worst.get(key)
        if (!known || Number(breach.stop) - Number(known.stop) > 0 || isWorse(breach, known))
          worst.set(key, breach)
      }
    for (const breach of worst.values()) yield report(context, breach)
    if (context.loom.setting === 'boat') yield* untold(runs)
    yield* gaps(context)
  },
}

const isWorse = (one: Breach, two: Breach): boolean => one.stop === two.stop && one.ratio > two.ratio
