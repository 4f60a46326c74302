import { groupBy } from '../sheets/group-by.ts'
import { headView, issueLine, runningLine } from '../sheets/head-view.ts'
import { qrMarkup } from '../sheets/qr.ts'
import type { Href } from './expand-tree.ts'
import type { Guide, GuidePhase } from './install-guide.ts'
import type { GuideQuestion } from './questions.ts'
import { treeToHtml } from './render-tree.ts'

/** A guide as the templates see it; every field is always there. */
export function guideView(guide: Guide, href?: Href) {
  const { head } = guide
  const running = runningLine(guide.title, head)
  return {
    title: guide.title,
    subject: head.subject,
    running,
    match: head.match,
    qr: qrMarkup(issueLine(head)),
    head: headView(head),
    limits: guide.limits,
    stops: guide.stops.map(({ what, rule }) => ({ what, rule })),
    tools: guide.tools,
    phases: guide.phases.map((phase, index) => phaseView(phase, index, href)),
  }
}

/** One box a question: asked at several places it stands once, with a line for each place. */
function questionGroups(questions: readonly GuideQuestion[], href: Href | undefined) {
  return [...groupBy(questions, ({ id }) => id).values()].map((group) => ({
    id: group[0]?.id ?? '',
    text: (group.length === 1 ? group[0]?.text : group[0]?.general) ?? '',
    places: group.map((one) => ({
      ...one,
      place: group.length === 1 ? '' : one.subject,
      href: href?.(one.subject) ?? '',
    })),
  }))
}

function phaseView(phase: GuidePhase, index: number, href: Href | undefined) {
  return {
    id: phase.id,
    number: index + 1,
    title: phase.title,
    cautions: phase.cautions.map(({ title, text, hazard }) => ({ title, text, hazard })),
    steps: phase.steps.map(({ text, address }) => ({
      text,
      href: (address === undefined ? undefined : href?.(address)) ?? '',
    })),
    questions: questionGroups(phase.questions, href),
    own: phase.own.map((piece) => ({ title: piece.title, html: treeToHtml(piece.content, 4) })),
    figures: phase.figures.map((one) => ({ ...one })),
  }
}
