import type { Branch } from '../../describe/harness.ts'
import { boardPlace, branchTree } from '../../resolve/branch-routes.ts'
import type { Half, Loom, LoomUse } from '../../resolve/loom.ts'
import { flagsBelow } from '../flags-below.ts'
import type { Flag } from '../sheet-model.ts'
import { deriveBranches } from './derive-branches.ts'

/** What stands at a place of the board. */
export interface BoardPlace {
  readonly id: string
  readonly kind: 'connector' | 'component' | 'splice' | 'breakout'
  /** Text of its label or its title; empty for a breakout. */
  readonly words: string
  /** What it is or fits, printed small. */
  readonly detail: string
  /** Outline of its face, in mm. */
  readonly widthMm: number
  /** Marks of findings on it. */
  readonly flags?: readonly Flag[]
}

/** Everything a formboard shows, before it has a shape. */
export interface BoardPlan {
  /** A tree, or several where the loom is in parts. */
  readonly branches: readonly Branch[]
  readonly places: ReadonlyMap<string, BoardPlace>
  /** Branches were worked out from wire lengths because the harness states none. */
  readonly derived: boolean
  /** Places with wires that no branch reaches. */
  readonly missing: readonly string[]
  /** Branches left out because they close a loop, such as `P1–P2`. */
  readonly looped: readonly string[]
}

const PLAIN_WIDTH_MM = 16
const MOST_WIDTH_MM = 60

/** The wide side of the face, which is what lies across the board. */
function faceWidthMm(half: Half): number {
  const outline = half.family?.face?.outline
  if (!outline) return PLAIN_WIDTH_MM
  if (outline.shape === 'rect' || outline.shape === 'd') return Math.max(outline.wMm, outline.hMm)
  if (outline.shape === 'circle' || outline.shape === 'jack') return outline.dMm
  const xs = outline.points.map(([x]) => x)
  return Math.max(...xs) - Math.min(...xs)
}

function halfPlace(half: Half): BoardPlace {
  const { source } = half
  const label = 'label' in source ? source.label : undefined
  const mate = half.mate?.unit
  return {
    id: half.id,
    kind: 'connector',
    words: label ?? half.title ?? '',
    detail: mate && half.mate ? `${half.familyId}; fits ${half.mate.id} of ${mate.id}` : half.familyId,
    widthMm: Math.min(MOST_WIDTH_MM, Math.max(8, faceWidthMm(half))),
  }
}

function placesOf(loom: Loom, use: LoomUse): Map<string, BoardPlace> {
  const places = new Map<string, BoardPlace>()
  for (const half of use.halves) places.set(half.id, halfPlace(half))
  for (const { id, source, loom: home } of loom.components)
    if (home === use)
      places.set(id, {
        id,
        kind: 'component',
        words: source.title ?? '',
        detail: source.kind,
        widthMm: PLAIN_WIDTH_MM,
      })
  for (const { id, kind } of use.harness.splices ?? [])
    places.set(id, { id, kind: 'splice', words: '', detail: `${kind ?? ''} splice`.trim(), widthMm: 8 })
  return places
}

/** Branches as described, or worked out from the lengths of the wires, with what stands at their ends. */
export function boardPlan(loom: Loom, use: LoomUse, flags?: ReadonlyMap<string, readonly Flag[]>): BoardPlan {
  const stated = use.harness.branches
  const conductors = loom.conductors.filter((conductor) => conductor.loom === use)
  const { branches, looped } = branchTree(stated ?? deriveBranches(conductors))
  const places = placesOf(loom, use)
  const reached = new Set(branches.flatMap(({ from, to }) => [from, to]))
  for (const id of reached)
    if (!places.has(id)) places.set(id, { id, kind: 'breakout', words: '', detail: '', widthMm: 0 })
  for (const [id, place] of places) {
    const marks = flagsBelow(flags, [`${use.id}.${id}`])
    if (marks.length > 0) places.set(id, { ...place, flags: marks })
  }
  const wired = conductors.flatMap(({ from, to }) =>
    [from, to].flatMap((end) => (end ? boardPlace(end) : [])),
  )
  return {
    branches,
    places,
    derived: stated === undefined,
    missing: [...new Set(wired)].filter((id) => !reached.has(id)),
    looped: looped.map(({ from, to }) => `${from}–${to}`),
  }
}
