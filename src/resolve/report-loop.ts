import type { Pointer } from '../base/place.ts'
import type { GraphBuilder } from './graph-builder.ts'
import type { Terminal } from './loom.ts'

/** A conductor from a pin to that same pin says nothing, and is usually a slip of one digit. */
export function reportLoop(
  b: GraphBuilder,
  from: Terminal | undefined,
  to: Terminal | undefined,
  use: { by: string; subject: string; at: Pointer },
): void {
  if (!from || from !== to) return
  b.report({
    rule: 'contradiction',
    subject: use.subject,
    what: `${use.by} starts and ends at the same place, ${from.address}`,
    fix: 'Correct one of its ends.',
    at: use.at,
    marks: [from.address],
  })
}
