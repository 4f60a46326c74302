import type { PolicyInput } from '../describe/policy.ts'
import { mark, tidy } from './site.ts'

/** What the shop has decided: drops, margins, severities, waivers. A shop has one. */
export function policy(decisions: PolicyInput): PolicyInput {
  return mark(tidy({ ...decisions }), policy, { kind: 'policy', args: [''] })
}
