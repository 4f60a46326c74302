import { escapeTerminal } from '../base/escape.ts'
import type { Trial, TrialKind } from '../check/what-if/trial.ts'
import { LEVEL_WORD, type WhatIfReport } from './check-report.ts'
import { countOf, hang } from './text-layout.ts'

/** What is tried out, as headings. */
export const TRIAL_TITLES: Readonly<Record<TrialKind, string>> = {
  swap: 'Plugs swapped',
  ground: 'Grounds lost',
  unplug: 'Plugs pulled',
  short: 'Far ends shorted',
  isolator: 'Switches opened',
}

/** What each kind of trial could not find, in one line. */
export const NONE_TRIED: Readonly<Record<TrialKind, string>> = {
  swap: 'No two plugs go into each other’s place.',
  ground: 'No ground joint carries current.',
  unplug: 'No plug is mated.',
  short: 'No fused load with a described way back.',
  isolator: 'No switch feeds anything.',
}

export const alikeWords = ({ alike }: Trial): string =>
  alike.length === 0 ? '' : `and ${alike.length} that fare alike: ${alike.join(', ')}`

function trialLines(trial: Trial, width: number): string[] {
  const { level, tried, outcome, figure, path } = trial
  const word = level === 'fine' ? 'OK' : LEVEL_WORD[level]
  const tail = [alikeWords(trial), path.length > 1 ? `way: ${path.join(' → ')}` : ''].filter(
    (text) => text !== '',
  )
  return [
    ...hang(
      `  ${word.padEnd(9)}`,
      escapeTerminal(`${tried}: ${outcome}${figure === '' ? '' : ` (${figure})`}`),
      width,
    ),
    ...tail.flatMap((text) => hang(' '.repeat(11), escapeTerminal(text), width)),
  ]
}

/** What the simulations came to, for a terminal. Ends with a line end. */
export function whatIfText(reports: readonly WhatIfReport[], width: number): string {
  const lines = reports.flatMap(({ job, sets }) => [
    '',
    `── What if: ${escapeTerminal(job)} ──`,
    ...sets.flatMap(({ kind, trials, count, left }) => [
      `${TRIAL_TITLES[kind]} (${count} tried${left > 0 ? `, ${left} not` : ''})`,
      ...(trials.length === 0
        ? [`  ${NONE_TRIED[kind]}`]
        : trials.flatMap((trial) => trialLines(trial, width))),
      ...(left > 0 ? [`  ${countOf(left, 'more trial')} left out: the loom is large. Look by hand.`] : []),
    ]),
  ])
  return `${lines.join('\n')}\n`
}
