import type { Conductor, SheetModel } from './sheet-model.ts'

/** Conductors that belong on the same sheet, by their indexes in the model. */
interface Bundle {
  readonly conductors: readonly number[]
  readonly blocks: ReadonlySet<string>
}

class Groups {
  private readonly parent: number[]
  private readonly count: number[]
  constructor(n: number) {
    this.parent = Array.from({ length: n }, (_, i) => i)
    this.count = Array<number>(n).fill(1)
  }
  find(i: number): number {
    let at = i
    while (this.parent[at] !== at && this.parent[at] !== undefined) {
      const up = this.parent[this.parent[at] ?? at] ?? at
      this.parent[at] = up
      at = up
    }
    return at
  }
  /** Joins two groups unless the result would be larger than `most`. */
  join(a: number, b: number, most: number) {
    const [x, y] = [this.find(a), this.find(b)]
    const together = (this.count[x] ?? 1) + (this.count[y] ?? 1)
    if (x === y || together > most) return
    this.parent[Math.max(x, y)] = Math.min(x, y)
    this.count[Math.min(x, y)] = together
  }
}

const blocksOf = (conductor: Conductor): string[] =>
  [conductor.from, conductor.to].flatMap((end) => (end ? [end.block] : []))

/** A cable is never torn apart; a small part keeps its conductors; conductors between the same two blocks stay together. */
function makeBundles(model: SheetModel, limit: number): Bundle[] {
  const groups = new Groups(model.conductors.length)
  const index = new Map(model.conductors.map((c, i) => [c.id, i]))
  for (const trunk of model.trunks) {
    const own = trunk.conductors.flatMap((id) => index.get(id) ?? [])
    for (const i of own) groups.join(own[0] ?? i, i, Number.POSITIVE_INFINITY)
  }
  const small = new Set(model.blocks.filter((b) => b.kind !== 'strip' && b.kind !== 'stud').map((b) => b.id))
  const firstAt = new Map<string, number>()
  const together = (key: string, i: number) => {
    const first = firstAt.get(key)
    if (first === undefined) firstAt.set(key, i)
    else groups.join(first, i, Math.max(1, Math.floor(limit / 2)))
  }
  model.conductors.forEach((conductor, i) => {
    for (const block of blocksOf(conductor)) if (small.has(block)) together(`small ${block}`, i)
  })
  model.conductors.forEach((conductor, i) => {
    const ends = blocksOf(conductor).filter((block) => !small.has(block))
    if (ends.length === 2) together(JSON.stringify(ends.sort()), i)
  })
  const bundles = new Map<number, number[]>()
  model.conductors.forEach((_, i) => {
    const root = groups.find(i)
    bundles.set(root, [...(bundles.get(root) ?? []), i])
  })
  return [...bundles.values()].map((conductors) => ({
    conductors,
    blocks: new Set(conductors.flatMap((i) => blocksOf(model.conductors[i] ?? { id: '' }))),
  }))
}

/**
 * Fills sheets one after another: from the bundles left, always the one that shares most blocks with what the sheet
 * already has, until `limit` conductors are reached. Each conductor comes onto exactly one sheet.
 */
export function splitConductors(model: SheetModel, limit: number): number[][] {
  if (model.conductors.length <= limit) return [model.conductors.map((_, i) => i)]
  const left = new Set(makeBundles(model, limit))
  const sheets: number[][] = []
  while (left.size > 0) {
    const sheet: number[] = []
    const blocks = new Set<string>()
    for (;;) {
      const best = bestBundle(left, blocks, limit - sheet.length)
      if (!best) break
      left.delete(best)
      sheet.push(...best.conductors)
      for (const block of best.blocks) blocks.add(block)
    }
    sheets.push(sheet.sort((a, b) => a - b))
  }
  return sheets
}

function bestBundle(
  left: ReadonlySet<Bundle>,
  blocks: ReadonlySet<string>,
  room: number,
): Bundle | undefined {
  let best: Bundle | undefined
  let bestScore = -1
  for (const bundle of left) {
    if (bundle.conductors.length > room && blocks.size > 0) continue
    let score = 0
    for (const block of bundle.blocks) if (blocks.has(block)) score += 1
    // A bundle that brings few new blocks with it wins over one that brings many.
    const share = score === 0 ? 0 : score + score / bundle.blocks.size
    if (share > bestScore) {
      best = bundle
      bestScore = share
    }
  }
  return best
}
