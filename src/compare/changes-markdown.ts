import { escapeMarkdown } from '../base/escape.ts'
import { type Changes, isEmpty } from './changes.ts'
import { type OutlineLine, type OutlineSection, outline } from './changes-outline.ts'
import type { TwoPlaces } from './two-places.ts'

export interface MarkdownOptions {
  /** What was compared, in words: `main` and `HEAD`. */
  readonly before: string
  readonly after: string
  /** Findings only. */
  readonly findingsOnly?: boolean
  readonly places?: TwoPlaces
}

/** Comments of code hosts are cut off or refused above some size; a longer one loses its tail, with a word about it. */
const MOST_CHARACTERS = 60_000

function lineText({ text, more = [] }: OutlineLine, tasks: boolean): string {
  const box = tasks ? '- [ ] ' : '- '
  return [`${box}${escapeMarkdown(text)}`, ...more.map((one) => `  <br>${escapeMarkdown(one)}`)].join('\n')
}

const body = ({ title, lines, tasks = false }: OutlineSection): string =>
  [`**${escapeMarkdown(title)}**`, '', ...lines.map((line) => lineText(line, tasks))].join('\n')

function folded(summary: string, sections: readonly OutlineSection[]): string[] {
  if (sections.length === 0) return []
  return [`<details><summary>${summary}</summary>`, '', sections.map(body).join('\n\n'), '', '</details>', '']
}

const lineCount = (sections: readonly OutlineSection[]): number =>
  sections.reduce((sum, { lines }) => sum + lines.length, 0)

/** For a pull request: a short summary with the new findings, the rest folded. */
export function changesMarkdown(changes: Changes, options: MarkdownOptions): string {
  const { verdict, headline, findings, changes: things, rework } = outline(changes, options.places)
  const urgent = findings.filter(({ brought }) => brought)
  const others = findings.filter((one) => !urgent.includes(one))
  const more = options.findingsOnly ? [] : things
  const steps = options.findingsOnly ? [] : rework
  const text = [
    `### Harness changes, ${escapeMarkdown(options.before)} to ${escapeMarkdown(options.after)}`,
    '',
    isEmpty(changes)
      ? 'Nothing changed in meaning.'
      : `**${escapeMarkdown(verdict)}** ${escapeMarkdown(headline)}`,
    '',
    ...urgent.flatMap((one) => [body(one), '']),
    ...folded(`What changed (${lineCount(more)})`, more),
    ...folded(`Other findings (${lineCount(others)})`, others),
    ...folded(`Rework of looms already built (${lineCount(steps)} steps)`, steps),
  ].join('\n')
  if (text.length <= MOST_CHARACTERS) return `${text.trimEnd()}\n`
  const cut = text.slice(0, text.lastIndexOf('\n', MOST_CHARACTERS))
  const open = (cut.match(/<details>/g) ?? []).length - (cut.match(/<\/details>/g) ?? []).length
  return `${cut}\n\n${open > 0 ? '</details>\n\n' : ''}The rest is left out here for its length; the text report has all of it.\n`
}
