import { type Edit, type Finding, identity, type ValueChange } from '../../base/finding.ts'
import type { Pointer } from '../../base/place.ts'
import type { RawDocument } from '../../describe/validate.ts'
import { rankFindings } from '../rank.ts'
import type { RuleContext } from '../rule.ts'
import { changesBetween, valueAt, withValue } from './change-data.ts'
import { findingsBrought } from './findings-brought.ts'
import type { JudgedLoom, JudgedShop, JudgeShop } from './judge-shop.ts'
import type { Ladder, Mend } from './mend.ts'
import { standardMends } from './standard-mends.ts'
import { SIZE_RULES } from './thicker-wire.ts'

/** A finding that has a certain cure; `edit` is set. */
export type Mended = Finding & { readonly edit: Edit }

/** A finding for which there was a cure to try, and why it is not certain. */
export interface Unmended {
  readonly finding: Finding
  readonly why: string
}

export interface MendPlan {
  /** In the order in which they were found, worst first. */
  readonly mended: readonly Mended[]
  readonly unmended: readonly Unmended[]
  /** All edits together, as the documents are written: each value once. */
  readonly changes: readonly ValueChange[]
  /** The documents with all edits in them. */
  readonly documents: readonly RawDocument[]
}

interface Stand {
  readonly documents: readonly RawDocument[]
  readonly looms: ReadonlyMap<string, JudgedLoom>
  readonly shop: JudgedShop
}

/** What came of trying one edit. */
type Verdict =
  | { readonly cured: Stand; readonly edit: Edit }
  /** A larger step may do. */
  | { readonly next: string }
  /** No further step of this kind will do. */
  | { readonly end: string }

const keyOf = ({ doc, path }: Pointer): string => JSON.stringify([doc, ...path])

/** Harnesses that changes lie in, by name; undefined when something else is touched, which may reach everything. */
function harnessesIn(
  documents: readonly RawDocument[],
  changes: readonly ValueChange[],
): Set<string> | undefined {
  const names = changes.map(({ at: { doc, path } }) => {
    const data = documents.find(({ name }) => name === doc)?.data
    const id = path[0] === 'harnesses' ? valueAt(data, [...path.slice(0, 2), 'id']) : undefined
    return typeof id === 'string' ? id : undefined
  })
  return names.includes(undefined) ? undefined : new Set(names.filter((name) => name !== undefined))
}

/** A size is written as the file writes sizes. */
function inTheWayOf(old: unknown, value: ValueChange['value']): ValueChange['value'] {
  return typeof old === 'string' && typeof value === 'string' && /mm2$/.test(old)
    ? value.replace(/mm²$/, 'mm2')
    : value
}

/** The edit with pointers as the documents have them. */
const asWritten = (stand: Stand, edit: Edit): Edit => ({
  ...edit,
  changes: edit.changes.map((change) => {
    const at = stand.shop.written(change.at)
    const data = stand.documents.find(({ name }) => name === at.doc)?.data
    return { at, value: inTheWayOf(valueAt(data, at.path), change.value) }
  }),
})

function changed(documents: readonly RawDocument[], edit: Edit): RawDocument[] | undefined {
  const fresh = new Map(documents.map((document) => [document.name, document]))
  for (const { at, value } of edit.changes) {
    const document = fresh.get(at.doc)
    const data = document && withValue(document.data, at.path, value)
    if (!document || data === undefined) return undefined
    fresh.set(at.doc, { ...document, data })
  }
  return [...fresh.values()]
}

/** Whether a rule that judges sizes still complains about a wire whose size was changed. */
const stillThin = (
  looms: readonly JudgedLoom[],
  edit: Edit,
  written: JudgedShop['written'],
): Finding | undefined => {
  const wires = new Set(
    edit.changes
      .filter(({ at }) => at.path.at(-1) === 'size')
      .map(({ at: { doc, path } }) => keyOf({ doc, path: path.slice(0, -1) })),
  )
  return looms
    .flatMap(({ findings }) => findings)
    .find(({ rule, level, at }) => level !== 'note' && SIZE_RULES.has(rule) && wires.has(keyOf(written(at))))
}

class Planner {
  readonly #judge: JudgeShop
  readonly #mends: readonly Mend[]
  /** Values that an edit has set: no second edit may set them again. */
  readonly #claimed = new Map<string, Edit>()

  constructor(judge: JudgeShop, mends: readonly Mend[]) {
    this.#judge = judge
    this.#mends = mends
  }

  start(documents: readonly RawDocument[]): Stand {
    const shop = this.#judge(documents)
    return { documents, shop, looms: new Map(shop.looms.map((loom) => [loom.id, loom])) }
  }

