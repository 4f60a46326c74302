import { escapeTerminal } from '../base/escape.ts'
import type { Decided } from './policy-settings.ts'
import { hang } from './text-layout.ts'

/** Every decision of a policy for a terminal: what holds, why, and where guidance disagrees. Ends with a line end. */
export function policyText(rows: readonly Decided[], width: number): string {
  const lines = rows.flatMap(({ id, title, value, stated, reason, ownReason, disagrees }) => [
    ...hang('', `${id} · ${title}: ${escapeTerminal(value)}${stated ? '' : ' (default)'}`, width),
    ...hang('    Why       ', escapeTerminal(ownReason ?? reason), width),
    ...(disagrees === undefined ? [] : hang('    Disagreed ', disagrees, width)),
    '',
  ])
  return `${lines.join('\n').trimEnd()}\n`
}
