import type { Columns } from './columns.ts'
import {
  type Block,
  type Conductor,
  type EndRef,
  printed,
  type SheetModel,
  type Trunk,
} from './sheet-model.ts'

/** A metal path with its ends put in drawing order: it leaves `ends[0]` to the right and reaches `ends[1]` from the left. */
export interface Run {
  readonly key: string
  readonly id: string
  /** Number as printed. */
  readonly label: string
  readonly conductor?: Conductor
  readonly ends: readonly [EndRef | undefined, EndRef | undefined]
}

/** Decides which end of a cable is which: the ends that share blocks belong together. */
function sidesOfTrunk(trunk: Trunk, conductors: ReadonlyMap<string, Conductor>): Map<string, boolean> {
  const near = new Set<string>()
  const far = new Set<string>()
  const turned = new Map<string, boolean>()
  const ends = [...trunk.conductors.map((id) => conductors.get(id)), ...trunk.shields].filter(
    (one) => one !== undefined,
  )
  for (const { id, from, to } of ends) {
    const score = (a: EndRef | undefined, b: EndRef | undefined) =>
      (a && near.has(a.block) ? 1 : 0) + (b && far.has(b.block) ? 1 : 0)
    const turn = score(to, from) > score(from, to)
    turned.set(id, turn)
    const [a, b] = turn ? [to, from] : [from, to]
    if (a) near.add(a.block)
    if (b) far.add(b.block)
  }
  return turned
}

/** Whether the cable as a whole runs from right to left in the order of columns. */
function runsBackwards(
  ends: readonly (readonly [EndRef | undefined, EndRef | undefined])[],
  columns: Columns,
): boolean {
  let forward = 0
  let backward = 0
  for (const [a, b] of ends) {
    if (!a || !b) continue
    if (columns.compare(a.block, b.block) <= 0) forward += 1
    else backward += 1
  }
  return backward > forward
}

interface Part {
  readonly id: string
  readonly label: string
  readonly from: EndRef | undefined
  readonly to: EndRef | undefined
  readonly conductor?: Conductor
}

const partOf = (conductor: Conductor): Part => ({
  id: conductor.id,
  label: printed(conductor),
  from: conductor.from,
  to: conductor.to,
  conductor,
})

export interface Runs {
  readonly free: readonly Run[]
  readonly inTrunk: ReadonlyMap<Trunk, readonly Run[]>
}

/** Every conductor and shield of a model as a run, those of trunks apart from those that run alone. */
export function makeRuns(model: SheetModel, columns: Columns): Runs {
  const byId = new Map(model.conductors.map((conductor) => [conductor.id, conductor]))
  const inTrunk = new Map<Trunk, Run[]>()
  const taken = new Set<string>()
  model.trunks.forEach((trunk, t) => {
    const turned = sidesOfTrunk(trunk, byId)
    const parts = [
      ...trunk.conductors.flatMap((id) => byId.get(id) ?? []).map(partOf),
      ...trunk.shields.map(
        (shield): Part => ({ id: shield.id, label: printed(shield), from: shield.from, to: shield.to }),
      ),
    ].filter((part) => !taken.has(part.id))
    const ends = parts.map(({ id, from, to }) =>
      turned.get(id) ? ([to, from] as const) : ([from, to] as const),
    )
    const back = runsBackwards(ends, columns)
    const runs = parts.map((part, i): Run => {
      const [a, b] = ends[i] ?? [undefined, undefined]
      const conductor = part.conductor ? { conductor: part.conductor } : {}
      return { key: `t${t}.${i}`, id: part.id, label: part.label, ends: back ? [b, a] : [a, b], ...conductor }
    })
    for (const part of parts) taken.add(part.id)
    if (runs.length > 0) inTrunk.set(trunk, runs)
  })
  const free = model.conductors
    .filter((conductor) => !taken.has(conductor.id))
    .flatMap((conductor, i): Run[] => {
      const { from, to } = conductor
      if (!from || !to) return []
      const forward = columns.compare(from.block, to.block) <= 0
      return [
        {
          key: `w${i}`,
          id: conductor.id,
          label: printed(conductor),
          conductor,
          ends: forward ? [from, to] : [to, from],
        },
      ]
    })
  return { free, inTrunk }
}

/** Terminals that lie on the left of each part in the run: the one its conductors reach from the left. */
export function turnInline(blocks: readonly Block[], runs: readonly Run[]): Set<string> {
  const votes = new Map<string, number>()
  for (const block of blocks) if (block.kind === 'inline') votes.set(block.id, 0)
  const pins = new Map(blocks.flatMap((b) => (b.kind === 'inline' ? [[b.id, b.pins] as const] : [])))
  for (const { ends } of runs)
    ends.forEach((end, k) => {
      if (!end || !votes.has(end.block)) return
      const second = pins.get(end.block)?.[1] === end.pin
      // The first terminal wants to be reached (k = 1), the second to be left (k = 0).
      const straight = second === (k === 0)
      votes.set(end.block, (votes.get(end.block) ?? 0) + (straight ? 1 : -1))
    })
  return new Set([...votes].filter(([, vote]) => vote < 0).map(([id]) => id))
}
