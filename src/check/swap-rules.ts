import type { Rule } from './rule.ts'
import { bridgedLegGrounded } from './rules/bridged-leg-grounded.ts'
import { neverConnect } from './rules/never-connect.ts'
import { oneDriverPerNet } from './rules/one-driver-per-net.ts'
import { oneStandardPerJoint } from './rules/one-standard-per-joint.ts'
import { plusMeetsMinus } from './rules/plus-meets-minus.ts'

/** Electrical rules that tell what a wrongly mated plug would do. Worst harm first; none of them may try out swaps itself. */
export const swapRules: readonly Rule[] = [
  plusMeetsMinus,
  neverConnect,
  bridgedLegGrounded,
  oneStandardPerJoint,
  oneDriverPerNet,
]
