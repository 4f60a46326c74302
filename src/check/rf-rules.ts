import type { Rule } from './rule.ts'
import { coaxImpedance } from './rules/coax-impedance.ts'
import { coaxPlugSuitsCable } from './rules/coax-plug-suits-cable.ts'
import { feederLoss } from './rules/feeder-loss.ts'

/** Rules of antenna feeders and other coax. */
export const rfRules: readonly Rule[] = [coaxImpedance, coaxPlugSuitsCable, feederLoss]
