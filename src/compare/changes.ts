import type { Finding, Level, NotChecked } from '../base/finding.ts'
import type { Pointer } from '../base/place.ts'

export type ThingKind =
  | 'conductor'
  | 'shield'
  | 'cable'
  | 'connector'
  | 'splice'
  | 'component'
  | 'pin'
  | 'unit'
  | 'loom'
  | 'mate'
  | 'state'
  | 'zone'
  | 'branch'
  | 'passage'
  | 'field'

/** An end that lands elsewhere, each as people say it: `P2-14`. Undefined where it is cut back. */
export interface Move {
  readonly from: string | undefined
  readonly to: string | undefined
}

/** A stated value that is another now; undefined where it is not stated. */
export interface ValueChange {
  /** The field in the description: `lengthMm`, `seal`. */
  readonly field: string
  /** The field in words: `length`. */
  readonly words: string
  readonly before: string | undefined
  readonly after: string | undefined
}

/** What became of one thing. A thing may be renamed, moved and changed at once. */
export interface ThingChange {
  readonly change: 'added' | 'removed' | 'altered'
  readonly kind: ThingKind
  /** Its name now; for a removed thing, the one it had. */
  readonly id: string
  /** Its former name, where that is another. */
  readonly was?: string
  /** What was added or removed, in a few words. */
  readonly facts?: string
  readonly moves: readonly Move[]
  readonly values: readonly ValueChange[]
  /** False for what leaves the metal as it is: notes, titles, dates. */
  readonly physical: boolean
  /** Addresses that stand for it in findings, in both revisions. */
  readonly addresses: readonly string[]
  /** Where it is written: after the change, or before it for what was removed. */
  readonly at?: Pointer
}

/** Changes of one described thing. */
export interface SubjectChange {
  readonly of: 'harness' | 'installation' | 'equipment' | 'part' | 'policy' | 'procedure'
  readonly change: 'added' | 'removed' | 'altered'
  readonly id: string
  readonly was?: string
  readonly title: string
  readonly facts?: string
  readonly things: readonly ThingChange[]
  /** What a reviewer should know besides. */
  readonly remark?: string
  readonly at?: Pointer
}

/** Metal that was one node and is several now, or the other way round. */
export interface NetChange {
  readonly change: 'split' | 'merged'
  /** Installation or lone harness. */
  readonly job: string
  /** Names of the nets before and after. */
  readonly before: readonly string[]
  readonly after: readonly string[]
  /** A terminal of each part, as an address. */
  readonly parts: readonly string[]
}

/** A fact of a finding before and after. */
export interface FigureChange {
  readonly name: string
  readonly before: string
  readonly after: string
}

/** Why a finding is no longer reported. Only `cured` is good news. */
export type GoneBecause =
  | 'cured'
  | 'accepted'
  | 'switched-off'
  | 'told-under-another'
  | 'job-removed'
  | 'not-checked'

export interface FindingMatch {
  readonly before: Finding
  readonly after: Finding
  readonly trend: 'worse' | 'better' | 'other-figures' | 'same'
  readonly figures: readonly FigureChange[]
}

export interface FindingChanges {
  readonly appeared: readonly Finding[]
  readonly gone: readonly { readonly finding: Finding; readonly because: GoneBecause }[]
  /** Found in both. */
  readonly kept: readonly FindingMatch[]
  readonly newlyNotChecked: readonly NotChecked[]
  readonly nowChecked: readonly NotChecked[]
}

/** One thing to do on a loom that is already built. */
export interface ReworkStep {
  readonly text: string
}

/** What to do on built looms of one harness, in the order of work. */
export interface Rework {
  readonly harness: string
  readonly title: string
  readonly steps: readonly ReworkStep[]
}

/** What tells two revisions of a shop apart, by meaning. */
export interface Changes {
  readonly subjects: readonly SubjectChange[]
  readonly nets: readonly NetChange[]
  readonly findings: FindingChanges
  readonly rework: readonly Rework[]
}

const RANK: Readonly<Record<Level, number>> = { note: 0, warning: 1, stop: 2 }

/** Less than 0 where `a` is milder than `b`. */
export const compareGravity = (a: Level, b: Level): number => RANK[a] - RANK[b]

/** Findings a change brings: new ones, and those it made worse. */
export function broughtFindings({ findings }: Changes): Finding[] {
  return [
    ...findings.appeared,
    ...findings.kept.filter(({ trend }) => trend === 'worse').map(({ after }) => after),
  ]
}

/** Whether a change brings a finding at stop level that was not there, or not at that level. */
export function bringsStop({ findings }: Changes): boolean {
  return (
    findings.appeared.some(({ level }) => level === 'stop') ||
    findings.kept.some(({ before, after }) => after.level === 'stop' && before.level !== 'stop')
  )
}

export const isEmpty = (changes: Changes): boolean =>
  changes.subjects.length === 0 &&
  changes.nets.length === 0 &&
  changes.findings.appeared.length === 0 &&
  changes.findings.gone.length === 0 &&
  changes.findings.newlyNotChecked.length === 0 &&
  changes.findings.nowChecked.length === 0 &&
  changes.findings.kept.every(({ trend }) => trend === 'same')
