import { formatAmps, formatPercent, formatVolts } from '../../base/format-quantity.ts'
import { bothSizes } from '../../base/wire-size.ts'
import { twoLoads } from '../examples/two-loads.ts'
import { found, listOf } from '../outcome.ts'
import { thinCause } from '../queries/conductor-words.ts'
import { dropCure, worstLoss } from '../queries/drop-cure.ts'
import { type Run, supplyRuns } from '../queries/supply-runs.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const SLACK = 1.001
/** Beyond this the limit is not a matter of taste any more. */
const FAR_OVER = 1.25

/** The state in which the feeder of each source loses most. */
function worstFeeders(context: RuleContext): readonly Run[] {
  const worst = new Map<string, Run>()
  for (const run of supplyRuns(context)) {
    const key = run.load.source.address
    const known = worst.get(key)
    if (!known || run.feeder.conductorVolts > known.feeder.conductorVolts) worst.set(key, run)
  }
  return [...worst.values()]
}

function judge({ loom }: RuleContext, run: Run): Outcome | undefined {
  const { feeder } = run
  const nominal = loom.supplyVolts ?? run.load.sourceVolts
  const limitVolts = nominal * loom.settings.dropCriticalShare
  const first = worstLoss(feeder.losses)
  if (!first || !(feeder.conductorVolts > limitVolts * SLACK)) return undefined
  const percent = (volts: number) => `${((100 * volts) / nominal).toFixed(1)} %`
  const cure = dropCure(feeder.losses, feeder.conductorVolts - limitVolts, loom.settings.conductorCelsius)
  const after = feeder.conductorVolts - (cure?.savedVolts ?? 0)
  const { conductor } = first
  const amps = Math.abs(first.amps)
  return found({
    subject: conductor.address,
    level: feeder.conductorVolts > limitVolts * FAR_OVER ? 'stop' : 'warning',
    what: `The feeder loses ${formatVolts(feeder.conductorVolts)} in ${run.state.id}: ${percent(feeder.conductorVolts)} of ${formatVolts(nominal)} (limit ${formatPercent(loom.settings.dropCriticalShare)})`,
    why: `${formatAmps(amps)} for all loads together: ${feeder.losses.map(({ sum, volts }) => `${sum}, ${formatVolts(volts)}`).join('; ')}. With its joints ${formatVolts(feeder.volts)}.`,
    fix: cure
      ? `${listOf(cure.conductors.map(({ id }) => id))} to ${bothSizes(cure.size)}: ${formatVolts(after)} (${percent(after)}).`
      : 'No stock size is enough: shorten the feeder, or split the loads over two.',
    assumed: [`copper at ${loom.settings.conductorCelsius} °C; joints are not counted against the limit`],
    facts: {
      drop: { value: feeder.conductorVolts, unit: 'V' },
      withJoints: { value: feeder.volts, unit: 'V' },
      limit: { value: limitVolts, unit: 'V' },
      current: { value: amps, unit: 'A' },
      state: { value: run.state.id },
    },
    at: conductor.at,
    cause: thinCause(conductor),
    marks: feeder.losses.map((loss) => loss.conductor.address),
  })
}

export const feederDrop: Rule = {
  id: 'feeder-drop',
  title: 'The main feeder of a boat keeps within its share of the drop',
  family: 'power',
  level: 'warning',
  covers: ['W10'],
  reason:
    'What is lost between the battery and the first branch is lost to every load on board, the more the more of them are on.',
  remedy: 'Thicken both legs of the feeder.',
  needs: 'lengths and sizes of the feeder, and the current of each load by state',
  sources: ['ABYC E-11 and ISO 10133: 3 % for panel feeders, in conductors alone (from memory)'],
  examples: { trips: twoLoads('10 mm²'), passes: twoLoads('25 mm²') },
  *check(context) {
    if (context.loom.setting !== 'boat') return
    for (const run of worstFeeders(context)) {
      const outcome = judge(context, run)
      if (outcome) yield outcome
    }
  },
}
