import { type Element, LEAST_OHMS } from './dc-elements.ts'
import { innerOhms, type Source } from './dc-sources.ts'
import { type Nodal, prepareNodal } from './nodal.ts'

/** Currents drawn between two nodes, set anew for each solution. */
export interface Draw {
  readonly from: number
  readonly to: number
  amps: number
}

export interface SystemInput {
  readonly size: number
  readonly elements: readonly Element[]
  readonly held: ReadonlyMap<number, number>
  readonly between: readonly Source[]
  readonly draws: readonly Draw[]
  /** Piece of each node: nodes of one piece are joined by elements. */
  readonly piece: (node: number) => number
}

/** One resistive system in one state. Only pieces in which current flows are solved; the rest stand at their held volts. */
export interface System {
  /**
   * Volts of each node as `base + rise`: the rise is kept apart so that microvolts across a joint are not lost beside
   * the volts of the supply. NaN where a node floats.
   */
  solve(): { readonly base: Float64Array; readonly rise: Float64Array }
  readonly method: Nodal['method']
}

export function prepareSystem(input: SystemInput): System {
  const { size, held, piece } = input
  const sources = input.between
  const baseOf = new Map<number, number>()
  const busy = new Set<number>()
  for (const [node, volts] of held) {
    const own = piece(node)
    const base = baseOf.get(own)
    if (base === undefined) baseOf.set(own, volts)
    else if (base !== volts) busy.add(own)
  }
  for (const draw of input.draws) for (const node of [draw.from, draw.to]) busy.add(piece(node))
  for (const source of sources) {
    const plus = piece(source.terminal.index)
    busy.add(plus)
    if (againstZero(source, held) && !baseOf.has(plus)) baseOf.set(plus, source.volts)
  }
  for (const element of input.elements) if (element.offset !== undefined) busy.add(piece(element.a))
  const local = new Int32Array(size).fill(-1)
  const nodes: number[] = []
  for (let node = 0; node < size; node++)
    if (busy.has(piece(node)) && baseOf.has(piece(node))) local[node] = nodes.push(node) - 1
  const network = localNetwork(input, local, nodes.length)
  const isFixed = new Uint8Array(network.size)
  const fixed = new Float64Array(network.size)
  for (const [node, volts] of held) {
    const at = local[node] ?? -1
    if (at < 0) continue
    isFixed[at] = 1
    fixed[at] = volts - (baseOf.get(piece(node)) ?? 0)
  }
  for (const ground of network.grounds) {
    isFixed[ground.node] = 1
    fixed[ground.node] = ground.volts - (baseOf.get(ground.piece) ?? 0)
  }
  const nodal = prepareNodal(network.size, network, isFixed)
  return {
    method: nodal.method,
    solve: () => {
      const inject = Float64Array.from(network.inject)
      for (const draw of input.draws) {
        push(inject, local[draw.from] ?? -1, -draw.amps)
        push(inject, local[draw.to] ?? -1, draw.amps)
      }
      const solved = nodal.solve(inject, fixed)
      const base = Float64Array.from({ length: size }, (_, node) => baseOf.get(piece(node)) ?? Number.NaN)
      const rise = Float64Array.from({ length: size }, (_, node) => {
        const at = local[node] ?? -1
        return at < 0 ? 0 : (solved[at] ?? 0)
      })
      return { base, rise }
    },
  }
}

function push(inject: Float64Array, node: number, amps: number): void {
  if (node >= 0) inject[node] = (inject[node] ?? 0) + amps
}

/** Whether the far side of a source is held at zero, so that it needs no node of its own. */
export function againstZero(source: Source, held: ReadonlyMap<number, number>): boolean {
  return source.back === undefined || held.get(source.back.index) === 0
}

function localNetwork(input: SystemInput, local: Int32Array, count: number) {
  const a: number[] = []
  const b: number[] = []
  const siemens: number[] = []
  const inject: number[] = new Array<number>(count).fill(0)
  const grounds: { node: number; volts: number; piece: number }[] = []
  const join = (from: number, to: number, ohms: number): void => {
    a.push(from)
    b.push(to)
    siemens.push(1 / Math.max(ohms, LEAST_OHMS))
  }
  for (const element of input.elements) {
    const [from, to] = [local[element.a] ?? -1, local[element.b] ?? -1]
    if (from < 0 || to < 0) continue
    join(from, to, element.ohms)
    if (element.offset === undefined) continue
    inject[from] = (inject[from] ?? 0) + element.offset / element.ohms
    inject[to] = (inject[to] ?? 0) - element.offset / element.ohms
  }
  let size = count
  for (const source of input.between) {
    const plus = source.terminal.index
    const at = local[plus] ?? -1
    const back = source.back ? (local[source.back.index] ?? -1) : -1
    if (at < 0) continue
    const ohms = innerOhms(source)
    if (againstZero(source, input.held) || back < 0) {
      // Against a held zero the source is a node of its own at its full volts behind its resistance.
      const node = size++
      inject.push(0)
      grounds.push({ node, volts: source.volts, piece: input.piece(plus) })
      join(node, at, ohms)
    } else {
      join(at, back, ohms)
      inject[at] = (inject[at] ?? 0) + source.volts / ohms
      inject[back] = (inject[back] ?? 0) - source.volts / ohms
    }
  }
  return { size, a, b, siemens, inject, grounds }
}
