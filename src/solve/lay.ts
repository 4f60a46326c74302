import type { Pointer } from '../base/place.ts'
import type { Branch } from '../describe/harness.ts'
import { boardPlace, branchTree } from '../resolve/branch-routes.ts'
import type { Conductor, LoomUse } from '../resolve/loom.ts'

/** One stretch of a loom as it lies, with an address and what runs in it. */
export interface LaidBranch {
  readonly source: Branch
  /** `main.B1-P2` */
  readonly address: string
  readonly at: Pointer
  /** Conductors whose way leads through it. */
  readonly conductors: readonly Conductor[]
}

/** How a loom lies: its branches as a tree, and the way of each conductor through it. */
export interface Lay {
  readonly use: LoomUse
  readonly branches: readonly LaidBranch[]
  /** Branches that start or end at a place: connector, component, splice or breakout. */
  at(place: string): readonly LaidBranch[]
  /** Branches between the two ends of a conductor; undefined where an end is open or the branches do not join its ends. */
  way(conductor: Conductor): readonly LaidBranch[] | undefined
}

interface Step {
  readonly parent: string
  readonly by: LaidBranch
  readonly depth: number
}

type Draft = { -readonly [K in keyof LaidBranch]: LaidBranch[K] } & { conductors: Conductor[] }

const far = ({ source }: LaidBranch, from: string): string => (source.from === from ? source.to : source.from)

/** Where a branch was written. A harness has a connector or a wire wherever it has branches; the use stands in if not. */
function branchAt(use: LoomUse, index: number): Pointer {
  const first = use.halves[0] ?? use.cables[0]
  return first ? { doc: first.at.doc, path: [...first.at.path.slice(0, -2), 'branches', index] } : use.at
}

/** Lays out one loom; undefined where its branches are not described. Branches that close a loop are left out, as on the board. */
export function makeLay(use: LoomUse, conductors: readonly Conductor[]): Lay | undefined {
  const described = use.harness.branches
  if (!described || described.length === 0) return undefined
  const places = new Map<string, Draft[]>()
  const branches = branchTree(described).branches.map((source): Draft => {
    const address = `${use.id}.${source.from}-${source.to}`
    return { source, address, at: branchAt(use, described.indexOf(source)), conductors: [] }
  })
  for (const branch of branches)
    for (const end of [branch.source.from, branch.source.to]) {
      const list = places.get(end) ?? []
      places.set(end, list)
      list.push(branch)
    }
  const steps = rooted(places)
  const way = (conductor: Conductor): readonly LaidBranch[] | undefined => {
    const { from, to } = conductor
    return from && to ? between(steps, boardPlace(from), boardPlace(to)) : undefined
  }
  for (const conductor of conductors)
    if (conductor.loom === use)
      for (const branch of way(conductor) ?? []) (branch as Draft).conductors.push(conductor)
  return { use, branches, at: (place) => places.get(place) ?? [], way }
}

/** Each place with the step towards the root of its tree. Roots are in the map with no step. */
function rooted(places: ReadonlyMap<string, readonly LaidBranch[]>): ReadonlyMap<string, Step | undefined> {
  const steps = new Map<string, Step | undefined>()
  for (const root of places.keys()) {
    if (steps.has(root)) continue
    steps.set(root, undefined)
    const queue = [root]
    for (const place of queue)
      for (const by of places.get(place) ?? []) {
        const next = far(by, place)
        if (steps.has(next)) continue
        steps.set(next, { parent: place, by, depth: (steps.get(place)?.depth ?? 0) + 1 })
        queue.push(next)
      }
  }
  return steps
}

function between(
  steps: ReadonlyMap<string, Step | undefined>,
  from: string,
  to: string,
): readonly LaidBranch[] | undefined {
  if (!steps.has(from) || !steps.has(to)) return undefined
  const out: LaidBranch[] = []
  const back: LaidBranch[] = []
  let [a, b] = [from, to]
  while (a !== b) {
    const [up, down] = [steps.get(a), steps.get(b)]
    if (!up && !down) return undefined
    if ((up?.depth ?? 0) >= (down?.depth ?? 0) && up) {
      out.push(up.by)
      a = up.parent
    } else if (down) {
      back.push(down.by)
      b = down.parent
    }
  }
  return [...out, ...back.reverse()]
}
