import { UnionFind } from '../resolve/union-find.ts'
import type { Conductances } from './conductances.ts'
import { conjugateGradient } from './conjugate-gradient.ts'

/** A resistive network made ready: solved for as many currents and fixed voltages as wanted. */
export interface Nodal {
  /** 1 for each node with no path to a fixed node: its voltage is unknown. */
  readonly floating: Uint8Array
  readonly method: 'direct' | 'iterative'
  /**
   * Volts of every node. `inject` is the current pushed into each node, `fixed` the volts of the fixed nodes (others are
   * ignored). Floating nodes come out as NaN.
   */
  solve(inject: ArrayLike<number>, fixed: ArrayLike<number>): Float64Array
}

interface Step {
  readonly node: number
  readonly total: number
  readonly to: readonly number[]
  readonly siemens: readonly number[]
}

/** Above this many made-up entries a node, elimination costs more than iterating. */
const FILL_LIMIT = 20

/**
 * Prepares nodal analysis with the nodes marked in `isFixed` held at given volts. Nodes are eliminated in order of least degree by
 * the star-mesh transformation: it is the LDLᵀ factorisation of the conductance matrix written so that nothing is
 * ever subtracted, which keeps full precision with micro-ohms beside kilo-ohms. Where fill explodes, conjugate
 * gradients take over. Never throws on floating parts.
 */
export function prepareNodal(size: number, edges: Conductances, isFixed: ArrayLike<number>): Nodal {
  const floating = floatingNodes(size, edges, isFixed)
  const free = (node: number): boolean => !isFixed[node] && !floating[node]
  const steps = eliminate(size, edges, isFixed, free)
  const rhs = (inject: ArrayLike<number>, fixed: ArrayLike<number>): Float64Array => {
    const right = Float64Array.from({ length: size }, (_, node) => (free(node) ? (inject[node] ?? 0) : 0))
    edges.siemens.forEach((g, index) => {
      const [a, b] = [edges.a[index] ?? 0, edges.b[index] ?? 0]
      if (isFixed[a] && free(b)) right[b] = (right[b] ?? 0) + g * (fixed[a] ?? 0)
      if (isFixed[b] && free(a)) right[a] = (right[a] ?? 0) + g * (fixed[b] ?? 0)
    })
    return right
  }
  return {
    floating,
    method: steps ? 'direct' : 'iterative',
    solve: (inject, fixed) => {
      const right = rhs(inject, fixed)
      const volts = steps ? substitute(steps, right) : conjugateGradient(size, edges, free, right)
      for (let node = 0; node < size; node++) {
        if (isFixed[node]) volts[node] = fixed[node] ?? 0
        else if (floating[node]) volts[node] = Number.NaN
      }
      return volts
    },
  }
}

function floatingNodes(size: number, edges: Conductances, isFixed: ArrayLike<number>): Uint8Array {
  const sets = new UnionFind(size)
  edges.a.forEach((a, index) => {
    sets.join(a, edges.b[index] ?? a)
  })
  const held = new Uint8Array(size)
  for (let node = 0; node < size; node++) if (isFixed[node]) held[sets.find(node)] = 1
  return Uint8Array.from({ length: size }, (_, node) => (held[sets.find(node)] ? 0 : 1))
}

/** The order of elimination with what each node was joined to; undefined where there would be too much fill. */
function eliminate(
  size: number,
  edges: Conductances,
  isFixed: ArrayLike<number>,
  free: (node: number) => boolean,
): Step[] | undefined {
  const toFixed = new Float64Array(size)
  const near: Map<number, number>[] = Array.from({ length: size }, () => new Map<number, number>())
  let entries = 0
  let budget = FILL_LIMIT * size + 1000
  const add = (a: number, b: number, g: number): void => {
    const list = near[a]
    if (!list) return
    const before = list.get(b)
    if (before === undefined) budget--
    list.set(b, (before ?? 0) + g)
  }
  edges.siemens.forEach((g, index) => {
    const [a, b] = [edges.a[index] ?? 0, edges.b[index] ?? 0]
    if (a === b) return
    if (isFixed[b] && free(a)) toFixed[a] = (toFixed[a] ?? 0) + g
    else if (isFixed[a] && free(b)) toFixed[b] = (toFixed[b] ?? 0) + g
    else if (free(a) && free(b)) {
      add(a, b, g)
      add(b, a, g)
      entries += 2
    }
  })
  budget += entries
  const queue = new DegreeQueue(size)
  for (let node = 0; node < size; node++) if (free(node)) queue.put(node, near[node]?.size ?? 0)
  const steps: Step[] = []
  for (let node = queue.take(); node >= 0; node = queue.take()) {
    const list = near[node] ?? new Map<number, number>()
    const to = [...list.keys()]
    const siemens = [...list.values()]
    const ground = toFixed[node] ?? 0
    const total = siemens.reduce((sum, g) => sum + g, ground)
    steps.push({ node, total, to, siemens })
    for (const other of to) near[other]?.delete(node)
    to.forEach((one, i) => {
      const share = (siemens[i] ?? 0) / total
      toFixed[one] = (toFixed[one] ?? 0) + share * ground
      for (let j = i + 1; j < to.length; j++) {
        const two = to[j] ?? one
        const g = share * (siemens[j] ?? 0)
        add(one, two, g)
        add(two, one, g)
      }
    })
    if (budget < 0) return undefined
    for (const other of to) queue.put(other, near[other]?.size ?? 0)
    list.clear()
  }
  return steps
}

function substitute(steps: readonly Step[], right: Float64Array): Float64Array {
  for (const { node, total, to, siemens } of steps) {
    const part = (right[node] ?? 0) / total
    for (let i = 0; i < to.length; i++) {
      const other = to[i] ?? 0
      right[other] = (right[other] ?? 0) + part * (siemens[i] ?? 0)
    }
  }
  const volts = new Float64Array(right.length)
  for (let index = steps.length - 1; index >= 0; index--) {
    const step = steps[index]
    if (!step) continue
    let sum = right[step.node] ?? 0
    for (let i = 0; i < step.to.length; i++) sum += (step.siemens[i] ?? 0) * (volts[step.to[i] ?? 0] ?? 0)
    volts[step.node] = sum / step.total
  }
  return volts
}

/** Nodes by degree, least first. Degrees that changed are put again; stale entries are dropped when met. */
class DegreeQueue {
  private readonly buckets: number[][] = []
  private readonly degree: Int32Array
  private least = 0

  constructor(size: number) {
    this.degree = new Int32Array(size).fill(-1)
  }

  put(node: number, degree: number): void {
    if (this.degree[node] === degree) return
    this.degree[node] = degree
    const bucket = this.buckets[degree]
    if (bucket) bucket.push(node)
    else this.buckets[degree] = [node]
    if (degree < this.least) this.least = degree
  }

  /** The node of least degree, or −1 when none is left. */
  take(): number {
    for (; this.least < this.buckets.length; this.least++) {
      const bucket = this.buckets[this.least]
      for (let node = bucket?.pop(); node !== undefined; node = bucket?.pop()) {
        if (this.degree[node] !== this.least) continue
        this.degree[node] = -2
        return node
      }
    }
    return -1
  }
}
