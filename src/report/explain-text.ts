import { LEVEL_WORD } from './check-report.ts'
import type { ExplainedRule } from './rule-list.ts'
import { hang, wrap } from './text-layout.ts'

const part = (label: string, text: string, width: number): string[] => hang(label.padEnd(9), text, width)

/** One rule for a person: what it is called, why it matters, the cure, what it needs to judge, and its sources. */
export function explainText(rule: ExplainedRule, width: number): string {
  return `${[
    `${rule.id} · ${LEVEL_WORD[rule.level]} unless the shop says otherwise · ${rule.family}`,
    ...wrap(rule.title, width),
    '',
    ...(rule.asks === undefined ? [] : part('Asked', rule.asks, width)),
    ...part('Why', rule.reason, width),
    ...part('Fix', rule.remedy, width),
    ...part('Needs', rule.needs, width),
    ...part('Sources', rule.sources.join('; '), width),
  ].join('\n')}\n`
}

/** Every rule in one line each, by family. */
export function listRules(rules: readonly ExplainedRule[], width: number): string {
  const families = new Map<string, ExplainedRule[]>()
  for (const rule of rules) families.set(rule.family, [...(families.get(rule.family) ?? []), rule])
  const column = Math.max(...rules.map(({ id }) => id.length)) + 2
  const line = (rule: ExplainedRule): string[] =>
    hang(`  ${LEVEL_WORD[rule.level].padEnd(9)}${rule.id.padEnd(column)}`, rule.title, width)
  return `${[...families]
    .map(([family, own]) => [family, ...own.flatMap(line)].join('\n'))
    .join('\n\n')}\n\nloomwright explain RULE tells more of one.\n`
}
