import type { Block, SheetModel } from './sheet-model.ts'

/** The order blocks take from left to right; conductors leave the earlier one on its right side. */
export interface Columns {
  /** Distance from the left in whole or half columns. */
  columnOf(block: string): number
  /** Negative when `a` stands before `b`. Never zero for different blocks. */
  compare(a: string, b: string): number
}

export type ColumnStyle = 'facing' | 'steps'

type Links = Map<string, Map<string, number>>

function link(links: Links, a: string, b: string, weight: number) {
  for (const [from, to] of [
    [a, b],
    [b, a],
  ] as const) {
    const row = links.get(from)
    if (row) row.set(to, (row.get(to) ?? 0) + weight)
  }
}

/** Which blocks each block is wired to, with the number of conductors. */
export function neighbours(model: SheetModel): Links {
  const links: Links = new Map(model.blocks.map((block) => [block.id, new Map()]))
  for (const { from, to } of model.conductors)
    if (from && to && from.block !== to.block) link(links, from.block, to.block, 1)
  return links
}

/** Small blocks stand between the big ones and do not count as a side. */
const isBetween = (block: Block | undefined) =>
  block?.kind === 'inline' || block?.kind === 'splice' || block?.kind === 'stud'

/** Links between the big blocks, those through small ones included. */
function bigLinks(model: SheetModel, links: Links): Links {
  const byId = new Map(model.blocks.map((block) => [block.id, block]))
  const big: Links = new Map(model.blocks.filter((b) => !isBetween(b)).map((b) => [b.id, new Map()]))
  for (const [id, others] of links) {
    const around = new Map<string, number>()
    // Parts in series count through to the next big block on each side.
    const walk = (from: string, weight: number, seen: ReadonlySet<string>) => {
      for (const [other, count] of links.get(from) ?? []) {
        if (seen.has(other)) continue
        if (big.has(other)) around.set(other, Math.max(around.get(other) ?? 0, Math.min(weight, count)))
        else if (seen.size < 6) walk(other, Math.min(weight, count), new Set([...seen, other]))
      }
    }
    if (isBetween(byId.get(id))) {
      walk(id, 1e9, new Set([id]))
      const found = [...around.keys()]
      const share = byId.get(id)?.kind === 'inline' ? 1 : 0.5 / Math.max(1, found.length - 1)
      for (const [i, a] of found.entries()) for (const b of found.slice(i + 1)) link(big, a, b, share)
    } else for (const [other, count] of others) if (big.has(other) && id < other) link(big, id, other, count)
  }
  return big
}

const sum = (counts: Iterable<number>) => [...counts].reduce((a, b) => a + b, 0)

interface Places {
  readonly column: Map<string, number>
  readonly rank: ReadonlyMap<string, number>
}

/** Gives every block that is connected to a placed one its place, wave by wave. */
function spread(
  links: Links,
  { column, rank }: Places,
  roots: readonly string[],
  next: (id: string, from: number) => number,
) {
  let wave = [...roots]
  const before = (a: string, b: string) =>
    (column.get(a) ?? 0) - (column.get(b) ?? 0) || (rank.get(a) ?? 0) - (rank.get(b) ?? 0)
  while (wave.length > 0) {
    wave.sort(before)
    const found = new Set<string>()
    for (const id of wave)
      for (const other of links.get(id)?.keys() ?? []) {
        if (column.has(other)) continue
        column.set(other, next(other, column.get(id) ?? 0))
        found.add(other)
      }
    wave = [...found]
  }
}

/** Roots first by wish, then the heaviest block of each connected part. */
function spreadAll(
  links: Links,
  places: Places,
  ids: readonly string[],
  next: (id: string, from: number) => number,
) {
  spread(links, places, [...places.column.keys()], next)
  const weight = new Map(ids.map((id) => [id, sum(links.get(id)?.values() ?? [])]))
  for (const id of [...ids].sort((a, b) => (weight.get(b) ?? 0) - (weight.get(a) ?? 0))) {
    if (places.column.has(id)) continue
    places.column.set(id, 0)
    spread(links, places, [id], next)
  }
}

/** Big blocks stand left or right so that as many conductors as can be run across the middle; small ones stand there. */
function facing(
  model: SheetModel,
  links: Links,
  wished: ReadonlyMap<string, number>,
  rank: ReadonlyMap<string, number>,
) {
  const big = bigLinks(model, links)
  const ids = [...big.keys()]
  const column = new Map([...wished].filter(([id]) => big.has(id)))
  spreadAll(big, { column, rank }, ids, (_, from) => (from > 0 ? 0 : 2))
  const gain = (id: string) => {
    let same = 0
    let across = 0
    for (const [other, weight] of big.get(id) ?? [])
      if ((column.get(other) ?? 0) > 0 === (column.get(id) ?? 0) > 0) same += weight
      else across += weight
    return same - across
  }
  for (let turn = 0; turn < 8; turn++) {
    const better = ids.filter((id) => !wished.has(id) && gain(id) > 0).sort((a, b) => gain(b) - gain(a))[0]
    if (better === undefined) break
    column.set(better, (column.get(better) ?? 0) > 0 ? 0 : 2)
  }
  for (const block of model.blocks) if (isBetween(block)) column.set(block.id, wished.get(block.id) ?? 1)
  return column
}

/**
 * Works out columns. `facing` makes a compact drawing with connectors left and right; `steps` puts the block with most
 * conductors left and each other block as many steps to the right as it is away, half a step for a part in the run.
 */
export function assignColumns(model: SheetModel, style: ColumnStyle): Columns {
  const links = neighbours(model)
  const rank = new Map(model.blocks.map((block, index) => [block.id, index]))
  const byId = new Map(model.blocks.map((block) => [block.id, block]))
  const wished = new Map(
    model.blocks.flatMap((b) => (b.column === undefined ? [] : [[b.id, b.column] as const])),
  )
  let column = new Map(wished)
  if (style === 'facing') column = facing(model, links, wished, rank)
  else {
    const step = (id: string, from: number) => from + (byId.get(id)?.kind === 'inline' ? 0.5 : 1)
    spreadAll(links, { column, rank }, [...rank.keys()], step)
  }
  const columnOf = (id: string) => column.get(id) ?? 0
  const inlineFirst = (id: string) => (byId.get(id)?.kind === 'inline' ? 0 : 1)
  return {
    columnOf,
    compare: (a, b) =>
      columnOf(a) - columnOf(b) || inlineFirst(a) - inlineFirst(b) || (rank.get(a) ?? 0) - (rank.get(b) ?? 0),
  }
}
