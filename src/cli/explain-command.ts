import { quote } from '../base/quote.ts'
import { suggest } from '../base/suggest.ts'
import { explainText, listRules } from '../report/explain-text.ts'
import { ruleList } from '../report/rule-list.ts'
import { type Args, CLEAN, type Runner, UsageError } from './command.ts'

/** The catalogue of faults against the rules, for people or as data. */
async function explainAll(args: Args, width: number): Promise<string> {
  if (args.positionals.length > 0)
    throw new UsageError('--all lists every fault and takes no rule', 'loomwright explain --all')
  const { catalogueCoverage, countCoverage } = await import('../report/catalogue-coverage.ts')
  const faults = catalogueCoverage()
  if (args.text('format') === 'json') {
    const { printJsonText } = await import('../report/json.ts')
    const rows = faults.map(({ fault, by, reason }) => ({ ...fault, by, ...(reason ? { reason } : {}) }))
    return printJsonText({ counts: countCoverage(faults), faults: rows })
  }
  return (await import('../report/coverage-text.ts')).coverageText(faults, width)
}

/** Settings of the policy with their reasons, at their defaults: a shop’s own stand on its page of decisions. */
async function explainSettings(args: Args, width: number): Promise<string> {
  if (args.positionals.length > 0)
    throw new UsageError('--settings lists every setting and takes no rule', 'loomwright explain --settings')
  const { decidedIn } = await import('../report/policy-settings.ts')
  const rows = decidedIn(undefined)
  if (args.text('format') === 'json')
    return (await import('../report/json.ts')).printJsonText({ settings: rows })
  return (await import('../report/policy-text.ts')).policyText(rows, width)
}

/** `explain [RULE]`: one rule, the list of all, or with `--all` every fault and what looks for it. */
export const runExplain: Runner = async (args, io) => {
  const [name] = args.positionals
  if (args.flag('all')) {
    io.out(await explainAll(args, io.width))
    return CLEAN
  }
  if (args.flag('settings')) {
    io.out(await explainSettings(args, io.width))
    return CLEAN
  }
  if (args.text('format') !== undefined)
    throw new UsageError('--format goes with --all or --settings', 'loomwright explain --all --format json')
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
