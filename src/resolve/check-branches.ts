import { below, type Pointer } from '../base/place.ts'
import type { Harness } from '../describe/harness.ts'
import { branchTree } from './branch-routes.ts'
import type { Report } from './problem.ts'

/** A loom on a board is a tree: branches that close a loop give two lengths for one route. */
export function checkBranches(harness: Harness, harnessAt: Pointer, report: Report): void {
  const { branches } = harness
  if (!branches) return
  for (const branch of branchTree(branches).looped)
    report({
      rule: 'contradiction',
      level: 'warning',
      subject: `${harness.id}/${branch.from}-${branch.to}`,
      what: `The branch from ${branch.from} to ${branch.to} closes a loop, so a route between them has two lengths; the formboard leaves it out`,
      fix: 'Take the branch out, or end it at a breakout of its own.',
      at: below(harnessAt, 'branches', branches.indexOf(branch)),
    })
}
