import type { Finding } from '../base/finding.ts'
import type { Loom } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'
import { auditPickList } from './audit-pick-list.ts'
import { auditRingOut } from './audit-ring-out.ts'
import { billOfMaterials } from './bill-of-materials.ts'
import { crimpSheet } from './crimp-sheet.ts'
import { cutList } from './cut-list.ts'
import { ringOutSteps } from './ring-out.ts'

/** What is wrong with the papers of a loom as they would be printed: what they count and what they test. */
export function auditPapers(loom: Loom, solution: Solution | undefined): Finding[] {
  return loom.looms.flatMap((use) => {
    const steps = ringOutSteps(loom, use, solution).flatMap((group) => group.steps)
    const papers = {
      bill: billOfMaterials(loom, use),
      crimps: crimpSheet(loom, use),
      cuts: cutList(loom, use),
    }
    return [...auditPickList(loom, use, papers), ...auditRingOut(loom, use, steps)]
  })
}
