import { escapeTerminal } from '../base/escape.ts'
import type { Finding, Level } from '../base/finding.ts'
import type { Locate } from '../base/place.ts'

/** The words that runners of workflows take for the three levels. */
const COMMAND: Readonly<Record<Level, string>> = { stop: 'error', warning: 'warning', note: 'notice' }

/** A message ends at the line's end, and `%` begins an escape. */
const inMessage = (text: string): string => escapeTerminal(text).replaceAll('%', '%25')
/** A value ends at a comma or a colon, too. */
const inValue = (text: string): string => inMessage(text).replaceAll(':', '%3A').replaceAll(',', '%2C')

/**
 * Findings as the workflow commands by which a runner marks lines of a change: one `::error file=…,line=…::` each. What was typed
 * cannot end a command or begin another. Ends with a line end, or is empty.
 */
export function printAnnotations(findings: readonly Finding[], locate: Locate): string {
  return findings
    .map(({ level, rule, what, why, fix, at }) => {
      const { file, line, column } = locate(at)
      const where = `file=${inValue(file)},line=${line},col=${column},title=${inValue(rule)}`
      return `::${COMMAND[level]} ${where}::${inMessage(`${what}. ${why} ${fix}`)}\n`
    })
    .join('')
}
