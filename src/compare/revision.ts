import type { CheckResult } from '../check/check.ts'
import type { Harness } from '../describe/harness.ts'
import type { Shop } from '../describe/shop.ts'
import type { Loom, LoomUse } from '../resolve/loom.ts'

/** One state of a shop: what it describes, what that comes to, and what was found. */
export interface Revision {
  readonly shop: Shop
  readonly looms: readonly { readonly loom: Loom }[]
  readonly result: CheckResult
}

/** A harness in the place that speaks for it: the first installation that uses it, else by itself. */
export interface PlacedHarness {
  readonly harness: Harness
  readonly loom: Loom
  readonly use: LoomUse
}

/** Every harness of a revision, once, by its id. */
export function placedHarnesses(revision: Revision): Map<string, PlacedHarness> {
  const found = new Map<string, PlacedHarness>()
  for (const { loom } of revision.looms)
    for (const use of loom.looms) {
      const { id } = use.harness
      const known = found.get(id)
      if (!known || (known.loom.kind === 'harness' && loom.kind === 'installation'))
        found.set(id, { harness: use.harness, loom, use })
    }
  return found
}
