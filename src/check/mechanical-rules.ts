import type { Rule } from './rule.ts'
import { coloursAgree } from './rules/colours-agree.ts'
import { endsFinished } from './rules/ends-finished.ts'
import { inputDriven } from './rules/input-driven.ts'
import { spareContactsLeft } from './rules/spare-contacts-left.ts'
import { spareCoresFinished } from './rules/spare-cores-finished.ts'

/** Rules of plugs, crimps, and how a loom lies in its place, by family. */
export const mechanicalRules: readonly Rule[] = [
  // pins
  endsFinished,
  inputDriven,
  coloursAgree,
  spareCoresFinished,
  spareContactsLeft,
]
