import type { BranchInput } from '../describe/harness.ts'
import { mark, tidy } from './site.ts'

/** A connector, splice or component, or the name of a breakout. */
export type BranchEnd = string | { readonly id: string }

type BranchOptions = Omit<BranchInput, 'from' | 'to' | 'length'>

const idOf = (end: BranchEnd): string => (typeof end === 'string' ? end : end.id)

/** A stretch of a loom as it lies on the board: `branch('B1', P2, '300 mm', { marks: [{ kind: 'tie', at: '100 mm' }] })`. */
export function branch(
  from: BranchEnd,
  to: BranchEnd,
  length: BranchInput['length'],
  options: BranchOptions = {},
): BranchInput {
  const data = tidy({ from: idOf(from), to: idOf(to), length, ...options })
  return mark(data, branch, { args: ['from', 'to', 'length', ''], uses: [] }) as BranchInput
}
