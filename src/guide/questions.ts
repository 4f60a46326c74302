import { formatLength } from '../base/format-quantity.ts'
import { type Asked, ask } from '../check/ask.ts'
import { standardQuestions } from '../check/standard-questions.ts'
import type { Facts } from './facts.ts'
import type { PhaseId } from './phases.ts'

/** A question as the guide prints it: with its answer, or with room for one. */
export interface GuideQuestion {
  readonly id: string
  readonly phase: PhaseId
  readonly subject: string
  readonly text: string
  /** The question without its place, for a list of places. */
  readonly general: string
  readonly why: string
  readonly open: boolean
  /** Whether it asks for a distance beside yes or no. */
  readonly distance: boolean
  /** "yes, 1.2 m: M. Teal, 2026-03-09. Note." Empty while nobody has answered. */
  readonly answer: string
  /** What an answer lacks or how it is bad. */
  readonly remark: string
}

const WORDS = { yes: 'yes', no: 'no', 'does-not-apply': 'does not apply' } as const

/** An answer in one line; empty where there is none. */
export function answerWords({ answer }: Pick<Asked, 'answer'>): string {
  if (!answer) return ''
  const distance = answer.distance === undefined ? '' : `, ${formatLength(answer.distance)}`
  return `${WORDS[answer.answer]}${distance}: ${answer.by}, ${answer.date}${answer.note ? `. ${answer.note}` : ''}`
}

function asPrinted(asked: Asked): GuideQuestion {
  const { question, asking, state, remark } = asked
  return {
    id: question.id,
    phase: question.moment,
    subject: asking.subject,
    text: asking.text,
    general: question.text,
    why: asking.why,
    open: state === 'open',
    distance: asking.distance !== undefined,
    answer: answerWords(asked),
    remark: remark ?? '',
  }
}

/** Every question of the job in the order of the catalogue of questions. */
export function guideQuestions({ loom, solution }: Facts): GuideQuestion[] {
  if (!solution) return []
  const context = { loom, solution, paths: solution.paths }
  return standardQuestions.flatMap((question) => ask(question, context)).map(asPrinted)
}
