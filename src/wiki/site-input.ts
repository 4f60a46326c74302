import type { Finding, NotChecked } from '../base/finding.ts'
import type { Pointer } from '../base/place.ts'
import type { PutQuestion } from '../check/check.ts'
import type { Rule } from '../check/rule.ts'
import type { JudgedRecords } from '../commission/judge-records.ts'
import type { ConnectorFamily } from '../describe/part.ts'
import type { Shop } from '../describe/shop.ts'
import type { FaultCoverage } from '../report/catalogue-coverage.ts'
import type { Half, Loom } from '../resolve/loom.ts'
import type { Sheet } from '../sheets/sheet.ts'
import type { Templates } from '../sheets/templates.ts'
import type { Solution } from '../solve/solution.ts'

/** One installation or lone harness with everything that was worked out for it. */
export interface Job {
  readonly loom: Loom
  readonly solution: Solution
  /** Findings as they are shown: already ranked and grouped by cause. */
  readonly findings: readonly Finding[]
  readonly notChecked: readonly NotChecked[]
  /** What a person is asked of this job, with the answers there are. */
  readonly questions?: readonly PutQuestion[]
}

/** Which connector a face picture is wanted of. With `half`, used and empty cavities can be told apart. */
export interface FaceOf {
  readonly family: ConnectorFamily
  readonly gender: 'pin' | 'socket' | undefined
  readonly half: Half | undefined
  /** Without name and key, for a page that has them beside it. */
  readonly bare?: boolean
}

/** Finished pictures as SVG markup, made by the caller. Their makers escape what users typed. */
export interface Pictures {
  /** Wiring drawing of a harness by its id, one for each sheet; empty where there is none. */
  readonly harness: (id: string) => readonly string[]
  readonly installation: (id: string) => readonly string[]
  /** Overview of the formboard of a harness; undefined where nothing can be laid. */
  readonly formboard?: (id: string) => string | undefined
  /** Equipment, looms and zones of an installation at a glance. */
  readonly diagram?: (id: string) => string | undefined
  /** The faces of a connector, one picture for each side it is seen from; empty where its geometry is not known. */
  readonly faces: (of: FaceOf) => readonly string[]
}

/** What a rule's page shows. */
export type RulePage = Pick<Rule, 'id' | 'title' | 'level' | 'reason' | 'remedy' | 'needs' | 'sources'> &
  Partial<Pick<Rule, 'asks'>>

export interface SiteInput {
  readonly shop: Shop
  readonly looms: readonly Job[]
  /** Findings that belong to no loom, such as an unreadable part. */
  readonly shopFindings?: readonly Finding[]
  readonly rules: readonly RulePage[]
  /** What was measured on assets, judged; left out, there are no pages of assets. */
  readonly commissioned?: JudgedRecords
  /** The catalogue of faults held against the rules; left out, there is no page for it. */
  readonly coverage?: readonly FaultCoverage[]
  readonly pictures: Pictures
  readonly templates: Templates
  /** Files of the site folder by name, such as `site.css`: written under `assets/`. */
  readonly assets: Readonly<Record<string, string>>
  /** Past states of harnesses by their id, newest first; left out, history pages show what is written in the description. */
  readonly history?: ReadonlyMap<string, readonly HistoryEntry[]>
  /** Papers that bring a built loom from an earlier issue to the present one, by harness. */
  readonly changeSheets?: ReadonlyMap<string, Sheet>
  /** Says where in its file a thing is written, `harnesses/head.ts:12:3`; left out, no place is printed. */
  readonly showPlace?: (pointer: Pointer) => string
}

/** One commit that changed a harness. */
export interface HistoryEntry {
  /** Short name of the commit; empty for what is not committed yet. */
  readonly commit: string
  /** As `YYYY-MM-DD`; empty where there is none. */
  readonly date: string
  readonly by: string
  /** First line of its message. */
  readonly message: string
  /** What it changed, each as a sentence. */
  readonly changes: readonly string[]
  /** Findings that were new or worse with it, each in a line. */
  readonly brought: readonly string[]
  /** Findings that were gone with it, each in a line with the reason. */
  readonly gone: readonly string[]
}

/** One file of the site. */
export interface SiteFile {
  readonly path: string
  readonly content: string
}
