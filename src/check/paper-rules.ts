import { ruleOf } from './ask.ts'
import type { Rule } from './rule.ts'
import { answerFitsQuestion } from './rules/answer-fits-question.ts'
import { colourNotOnlyMark } from './rules/colour-not-only-mark.ts'
import { issuedPaperComplete } from './rules/issued-paper-complete.ts'
import { labelFits } from './rules/label-fits.ts'
import { labelUnique } from './rules/label-unique.ts'
import { standardQuestions } from './standard-questions.ts'

/** What goes out with a loom, and what a person has to answer for. */
export const paperRules: readonly Rule[] = [
  labelUnique,
  labelFits,
  colourNotOnlyMark,
  issuedPaperComplete,
  answerFitsQuestion,
  ...standardQuestions.map(ruleOf),
]
