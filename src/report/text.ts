import { escapeTerminal } from '../base/escape.ts'
import type { Finding, Level } from '../base/finding.ts'
import { type Locate, type Place, showPlace } from '../base/place.ts'
import {
  type CheckReport,
  foundIn,
  groupByJob,
  groupNeeds,
  type JobGroup,
  LEVEL_WORD,
  type LevelCounts,
  openQuestions,
} from './check-report.ts'
import { type SourceLine, sourceExcerpt } from './source-excerpt.ts'
import { countOf, hang, wrap } from './text-layout.ts'

/** All that a printer may know about where its text ends up. */
export interface TextOptions {
  /** Cells in a line; text is wrapped to it. */
  readonly width: number
  readonly colour: boolean
  readonly locate: Locate
  readonly sourceLine: SourceLine
}

/** Text for people, from the worst finding to what was not checked. */
export interface Painter {
  readonly level: (level: Level, text: string) => string
  readonly bold: (text: string) => string
  readonly faint: (text: string) => string
}

const sgr = (code: string) => (text: string) => `\u001b[${code}m${text}\u001b[0m`
const plain = (text: string): string => text
const LEVEL_SGR: Readonly<Record<Level, string>> = { stop: '1;31', warning: '1;33', note: '1;36' }

/** Colour for a terminal; without it every word stays the same, since the words carry the meaning. */
export function painter(colour: boolean): Painter {
  if (!colour) return { level: (_, text) => text, bold: plain, faint: plain }
  return { level: (level, text) => sgr(LEVEL_SGR[level])(text), bold: sgr('1'), faint: sgr('2') }
}

const INDENT = '  '
const BULLET = '  - '
const line = (label: string, text: string, width: number): string[] =>
  hang(`${INDENT}${label.padEnd(9)}`, escapeTerminal(text), width)

function excerpt(place: Place, options: TextOptions, paint: Painter): string[] {
  const shown = sourceExcerpt(place, options.sourceLine, options.width - 4)
  if (!shown) return []
  return [`${INDENT}${INDENT}${paint.faint(shown[0])}`, `${INDENT}${INDENT}${paint.bold(shown[1])}`]
}

function headline(finding: Finding, width: number, paint: Painter): string[] {
  const word = LEVEL_WORD[finding.level]
  const tag = `${word} ${escapeTerminal(finding.rule)}`
  const [first = '', ...rest] = wrap(`${tag} · ${escapeTerminal(finding.what)}`, width)
  const painted = first.startsWith(word)
    ? paint.level(finding.level, word) + paint.bold(first.slice(word.length))
    : first
  return [painted, ...rest.map((text) => INDENT + paint.bold(text))]
}

function noteLines(finding: Finding, options: TextOptions): string[] {
  return finding.notes.flatMap((note) => {
    const at = note.at ? ` (${showPlace(options.locate(note.at))})` : ''
    return line('See', `${note.text}${at}`, options.width)
  })
}

/** One finding: what, where with its source line, why, fix and what was assumed. */
function printFinding(finding: Finding, options: TextOptions, paint: Painter): string[] {
  const place = options.locate(finding.at)
  return [
    ...headline(finding, options.width, paint),
    INDENT + paint.faint(escapeTerminal(`${showPlace(place)} · ${finding.subject}`)),
    ...excerpt(place, options, paint),
    ...line('Why', finding.why, options.width),
    ...line('Fix', finding.fix, options.width),
    ...(finding.assumed.length > 0 ? line('Assumed', finding.assumed.join('; '), options.width) : []),
    ...noteLines(finding, options),
    '',
  ]
}

/** `2 stops, 1 warning, 0 notes`. */
export function showCounts(counts: LevelCounts): string {
  return [
    countOf(counts.stop, 'stop'),
    countOf(counts.warning, 'warning'),
    countOf(counts.note, 'note'),
  ].join(', ')
}

function jobTitle(job: JobGroup): string {
  return job.job === '' ? 'In the descriptions' : escapeTerminal(job.job)
}

function printJob(job: JobGroup, options: TextOptions, paint: Painter): string[] {
  const title = `${paint.bold(`── ${jobTitle(job)} ──`)} ${showCounts(job.counts)}`
  return [title, '', ...job.findings.flatMap((finding) => printFinding(finding, options, paint))]
}

function printWaived(report: CheckReport, options: TextOptions, paint: Painter): string[] {
  if (report.waived.length === 0) return []
  const rows = report.waived.flatMap(({ finding, waiver }) =>
    hang(
      BULLET,
      escapeTerminal(
        `${LEVEL_WORD[finding.level]} ${finding.rule} · ${finding.subject}: ${finding.what}. Accepted by ${waiver.by}, ${waiver.date}: ${waiver.reason}`,
      ),
      options.width,
    ),
  )
  return [paint.bold(`Accepted in the shop's policy (${report.waived.length}):`), ...rows, '']
}

function printNeeds(report: CheckReport, options: TextOptions, paint: Painter): string[] {
  const needs = groupNeeds(report.notChecked)
  if (needs.length === 0) return []
  const rows = needs.flatMap(({ rule, needs: fact, subjects }) =>
    hang(BULLET, escapeTerminal(`${rule}: ${fact}, for ${subjects.join(', ')}`), options.width),
  )
  const count = countOf(report.notChecked.length, 'time')
  return [paint.bold(`Not checked, for want of a fact (${count}; this is no pass):`), ...rows, '']
}

function printQuestions(report: CheckReport, options: TextOptions, paint: Painter): string[] {
  const open = openQuestions(report)
  if (open.length === 0) return []
  const rows = open.flatMap(({ question, subject, asking, remark }) =>
    hang(
      BULLET,
      escapeTerminal(`${question.id} · ${subject}: ${asking.text}${remark ? ` (${remark})` : ''}`),
      options.width,
    ),
  )
  const count = countOf(open.length, 'question')
  return [paint.bold(`Only a look can tell (${count} open; this is no pass):`), ...rows, '']
}

function closing(report: CheckReport, paint: Painter): string {
  const counts = foundIn(report)
  const accepted = report.waived.length > 0 ? `, ${report.waived.length} accepted` : ''
  const open = report.notChecked.length > 0 ? `, ${report.notChecked.length} not checked` : ''
  const questions = openQuestions(report).length
  const asked = questions > 0 ? `, ${countOf(questions, 'question')} open` : ''
  const verdict = counts.stop > 0 ? paint.level('stop', 'Do not build.') : 'Nothing stops the work.'
  const hidden = counts.stop + counts.warning + counts.note - report.findings.length
  const unseen = hidden > 0 ? ` ${hidden} of them not shown.` : ''
  return `${showCounts(counts)}${accepted}${open}${asked}.${unseen} ${verdict}`
}

/**
 * The whole report for people: jobs with the worst findings first, then what was accepted, what was not checked, and the counts.
 * Everything a user typed is stripped of control characters, escape sequences and direction marks. Ends with a line end.
 */
export function printText(report: CheckReport, options: TextOptions): string {
  const paint = painter(options.colour)
  const jobs = groupByJob(report.findings).flatMap((job) => printJob(job, options, paint))
  return `${[
    ...jobs,
    ...printWaived(report, options, paint),
    ...printNeeds(report, options, paint),
    ...printQuestions(report, options, paint),
    closing(report, paint),
  ].join('\n')}\n`
}
