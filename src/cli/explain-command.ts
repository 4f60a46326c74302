import { quote } from '../base/quote.ts'
import { suggest } from '../base/suggest.ts'
import { explainText, listRules } from '../report/explain-text.ts'
import { ruleList } from '../report/rule-list.ts'
import { CLEAN, type Runner, UsageError } from './command.ts'

/** `explain [RULE]`: one rule, or the list of all. */
export const runExplain: Runner = async (args, io) => {
  const [name] = args.positionals
  if (name === undefined) {
    io.out(listRules(ruleList, io.width))
    return CLEAN
  }
  const rule = ruleList.find(({ id }) => id === name)
  if (!rule) {
    const near = suggest(
      name,
      ruleList.map(({ id }) => id),
    )
    throw new UsageError(
      `there is no rule ${quote(name)}`,
      near.length > 0
        ? near.map((id) => `loomwright explain ${id}`).join(', or ')
        : 'loomwright explain lists every rule',
    )
  }
  io.out(explainText(rule, io.width))
  return CLEAN
}
