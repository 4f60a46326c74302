import { escapeTerminal } from '../base/escape.ts'
import {
  type CheckReport,
  countLevels,
  groupByJob,
  type JobGroup,
  LEVEL_WORD,
  openQuestions,
} from './check-report.ts'
import { painter, showCounts } from './text.ts'
import { countOf, hang } from './text-layout.ts'

const MOST_STOPS = 3

function jobLines(job: JobGroup, width: number, colour: boolean): string[] {
  const paint = painter(colour)
  const stops = job.findings.filter(({ level }) => level === 'stop')
  const title = job.job === '' ? 'descriptions' : escapeTerminal(job.job)
  const shown = stops.slice(0, MOST_STOPS).flatMap((stop) => {
    const [first = '', ...rest] = hang(
      `    ${LEVEL_WORD.stop} `,
      escapeTerminal(`${stop.what} (${stop.rule})`),
      width,
    )
    return [first.replace(LEVEL_WORD.stop, paint.level('stop', LEVEL_WORD.stop)), ...rest]
  })
  const more = stops.length - MOST_STOPS
  return [
    `  ${paint.bold(title)}: ${showCounts(job.counts)}`,
    ...shown,
    ...(more > 0 ? [`    and ${more} more at stop level`] : []),
  ]
}

/** What a check found, in a few lines for each job that has findings: counts, and the first stops by name. Ends with a line end. */
export function printSummary(report: CheckReport, width: number, colour: boolean): string {
  const open =
    report.notChecked.length > 0 ? `; ${report.notChecked.length} not checked for want of a fact` : ''
  const accepted = report.waived.length > 0 ? `; ${report.waived.length} accepted in the shop's policy` : ''
  const questions = openQuestions(report).length
  const asked = questions > 0 ? `; ${countOf(questions, 'question')} open` : ''
  const head = `Found ${showCounts(countLevels(report.findings))}${accepted}${open}${asked}.`
  const jobs = groupByJob(report.findings).flatMap((job) => jobLines(job, width, colour))
  return `${[head, ...jobs].join('\n')}\n`
}
