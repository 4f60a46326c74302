import { answerWords } from '../guide/questions.ts'
import { placeNear } from './finding-view.ts'
import { linkTo, type Site } from './page.ts'
import type { Job } from './site-input.ts'

const STATE = {
  open: 'open',
  good: 'answered',
  bad: 'answered no',
  'does-not-apply': 'does not apply',
} as const

/** What a person is asked of a job, open questions first. */
export function questionViews(site: Site, path: string, { loom, questions = [] }: Job) {
  const open = questions.filter(({ state }) => state === 'open')
  const rows = [...open, ...questions.filter(({ state }) => state !== 'open')].map((put) => ({
    text: put.asking.text,
    why: put.asking.why,
    state: STATE[put.state],
    open: put.state === 'open',
    answer: answerWords(put),
    remark: put.remark ?? '',
    rule: put.question.id,
    ruleHref: linkTo(path, site.map.rule(put.question.id)),
    href: linkTo(path, placeNear(site, loom, put.asking.subject)),
    subject: put.asking.subject,
  }))
  return { questions: rows, openQuestions: open.length, askedQuestions: rows.length }
}
