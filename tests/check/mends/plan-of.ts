import { shopJudge } from '../../../src/check/mends/judge-shop.ts'
import { type MendPlan, planMends } from '../../../src/check/mends/plan-mends.ts'
import type { DocumentInput } from '../../../src/describe/document.ts'

const judge = shopJudge()

/** The certain mends of one document. */
export const planOf = (data: DocumentInput): MendPlan => planMends([{ name: 'test.json', data }], judge)

/** Rule and edit of each mend, and why others were left. */
export function told({ mended, unmended }: MendPlan): { mended: string[]; left: string[] } {
  return {
    mended: mended.map(({ rule, edit }) => `${rule}: ${edit.what}`),
    left: unmended.map(({ finding, why }) => `${finding.rule}: ${why}`),
  }
}
