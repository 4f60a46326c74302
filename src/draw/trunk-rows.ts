import type { Shield, Trunk } from './sheet-model.ts'

/** One lane of a trunk, from the top. */
export interface TrunkRow {
  readonly kind: 'conductor' | 'shield'
  readonly id: string
}

/** A shield with the rows it encloses, `from` to `to` inclusive, and its own row below them. */
export interface ShieldSpan {
  readonly shield: Shield
  readonly from: number
  readonly to: number
  readonly row: number
}

export interface TrunkRows {
  readonly rows: readonly TrunkRow[]
  readonly shields: readonly ShieldSpan[]
  /** Upper rows of twisted pairs whose two conductors lie side by side. */
  readonly pairs: readonly number[]
}

const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / Math.max(1, values.length)

interface Cluster {
  readonly ids: readonly string[]
  readonly key: number
  readonly shield?: Shield
}

/**
 * Puts the conductors of a trunk in order: by the height of their pins at the near end, the two of a pair together, those
 * under one screen together with the screen's own lane beneath them, a screen over everything last.
 */
export function orderTrunk(trunk: Trunk, heightOf: (conductor: string) => number): TrunkRows {
  const all = [...new Set(trunk.conductors)]
  const coversAll = (shield: Shield) =>
    shield.covers.length === 0 || all.every((id) => shield.covers.includes(id))
  const inner = trunk.shields.filter((shield) => !coversAll(shield))
  const outer = trunk.shields.filter(coversAll)
  const taken = new Set<string>()
  const pairsOf = (ids: readonly string[]): Cluster[] => {
    const free = new Set(ids)
    const clusters: Cluster[] = []
    for (const [a, b] of trunk.pairs) {
      if (a === b || !free.has(a) || !free.has(b)) continue
      free.delete(a)
      free.delete(b)
      const two = heightOf(a) <= heightOf(b) ? [a, b] : [b, a]
      clusters.push({ ids: two, key: mean(two.map(heightOf)) })
    }
    for (const id of free) clusters.push({ ids: [id], key: heightOf(id) })
    return clusters.sort((p, q) => p.key - q.key)
  }
  const clusters: Cluster[] = []
  for (const shield of inner) {
    const ids = shield.covers.filter((id) => all.includes(id) && !taken.has(id))
    for (const id of ids) taken.add(id)
    const ordered = pairsOf(ids).flatMap((cluster) => cluster.ids)
    clusters.push({ ids: ordered, key: mean(ordered.map(heightOf)), shield })
  }
  clusters.push(...pairsOf(all.filter((id) => !taken.has(id))))
  clusters.sort((p, q) => p.key - q.key)
  const rows: TrunkRow[] = []
  const shields: ShieldSpan[] = []
  for (const { ids, shield } of clusters) {
    const from = rows.length
    for (const id of ids) rows.push({ kind: 'conductor', id })
    if (!shield) continue
    shields.push({ shield, from, to: rows.length - 1, row: rows.length })
    rows.push({ kind: 'shield', id: shield.id })
  }
  for (const shield of outer) {
    shields.push({ shield, from: 0, to: rows.length - 1, row: rows.length })
    rows.push({ kind: 'shield', id: shield.id })
  }
  const at = (id: string) => rows.findIndex((row) => row.kind === 'conductor' && row.id === id)
  const pairs = trunk.pairs
    .map(([a, b]) => [at(a), at(b)] as const)
    .filter(([a, b]) => a >= 0 && Math.abs(a - b) === 1)
  return { rows, shields, pairs: pairs.map(([a, b]) => Math.min(a, b)).sort((a, b) => a - b) }
}
