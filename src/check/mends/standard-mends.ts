import { coreOfPair } from './core-of-pair.ts'
import { fuseValue } from './fuse-value.ts'
import { landScreen } from './land-screen.ts'
import type { Mend } from './mend.ts'
import { partInCavity } from './part-in-cavity.ts'
import { plugCavities } from './plug-cavities.ts'
import { swapLegs } from './swap-legs.ts'
import { thickerWire } from './thicker-wire.ts'

/** Every way to cure a finding that leaves no choice. */
export const standardMends: readonly Mend[] = [
  thickerWire,
  fuseValue,
  plugCavities,
  swapLegs,
  coreOfPair,
  partInCavity,
  landScreen,
]
