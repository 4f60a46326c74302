import { describe, expect, test } from 'vitest'
import { guideMarkdown } from '../../src/guide/guide-markdown.ts'
import { guideView } from '../../src/guide/guide-view.ts'
import { installGuide } from '../../src/guide/install-guide.ts'
import { PHASE_IDS } from '../../src/guide/phases.ts'
import { printJson } from '../../src/report/json.ts'
import { sarifLog } from '../../src/report/sarif.ts'
import { printText } from '../../src/report/text.ts'
import { job } from '../demos/demo-shop.ts'

const guideOf = (id: string) => {
  const { loom, solution } = job(id)
  return installGuide({ loom, solution })
}
const where = (id: string) =>
  guideOf(id).phases.flatMap((phase) => phase.questions.map((one) => `${phase.id} ${one.id} ${one.subject}`))

describe('the install guide', () => {
  test('puts each question into the phase where it bites', () => {
    expect(where('council-pickup')).toEqual([
      'open-up clear-of-airbags dash',
      'open-up clear-of-airbags rear-glass',
      'antenna antenna-clear-of-people antenna',
      'route clear-of-fuel-and-heat engine-bay',
      'route clear-of-fuel-and-heat grille',
      expect.stringMatching(/^signals live-plug-ground-first radio\.J3$/),
      expect.stringMatching(/^signals live-plug-ground-first head\.J4$/),
      'supply feed-from-permitted-point taps',
    ])
  })

  test('loses none of them, whatever its phase holds besides', () => {
    const { questions } = job('council-pickup-planned').result
    expect(where('council-pickup-planned')).toHaveLength(questions.length)
    for (const { question } of questions) expect(PHASE_IDS).toContain(question.moment)
  })

  test('leaves room for an answer, or prints the one there is', () => {
    const open = guideMarkdown(guideOf('council-pickup-planned'))
    expect(open).toMatch(/In dash: is everything out of the way.*☐ yes ☐ no ☐ does not apply · by ________/)
    expect(open).toMatch(
      /Is antenna at least 900 mm.*needs the distance that was measured.*distance ________/,
    )
    const answered = guideMarkdown(guideOf('council-pickup'))
    expect(answered).toMatch(/Is antenna at least 900 mm.*Answered yes, 1\.1 m: M\\?\. Teal/)
    expect(answered).not.toContain('☐ does not apply')
  })

  test('asks once what it asks at several places', () => {
    const phase = guideView(guideOf('council-pickup-planned')).phases.find(({ id }) => id === 'open-up')
    expect(phase?.questions).toHaveLength(1)
    expect(phase?.questions[0]?.places.map(({ place }) => place)).toEqual([
      'engine-bay',
      'grille',
      'dash',
      'floor',
      'seat-back',
      'rear-glass',
    ])
  })
})

describe('the report', () => {
  const locate = () => ({ file: 'pickup.json', line: 1, column: 1 })
  const { result } = job('council-pickup-planned')
  const open = result.questions.filter(({ state }) => state === 'open').length

  test('lists what is open and counts it, for people and for programs', () => {
    const text = printText(result, { width: 100, colour: false, locate, sourceLine: () => undefined })
    expect(text).toContain(`Only a look can tell (${open} questions open; this is no pass):`)
    expect(text).toMatch(new RegExp(`, ${open} questions open\\. Do not build\\.\\n$`))
    const json = JSON.parse(printJson(result, locate, '0.1.0'))
    expect(json.counts.openQuestions).toBe(open)
    expect(json.questions).toHaveLength(result.questions.length)
    expect(json.questions.find(({ state }: { state: string }) => state === 'good')).toMatchObject({
      question: 'clear-of-fuel-and-heat',
      subject: 'council-pickup-planned/grille',
      answer: { answer: 'yes', by: 'J. Hollin', date: '2026-03-02' },
    })
  })

  test('gives code review a result to look at for each', () => {
    const log = sarifLog(result, { locate, toolVersion: '0.1.0', rules: [] }) as {
      runs: { results: { kind?: string; level: string }[] }[]
    }
    const review = log.runs[0]?.results.filter(({ kind }) => kind === 'review') ?? []
    expect(review).toHaveLength(open)
    expect(new Set(review.map(({ level }) => level))).toEqual(new Set(['none']))
  })
})
