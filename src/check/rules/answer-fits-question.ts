import { below } from '../../base/place.ts'
import { quote } from '../../base/quote.ts'
import { didYouMean } from '../../base/suggest.ts'
import type { Loom } from '../../resolve/loom.ts'
import { type Answer, answersOf, ask } from '../ask.ts'
import { vehicleExample } from '../examples/vehicle.ts'
import { found, listOf } from '../outcome.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'
import { standardQuestions } from '../standard-questions.ts'

const example = (at: 'dash' | 'roof') =>
  vehicleExample({
    place: {
      answers: [
        { question: 'clear-of-airbags', at, answer: 'yes', by: 'M. Teal', date: '2026-03-09' },
        { question: 'clear-of-airbags', at: 'bonnet', answer: 'yes', by: 'M. Teal', date: '2026-03-09' },
      ],
    },
  })

const IDS = standardQuestions.map(({ id }) => id)

interface Stray {
  readonly what: string
  readonly why: string
  readonly fix: string
}

/** What is wrong with an answer that answers nothing; undefined when it fits. */
function strayOf(answer: Answer, subjects: ReadonlyMap<string, readonly string[]>): Stray | undefined {
  const asked = subjects.get(answer.question)
  if (!asked)
    return {
      what: `${answer.by} answers ${quote(answer.question)}, and there is no such question`,
      why: 'The question that was meant stays open.',
      fix: `Correct the name.${didYouMean(answer.question, IDS)} There are: ${IDS.join(', ')}.`,
    }
  const place = answer.at === undefined ? '' : ` at ${quote(answer.at)}`
  if (asked.length === 0)
    return {
      what: `${answer.by} answers ${answer.question}${place}, which nothing in this job asks`,
      why: 'What called for the question is no longer there, or was never described.',
      fix: 'Delete the answer, or describe what it was about.',
    }
  if (answer.at === undefined || asked.includes(answer.at)) return undefined
  return {
    what: `${answer.by} answers ${answer.question}${place}, where it is not asked`,
    why: `It is asked at ${listOf(asked)}. What was looked at is not what the job now holds.`,
    fix: `Name one of those, or leave the place out if all were looked at.${didYouMean(answer.at, asked)}`,
  }
}

/** Places at which each question is asked of this job. */
export function askedPlaces(context: RuleContext): ReadonlyMap<string, readonly string[]> {
  return new Map(
    standardQuestions.map((question) => [
      question.id,
      ask(question, context).map(({ asking }) => asking.subject),
    ]),
  )
}

function told({ what, why, fix }: Stray, answer: Answer, index: number, loom: Loom): Outcome {
  return found({
    subject: `answers.${index + 1}`,
    what,
    why,
    fix,
    facts: { question: { value: answer.question }, ...(answer.at ? { at: { value: answer.at } } : {}) },
    at: below(loom.at, 'answers', index),
  })
}

export const answerFitsQuestion: Rule = {
  id: 'answer-fits-question',
  title: 'An answer belongs to a question that is asked',
  family: 'papers',
  level: 'warning',
  covers: ['X6'],
  reason:
    'An answer outlives what it was given for: the wire is laid another way, the unit is gone, or the name is misspelt. It then looks as if somebody had checked what nobody did.',
  remedy: 'Correct or delete the answer, and look again.',
  needs: 'the answers of the installation',
  sources: ['common practice'],
  examples: { trips: example('roof'), passes: example('dash') },
  *check(context) {
    const { loom } = context
    const answers = answersOf(loom)
    if (answers.length === 0) return
    const subjects = askedPlaces(context)
    for (const [index, answer] of answers.entries()) {
      const stray = strayOf(answer, subjects)
      if (stray) yield told(stray, answer, index, loom)
    }
  },
}
