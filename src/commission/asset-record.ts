import type { Pointer } from '../base/place.ts'
import type { AsBuilt } from '../describe/as-built.ts'
import type { Readings } from '../describe/readings.ts'
import type { Loom, LoomUse } from '../resolve/loom.ts'
import type { Judged } from './judge.ts'
import type { Limits } from './limit.ts'

/** What is known of an issue: revision and match code, either of which may not be stated. */
export interface Issue {
  readonly revision: string | undefined
  readonly match: string | undefined
}

/**
 * How what was fitted stands to what is described now. `older`: another revision. `changed`: the same revision letter, yet another
 * match code. `not stated`: neither was written down.
 */
export type Standing = 'current' | 'older' | 'changed' | 'not stated'

/** One loom of an asset. */
export interface FittedLoom {
  readonly id: string
  /** Undefined where the installation has no such loom. */
  readonly use: LoomUse | undefined
  readonly serial: string
  readonly fitted: Issue
  readonly now: Issue
  readonly standing: Standing
  /** What later revisions say of themselves: what has to be reworked. */
  readonly later: readonly { readonly revision: string; readonly what: string }[]
  readonly asBuilt: AsBuilt | undefined
  /** What stands between the as-built record and a loom that may be used. */
  readonly gaps: readonly string[]
}

export interface Counts {
  readonly pass: number
  readonly fail: number
  readonly notMeasured: number
}

/** One visit to one asset, judged. */
export interface AssetRecord {
  readonly readings: Readings
  readonly at: Pointer
  readonly loom: Loom
  readonly limits: Limits
  readonly lines: readonly Judged[]
  readonly counts: Counts
  readonly looms: readonly FittedLoom[]
  readonly fitted: Issue
  readonly now: Issue
  readonly standing: Standing
  /** A later record of the same asset counts instead. */
  readonly superseded: boolean
}

/** How much an asset asks for: failures first, then what is stale, deviates or is open, then what was not measured. */
export type Attention = 'failed' | 'stale' | 'deviates' | 'not measured' | 'in order'
export const ATTENTION: readonly Attention[] = ['failed', 'stale', 'deviates', 'not measured', 'in order']

const stale = (standing: Standing): boolean => standing === 'older' || standing === 'changed'

/** Whether anything of it is not what is described now. */
export const isStale = ({ standing, looms }: AssetRecord): boolean =>
  stale(standing) || looms.some((one) => stale(one.standing))

export function attentionOf(record: AssetRecord): Attention {
  const { counts, readings } = record
  if (counts.fail > 0) return 'failed'
  if (isStale(record)) return 'stale'
  if ((readings.deviations ?? []).length > 0 || (readings.open ?? []).length > 0) return 'deviates'
  return counts.notMeasured > 0 ? 'not measured' : 'in order'
}
