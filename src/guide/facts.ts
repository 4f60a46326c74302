import type { Finding } from '../base/finding.ts'
import type { Loom, LoomUse } from '../resolve/loom.ts'
import type { Solution } from '../solve/solution.ts'

/** What citations are expanded from. */
export interface Facts {
  readonly loom: Loom
  readonly solution: Solution | undefined
  /** Findings on this loom; left out where checks have not run yet, and then a cited rule only has to exist. */
  readonly findings?: readonly Finding[]
  /** Every rule there is; left out, any rule name is accepted. */
  readonly ruleIds?: readonly string[]
  /** The loom whose own procedure is read: its names may be written short, `P1.2` for `main.P1.2`. */
  readonly scope?: LoomUse
}

/** A citation looked up: what to print, or what is wrong with it. */
export type Expansion =
  | {
      readonly ok: true
      readonly text: string
      /** Address in the loom that a page can link to. */
      readonly address?: string
    }
  | { readonly ok: false; readonly problem: string; readonly fix: string }

export const found = (text: string, address?: string): Expansion => ({ ok: true, text, address })
export const lost = (problem: string, fix: string): Expansion => ({ ok: false, problem, fix })
