import { formatNewtons, formatOhms } from '../base/format-quantity.ts'
import type { AsBuilt, AsBuiltStep } from '../describe/as-built.ts'
import type { BenchStep } from './bench-step.ts'

/** More than this many are counted, not named. */
const MOST_NAMED = 3

/**
 * What a record of this issue says otherwise than the steps of the harness do, a sentence each: steps left out or added, and limits
 * that are not those the steps ask for. A reading judged by an edited limit proves nothing, whatever its verdict.
 */
export function asBuiltAgainst(record: AsBuilt, steps: readonly BenchStep[]): string[] {
  const wanted = new Map(steps.map((step) => [step.id, step]))
  const told = new Set(record.steps.map(({ id }) => id))
  const missing = steps.filter(({ id }) => !told.has(id)).length
  const foreign = record.steps.filter(({ id }) => !wanted.has(id)).length
  const bent = record.steps.flatMap((own) => {
    const step = wanted.get(own.id)
    return step && !sameLimits(own, step) ? [limitText(own, step)] : []
  })
  return [
    // What the record itself owns up to is counted as not done already.
    missing > record.stepCount - record.steps.length
      ? `${counted(missing, 'step')} of the harness ${missing === 1 ? 'is' : 'are'} not in the record.`
      : '',
    foreign > 0
      ? `${counted(foreign, 'step')} of the record ${foreign === 1 ? 'is' : 'are'} none of the harness.`
      : '',
    ...bent.slice(0, MOST_NAMED),
    bent.length > MOST_NAMED ? `${bent.length - MOST_NAMED} more were judged by other limits.` : '',
  ].filter((line) => line !== '')
}

const counted = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? '' : 's'}`

type Limits = Pick<AsBuiltStep, 'ask' | 'min' | 'max'>

const sameLimits = (a: Limits, b: Limits): boolean => a.ask === b.ask && a.min === b.min && a.max === b.max

const limitText = (own: AsBuiltStep, step: BenchStep): string =>
  `Step ${own.number}, ${own.what.slice(0, 80)}, was judged by “${boundText(own)}”; the harness asks for “${boundText(step)}”.`

function boundText({ ask, min, max }: Limits): string {
  if (ask === 'done' || ask === 'look') return ask === 'done' ? 'done' : 'look'
  const format = ask === 'force' ? formatNewtons : formatOhms
  const bounds = [
    min === undefined ? '' : `at least ${format(min)}`,
    max === undefined ? '' : `at most ${format(max)}`,
  ]
  return bounds.filter((text) => text !== '').join(', ') || 'any figure'
}
