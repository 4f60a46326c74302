import { headView, issueLine, runningLine } from '../sheets/head-view.ts'
import { qrMarkup } from '../sheets/qr.ts'
import type { Href } from './expand-tree.ts'
import type { Guide, GuidePhase } from './install-guide.ts'
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
    questions: phase.questions.map((one) => ({ ...one, href: href?.(one.subject) ?? '' })),
    own: phase.own.map((piece) => ({ title: piece.title, html: treeToHtml(piece.content, 4) })),
    figures: phase.figures.map((one) => ({ ...one })),
  }
}
