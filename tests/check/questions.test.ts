import { describe, expect, test } from 'vitest'
import { ruleOf } from '../../src/check/ask.ts'
import type { CheckResult } from '../../src/check/check.ts'
import { vehicleExample } from '../../src/check/examples/vehicle.ts'
import { livePlugGroundFirst } from '../../src/check/questions/live-plug-ground-first.ts'
import { standardQuestions } from '../../src/check/standard-questions.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import type { InstallationInput } from '../../src/describe/installation.ts'
import { checkDocument } from './check-document.ts'

type Answers = NonNullable<InstallationInput['answers']>
const who = { by: 'M. Teal', date: '2026-03-09' } as const
const zones: InstallationInput['zones'] = [
  { id: 'bonnet', near: [] },
  { id: 'dash', near: ['airbag'] },
]

const states = ({ questions }: CheckResult) =>
  questions.map(({ question, subject, state }) => `${question.id} ${subject} ${state}`)
const judged = (answers: Answers, place: Partial<InstallationInput> = {}) =>
  checkDocument(vehicleExample({ place: { zones, answers, ...place } }))

/** The same description with nothing answered. */
const unanswered = (data: DocumentInput): DocumentInput => ({
  ...data,
  installations: (data.installations ?? []).map(({ answers: _, ...rest }) => rest),
})

describe.each(standardQuestions.map((question) => [question.id, question] as const))('%s', (id, question) => {
  test('is open while nobody answers, and then no finding', () => {
    const result = checkDocument(unanswered(question.examples.passes))
    const own = result.questions.filter((put) => put.question.id === id)
    expect(own.length).toBeGreaterThan(0)
    expect(own.map(({ state }) => state)).toEqual(own.map(() => 'open'))
    expect(result.findings).toEqual([])
  })

  test('is settled by its passing answer, at the level it has by its tripping one', () => {
    expect(checkDocument(question.examples.passes).questions.filter((put) => put.state !== 'good')).toEqual(
      checkDocument(question.examples.passes).questions.filter(
        (put) => put.question.id !== id && put.state === 'open',
      ),
    )
    expect(checkDocument(question.examples.trips).findings.map(({ level }) => level)).toEqual([
      question.level,
    ])
  })

  test('is put as a question, with figures or names for a reason', () => {
    expect(question.text).toMatch(/\?$/)
    for (const { asking } of checkDocument(question.examples.passes).questions) {
      expect(asking.text).toMatch(/\?$/)
      expect(asking.why).toMatch(/^\S.*\.$/)
      expect(asking.why).not.toMatch(/undefined|NaN/)
    }
  })

  test('is explained as a rule that asks', () => {
    const rule = ruleOf(question)
    expect(rule.asks).toBe(question.text)
    expect(rule.covers).toEqual(question.covers)
  })
})

describe('which answer counts', () => {
  const at = { question: 'clear-of-airbags', at: 'dash', ...who } as const

  test('one for this very place before one for all', () => {
    const all = { question: 'clear-of-airbags', answer: 'yes', by: 'J. Hollin', date: '2026-04-01' } as const
    expect(judged([{ ...at, answer: 'no' }, all]).findings).toHaveLength(1)
  })

  test.each([
    ['2026-03-10', 0],
    ['2026-03-08', 1],
  ])('the latest: mended on %s', (date, bad) => {
    const { findings } = judged([
      { ...at, answer: 'yes', date },
      { ...at, answer: 'no' },
    ])
    expect(findings).toHaveLength(bad)
  })

  test('that it does not apply needs a reason', () => {
    expect(states(judged([{ ...at, answer: 'does-not-apply' }]))).toEqual(['clear-of-airbags van/dash open'])
    expect(states(judged([{ ...at, answer: 'does-not-apply', note: 'no airbags fitted' }]))).toEqual([
      'clear-of-airbags van/dash does-not-apply',
    ])
  })
})

describe('when a question is asked', () => {
  test('not where it is said that there is nothing of the kind, and not in a building', () => {
    expect(
      states(
        judged([], {
          zones: [
            { id: 'bonnet', near: [] },
            { id: 'dash', near: [] },
          ],
        }),
      ),
    ).toEqual([])
    expect(states(judged([], { setting: 'building' }))).toEqual([])
  })

  test('where nobody says: silence is no pass', () => {
    expect(states(judged([], { zones: [] }))).toEqual([
      'clear-of-airbags van/bonnet open',
      'clear-of-airbags van/dash open',
    ])
  })

  test.each([
    ['49 °C', 0],
    ['50 °C', 1],
  ] as const)('fuel and heat from 50 °C on where nobody says: %s', (hottest, count) => {
    const { questions } = judged([], {
      zones: [
        { id: 'bonnet', hottest },
        { id: 'dash', near: [] },
      ],
    })
    expect(questions.filter(({ question }) => question.id === 'clear-of-fuel-and-heat')).toHaveLength(count)
  })

  test('switched off in the policy it is not asked', () => {
    const data = {
      ...vehicleExample({ place: { zones } }),
      policy: { rules: { 'clear-of-airbags': 'off' as const } },
    }
    expect(states(checkDocument(data))).toEqual([])
  })
})

describe('a plug that is pulled live', () => {
  const data = unanswered(livePlugGroundFirst.examples.passes)
  const withFamily = (more: object): DocumentInput => ({
    ...data,
    parts: (data.parts ?? []).map((part) => ({ ...part, ...more })),
  })

  test('is not asked about where the family makes the ground first', () => {
    expect(checkDocument(withFamily({ firstMate: ['2'] })).questions).toEqual([])
    expect(checkDocument(withFamily({ firstMate: ['3'] })).questions).toHaveLength(1)
  })
})

describe('the distance of an antenna', () => {
  const question = standardQuestions.find(({ id }) => id === 'antenna-clear-of-people')
  const measured = (distance: `${number} m` | undefined): CheckResult => {
    const data = question?.examples.passes as DocumentInput
    const answer = { question: 'antenna-clear-of-people', answer: 'yes', ...who } as const
    return checkDocument({
      ...data,
      installations: (data.installations ?? []).map((one) => ({
        ...one,
        answers: [distance === undefined ? answer : { ...answer, distance }],
      })),
    })
  }

  test.each([
    ['0.9 m', 'good'],
    ['0.899 m', 'bad'],
    [undefined, 'open'],
  ] as const)('%s is %s where its maker states 0.9 m', (distance, state) => {
    expect(measured(distance).questions.map((put) => put.state)).toEqual([state])
  })
})

test('an answer to a question that does not exist names the nearest', () => {
  const { findings } = judged([{ question: 'clear-of-airbag', answer: 'yes', ...who }])
  expect(findings.map(({ rule, fix }) => [rule, fix])).toEqual([
    ['answer-fits-question', expect.stringContaining('clear-of-airbags')],
  ])
})
