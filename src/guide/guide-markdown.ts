import { headLines } from '../sheets/head.ts'
import { markdownText } from '../sheets/markdown-text.ts'
import type { Expected } from './expected-figures.ts'
import type { Guide, GuidePhase } from './install-guide.ts'
import type { GuideQuestion } from './questions.ts'
import { treeToMarkdown } from './render-tree.ts'

/** An install guide as Markdown: one step a line with a box to tick. */
export function guideMarkdown(guide: Guide): string {
  const blocks = [
    `# ${markdownText(`${guide.title}: ${guide.head.subject}`)}`,
    headLines(guide.head)
      .map(([name, value]) => `- ${name}: ${markdownText(value ?? '________')}`)
      .join('\n'),
    `> **Limits.** ${markdownText(guide.limits)}`,
    ...guide.stops.map(
      (stop) => `> **STOP, do not build:** ${markdownText(stop.what)} (${markdownText(stop.rule)})`,
    ),
    '## Tools and consumables',
    guide.tools.map((tool) => `- ${markdownText(tool)}`).join('\n'),
    ...guide.phases.flatMap(phaseBlocks),
    '## Deviations',
    'What was done otherwise, and why: ________',
  ]
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`
}

function phaseBlocks(phase: GuidePhase, index: number): string[] {
  return [
    `## ${index + 1} ${markdownText(phase.title)}`,
    ...phase.cautions.map(
      (caution) => `> **Caution: ${markdownText(caution.title)}.** ${markdownText(caution.text)}`,
    ),
    phase.steps.map((one, n) => `${n + 1}. ☐ ${markdownText(one.text)}`).join('\n'),
    phase.questions.map(questionLines).join('\n'),
    ...phase.own.flatMap((piece) => [`### ${markdownText(piece.title)}`, treeToMarkdown(piece.content, 4)]),
    figureTable(phase.figures),
  ]
}

/** A question with its answer, or with boxes for one. */
function questionLines({ text, why, open, answer, remark, distance }: GuideQuestion): string {
  const room = `☐ yes ☐ no ☐ does not apply${distance ? ' · distance ________' : ''} · by ________ · date ________`
  const given = [
    answer === '' ? '' : `Answered ${answer}.`,
    remark === '' ? '' : `(${remark})`,
    open ? room : '',
  ]
  return `- **${markdownText(text)}** ${markdownText(why)} ${given
    .filter((one) => one !== '')
    .map((one) => (one === room ? one : markdownText(one)))
    .join(' ')}`
}

function figureTable(figures: readonly Expected[]): string {
  if (figures.length === 0) return ''
  const rows = figures.map(
    (one) => `| ${[one.state, one.where, one.what, one.figure].map(markdownText).join(' | ')} |  |`,
  )
  return [
    '| State | Measure at | What | Expect | Reading |',
    '| --- | --- | --- | ---: | --- |',
    ...rows,
  ].join('\n')
}
