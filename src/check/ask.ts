import { formatLength } from '../base/format-quantity.ts'
import { below } from '../base/place.ts'
import type { Installation } from '../describe/installation.ts'
import type { Loom } from '../resolve/loom.ts'
import { found } from './outcome.ts'
import type { Asking, Question } from './question.ts'
import type { Outcome, Rule, RuleContext } from './rule.ts'

export type Answer = NonNullable<Installation['answers']>[number]

/** `open`: nobody has looked, or the answer lacks what it needs. `bad`: the answer is no, or the distance too short. */
export type AnswerState = 'open' | 'good' | 'bad' | 'does-not-apply'

/** A question put at one place, and what was answered. */
export interface Asked {
  readonly question: Question
  readonly asking: Asking
  readonly state: AnswerState
  readonly answer?: Answer & { readonly index: number }
  /** What the answer lacks, where it is open although somebody answered; or how it is bad. */
  readonly remark?: string
}

/** Answers of an installation in the order written; a harness on its own has none, since nothing of it is fitted yet. */
export const answersOf = (loom: Loom): readonly Answer[] =>
  loom.kind === 'installation' ? ((loom.source as Installation).answers ?? []) : []

/** The answer that counts: for this very place before for all, then the latest. */
function answerTo(question: Question, { subject }: Asking, loom: Loom): Asked['answer'] {
  const fitting = answersOf(loom)
    .map((answer, index) => ({ ...answer, index }))
    .filter((one) => one.question === question.id && (one.at === undefined || one.at === subject))
  return fitting.sort(
    (a, b) =>
      Number(b.at !== undefined) - Number(a.at !== undefined) ||
      (a.date === b.date ? b.index - a.index : a.date < b.date ? 1 : -1),
  )[0]
}

function judged(asking: Asking, answer: Answer): Pick<Asked, 'state' | 'remark'> {
  const { distance } = asking
  if (answer.answer === 'no') return { state: 'bad', remark: 'Answered no' }
  if (answer.answer === 'does-not-apply')
    return answer.note === undefined
      ? { state: 'open', remark: 'needs a note why it does not apply' }
      : { state: 'does-not-apply' }
  if (!distance) return { state: 'good' }
  if (answer.distance === undefined) return { state: 'open', remark: 'needs the distance that was measured' }
  const least = distance.leastMm
  return least !== undefined && answer.distance < least
    ? {
        state: 'bad',
        remark: `${formatLength(answer.distance)} measured, and its maker states ${formatLength(least)}`,
      }
    : { state: 'good' }
}

/** Every place where a question is put, with its answer. Nothing is asked of a harness that is not installed. */
export function ask(question: Question, context: RuleContext): Asked[] {
  if (context.loom.kind !== 'installation') return []
  return [...question.asked(context)].map((asking) => {
    const answer = answerTo(question, asking, context.loom)
    return answer
      ? { question, asking, answer, ...judged(asking, answer) }
      : { question, asking, state: 'open' as const }
  })
}

function bad({ question, asking, answer, remark }: Asked, { loom }: RuleContext): Outcome {
  const { subject, text, why, at, facts = {}, marks = [] } = asking
  const given = answer
    ? `Answered by ${answer.by} on ${answer.date}${answer.note ? `: ${answer.note}` : ''}. `
    : ''
  return found({
    subject,
    what: `${remark ?? 'Answered no'}: “${text}”`,
    why: `${given.replace(/\.\. $/, '. ')}${why}`,
    fix: question.remedy,
    facts: {
      answer: { value: answer?.answer ?? 'no' },
      ...(answer?.distance === undefined ? {} : { distance: { value: answer.distance, unit: 'mm' } }),
      ...facts,
    },
    at: answer ? below(loom.at, 'answers', answer.index) : at,
    marks: [...marks],
  })
}

/** The rule a question amounts to: a bad answer is a finding. What is open is listed apart and is no pass. */
export function ruleOf(question: Question): Rule {
  const { id, title, family, level, covers, reason, remedy, sources, examples } = question
  return {
    id,
    title,
    family,
    level,
    covers,
    reason,
    remedy,
    needs: `an answer in the installation. Asked: ${question.applies}`,
    sources,
    asks: question.text,
    examples,
    *check(context) {
      for (const asked of ask(question, context)) if (asked.state === 'bad') yield bad(asked, context)
    },
  }
}
