import type { RuleContext } from '../check/rule.ts'
import type { Loom } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'
import { GROUP_IDS, type Limit, type Limits } from './limit.ts'
import { audioLimits } from './limits/audio-limits.ts'
import { dataLimits } from './limits/data-limits.ts'
import { fuseLimits } from './limits/fuse-limits.ts'
import { assetLimits, benchLimits, logicLimits } from './limits/look-limits.ts'
import { rfLimits } from './limits/rf-limits.ts'
import { supplyLimits } from './limits/supply-limits.ts'

/** Every limit of an installation, worked out from its description, in the order in which they are measured. */
export function limitsOf(loom: Loom, solution: Solution): Limits {
  const context: RuleContext = { loom, solution, paths: solution.paths }
  const parts = [
    benchLimits(loom, solution),
    fuseLimits(loom),
    supplyLimits(context),
    rfLimits(loom, solution.paths),
    audioLimits(context),
    dataLimits(context),
    logicLimits(context),
    assetLimits(loom),
  ]
  const byId = new Map<string, Limit>()
  for (const limit of parts.flatMap(({ limits }) => limits))
    if (!byId.has(limit.id)) byId.set(limit.id, limit)
  const all = [...byId.values()]
  return {
    limits: GROUP_IDS.flatMap((group) => all.filter((limit) => limit.group === group)),
    missing: unique(parts.flatMap(({ missing }) => missing)),
  }
}

function unique(missing: Limits['missing']): Limits['missing'] {
  const seen = new Set<string>()
  return missing.filter(({ what, needs }) => {
    const key = `${what}\n${needs}`
    if (seen.has(key)) return false
    seen.add(key)
    return true
  })
}