  #try(stand: Stand, finding: Finding, proposed: Edit): Verdict {
    const edit = asWritten(stand, proposed)
    const taken = edit.changes.map(({ at }) => this.#claimed.get(keyOf(at))).find((one) => one !== undefined)
    if (taken) return { end: `“${edit.what}” and “${taken.what}” change the same value` }
    const documents = changed(stand.documents, edit)
    if (!documents) return { end: `“${edit.what}” has no place in the description` }
    const shop = this.#judge(documents, harnessesIn(documents, edit.changes))
    const brought = findingsBrought(finding.rule, stand.looms, shop, stand.shop)
    if (brought && 'fresh' in brought) return { end: `“${edit.what}” would bring: ${brought.fresh}` }
    if (brought) return { next: `“${edit.what}” leaves: ${brought.moved}` }
    const name = identity(finding)
    const after = shop.looms.flatMap(({ findings }) => findings)
    if (after.some((one) => identity(one) === name)) return { next: `“${edit.what}” does not cure it` }
    const thin = stillThin(shop.looms, edit, stand.shop.written)
    if (thin) return { next: `“${edit.what}” leaves: ${thin.what}` }
    const looms = new Map([...stand.looms, ...shop.looms.map((loom) => [loom.id, loom] as const)])
    return { cured: { documents, looms, shop }, edit }
  }

  /** Climbs ladders side by side: a step of each in turn, the first ladder first. */
  #climb(stand: Stand, finding: Finding, ladders: readonly Ladder[]): Verdict | undefined {
    const tried = new Map<string, Verdict>()
    let open = [...ladders]
    for (let step = 0; open.length > 0; step++) {
      const rest: Ladder[] = []
      for (const ladder of open) {
        const edit = ladder[step]
        if (!edit) continue
        const verdict = tried.get(edit.what) ?? this.#try(stand, finding, edit)
        tried.set(edit.what, verdict)
        if ('cured' in verdict) return verdict
        if ('next' in verdict) rest.push(ladder)
      }
      open = rest
    }
    return [...tried.values()].at(-1)
  }

  /** The first edit that cures a finding and does nothing else; or why there is none; or nothing, where none is known. */
  cure(stand: Stand, finding: Finding, context: RuleContext): Verdict | undefined {
    let first: Verdict | undefined
    for (const mend of this.#mends) {
      if (!mend.rules.includes(finding.rule)) continue
      const verdict = this.#climb(stand, finding, mend.propose(finding, context))
      if (verdict && 'cured' in verdict) {
        for (const { at } of verdict.edit.changes) this.#claimed.set(keyOf(at), verdict.edit)
        return verdict
      }
      first ??= verdict
    }
    return first
  }
}

/** The worst finding nobody has looked at yet, and the loom it is in. */
function nextFinding(
  stand: Stand,
  seen: ReadonlySet<string>,
): { finding: Finding; loom: JudgedLoom } | undefined {
  const home = new Map<Finding, JudgedLoom>()
  for (const loom of stand.looms.values())
    for (const finding of loom.findings)
      if (finding.level !== 'note' && !seen.has(identity(finding))) home.set(finding, loom)
  const [finding] = rankFindings([...home.keys()])
  const loom = finding && home.get(finding)
  return finding && loom ? { finding, loom } : undefined
}

/**
 * Finds the certain cures of a shop. Each edit is tried on a copy of the description, which is resolved, solved and checked
 * again: it is taken only if the finding is gone, no new stop or warning has come, and nothing became impossible to judge.
 * Later findings are judged with earlier edits in place. Findings at note level are left alone.
 */
export function planMends(
  documents: readonly RawDocument[],
  judge: JudgeShop,
  mends: readonly Mend[] = standardMends,
): MendPlan {
  const planner = new Planner(judge, mends)
  const mended: Mended[] = []
  const unmended: Unmended[] = []
  const seen = new Set<string>()
  let stand = planner.start(documents)
  for (let next = nextFinding(stand, seen); next; next = nextFinding(stand, seen)) {
    const { finding, loom } = next
    seen.add(identity(finding))
    const verdict = planner.cure(stand, finding, loom.context)
    if (!verdict) continue
    if ('cured' in verdict) {
      stand = verdict.cured
      mended.push({ ...finding, edit: verdict.edit })
    } else unmended.push({ finding, why: 'end' in verdict ? verdict.end : verdict.next })
  }
  const changes = stand.documents.flatMap(({ name, data }, index) =>
    changesBetween(name, documents[index]?.data, data),
  )
  return { mended, unmended, changes, documents: stand.documents }
}
