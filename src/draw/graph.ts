import type { Columns } from './columns.ts'
import { labelWidth } from './conductor-label.ts'
import { PITCH, TEXT } from './metrics.ts'
import { relayShape } from './relay-shape.ts'
import { makeRuns, type Run, turnInline } from './runs.ts'
import type { Port, Shape, Side, WireEnd } from './shape.ts'
import { type Block, type Conductor, type SheetModel, shieldWords, type Trunk } from './sheet-model.ts'
import { inlineShape, spliceShape, studShape } from './small-shapes.ts'
import { type PinsElsewhere, stripShape } from './strip-shape.ts'
import { textWidth } from './text-width.ts'
import { orderTrunk, type TrunkRows } from './trunk-rows.ts'

export interface GraphNode {
  readonly id: string
  readonly shape: Shape
  readonly block?: Block
}

/** A conductor outside any trunk, or the piece of one between a trunk and its pin. */
export interface WireEdge {
  readonly id: string
  /** Place in the order of description, which the layout keeps where it can. */
  readonly order: number
  readonly run: Run
  readonly source: string
  readonly target: string
  readonly labelled: boolean
}

export interface TrunkEdge {
  readonly id: string
  readonly order: number
  readonly trunk: Trunk
  readonly rows: TrunkRows
  readonly runs: readonly Run[]
  readonly source: string
  readonly target: string
  /** The far end takes the two conductors of the pair in the other order. */
  readonly swapped: boolean
  /** Room of its envelope. */
  readonly width: number
  readonly height: number
}

export interface Graph {
  readonly nodes: readonly GraphNode[]
  readonly wires: readonly WireEdge[]
  readonly trunks: readonly TrunkEdge[]
}

/** Room above and below the conductors of a trunk for screens, jacket and title. */
export const ENVELOPE_MARGIN = 26
/** Room for the twist of a pair, from the left edge of the envelope. */
export const TWIST_ROOM = 54

function endsByBlock(
  model: SheetModel,
  runs: readonly Run[],
  turned: ReadonlySet<string>,
): Map<string, WireEnd[]> {
  const ends = new Map<string, WireEnd[]>(model.blocks.map((block) => [block.id, []]))
  const inline = new Map(model.blocks.flatMap((b) => (b.kind === 'inline' ? [[b.id, b.pins] as const] : [])))
  for (const run of runs)
    run.ends.forEach((end, k) => {
      if (!end) return
      const pins = inline.get(end.block)
      const leftmost = pins?.[turned.has(end.block) ? 1 : 0]
      const own: Side = k === 0 ? 'EAST' : 'WEST'
      // A jumper leaves and comes back on the same side.
      const looped = run.ends[0]?.block === run.ends[1]?.block
      const side: Side = pins ? (end.pin === leftmost ? 'WEST' : 'EAST') : looped ? 'EAST' : own
      ends.get(end.block)?.push({ port: `${run.key}:${k}`, pin: end.pin, side, number: run.label })
    })
  return ends
}

function shapeOf(
  block: Block,
  ends: readonly WireEnd[],
  turned: boolean,
  elsewhere: readonly PinsElsewhere[],
): Shape {
  switch (block.kind) {
    case 'strip':
      return stripShape(block, ends, elsewhere)
    case 'inline':
      return inlineShape(block, ends, turned)
    case 'relay':
      return relayShape(block, ends)
    case 'splice':
      return spliceShape(block, ends)
    case 'stud':
      return studShape(block, ends)
  }
}

class GraphBuilder {
  readonly nodes: GraphNode[] = []
  readonly wires: WireEdge[] = []
  readonly trunks: TrunkEdge[] = []
  private readonly ports = new Map<string, { node: GraphNode; port: Port }>()
  private readonly merged = new Map<GraphNode, Map<string, Port>>()
  private readonly orders: ReadonlyMap<string, number>

  constructor(conductors: readonly Conductor[]) {
    this.orders = new Map(conductors.map((conductor, i) => [conductor.id, i]))
  }

  orderOf(id: string): number {
    return this.orders.get(id) ?? this.orders.size
  }

  addNode(node: GraphNode) {
    this.nodes.push(node)
    for (const port of node.shape.ports) this.ports.set(port.id, { node, port })
  }

  addWire(run: Run, source: string, target: string, labelled: boolean) {
    this.wires.push({
      id: `e${this.wires.length}`,
      order: this.orderOf(run.id),
      run,
      source,
      target,
      labelled,
    })
  }

  heightAt(run: Run, k: 0 | 1): number {
    return this.ports.get(`${run.key}:${k}`)?.port.y ?? Number.NaN
  }

  /**
   * Where a trunk docks at one end. Pins in a row and in order take it directly, through one merged port; otherwise an
   * invisible comb spreads its conductors.
   */
  dock(id: string, runs: readonly Run[], k: 0 | 1, mayReverse: boolean): { port: string; reversed: boolean } {
    const found = runs.map((run) => (run.ends[k] ? this.ports.get(`${run.key}:${k}`) : undefined))
    const present = found.flatMap((f, i) => (f ? [{ ...f, row: i }] : []))
    const [first] = present
    const side: Side = k === 0 ? 'EAST' : 'WEST'
    const sameNode =
      first && present.every((p) => p.node === first.node && p.port.side === side) && !first.node.shape.loose
    if (first && sameNode) {
      const step = (a: (typeof present)[number], sign: 1 | -1) =>
        Math.abs(a.port.y - first.port.y - sign * (a.row - first.row) * PITCH) < 0.1
      const straight = present.every((p) => step(p, 1))
      const reversed = !straight && mayReverse && present.length === 2 && present.every((p) => step(p, -1))
      if (straight || reversed) {
        const top = Math.min(
          ...present.map((p) => p.port.y - (reversed ? present.length - 1 - p.row : p.row) * PITCH),
        )
        const port: Port = {
          id: `${id}:${k}`,
          side,
          x: first.port.x,
          y: top + ((runs.length - 1) / 2) * PITCH,
        }
        const ports = this.merged.get(first.node) ?? new Map<string, Port>()
        for (const p of present) ports.set(p.port.id, port)
        this.merged.set(first.node, ports)
        return { port: port.id, reversed }
      }
    }
    return { port: this.comb(id, runs, k), reversed: false }
  }

  private comb(id: string, runs: readonly Run[], k: 0 | 1): string {
    const height = runs.length * PITCH
    const outer: Side = k === 0 ? 'WEST' : 'EAST'
    const ports: Port[] = runs.flatMap((run, i) =>
      run.ends[k]
        ? [{ id: `${id}:${k}/${i}`, side: outer, x: outer === 'WEST' ? 0 : 4, y: i * PITCH + PITCH / 2 }]
        : [],
    )
    const trunkPort: Port = {
      id: `${id}:${k}`,
      side: k === 0 ? 'EAST' : 'WEST',
      x: k === 0 ? 4 : 0,
      y: height / 2,
    }
    const reach = new Map(ports.map((port) => [port.id, { goal: [4 - port.x, port.y] as const }]))
    const shape: Shape = { width: 4, height, ports: [...ports, trunkPort], reach, draw: () => [] }
    this.addNode({ id: `comb ${id}:${k}`, shape })
    runs.forEach((run, i) => {
      if (!run.ends[k]) return
      const pin = `${run.key}:${k}`
      const tooth = `${id}:${k}/${i}`
      if (k === 0) this.addWire(run, pin, tooth, false)
      else this.addWire(run, tooth, pin, false)
    })
    return trunkPort.id
  }

  /** A jumper on one block turns round at an invisible node in the next layer, so that its label gets room like any other. */
  addLoop(run: Run) {
    const id = `turn ${run.key}`
    const ports: Port[] = [0, 1].map((k) => ({ id: `${id}:${k}`, side: 'WEST', x: 0, y: k * PITCH }))
    const reach = new Map(ports.map((port) => [port.id, { levelTo: 4, goal: [4, PITCH / 2] as const }]))
    this.addNode({ id, shape: { width: 4, height: PITCH, ports, reach, draw: () => [] } })
    const [upper, lower] = this.heightAt(run, 0) <= this.heightAt(run, 1) ? [0, 1] : [1, 0]
    this.addWire(run, `${run.key}:${upper}`, `${id}:0`, true)
    this.addWire(run, `${run.key}:${lower}`, `${id}:1`, false)
  }

  finish(): Graph {
    const nodes = this.nodes.map((node) => {
      const merged = this.merged.get(node)
      if (!merged) return node
      const ports = [...new Set(node.shape.ports.map((port) => merged.get(port.id) ?? port))]
      return { ...node, shape: { ...node.shape, ports } }
    })
    return { nodes, wires: this.wires, trunks: this.trunks }
  }
}

function addTrunk(builder: GraphBuilder, id: string, trunk: Trunk, runs: readonly Run[]) {
  const byId = new Map(runs.map((run) => [run.id, run]))
  const heightOf = (conductor: string) => {
    const run = byId.get(conductor)
    const near = run ? builder.heightAt(run, 0) : Number.NaN
    const height = Number.isNaN(near) && run ? builder.heightAt(run, 1) : near
    return Number.isNaN(height) ? 1e6 : height
  }
  const known: Trunk = {
    ...trunk,
    conductors: trunk.conductors.filter((c) => byId.has(c)),
    shields: trunk.shields.filter((s) => byId.has(s.id)),
  }
  const rows = orderTrunk(known, heightOf)
  const ordered = rows.rows.flatMap((row) => byId.get(row.id) ?? [])
  const onlyPair = rows.pairs.length === 1 && ordered.length === 2
  const near = builder.dock(id, ordered, 0, false)
  const far = builder.dock(id, ordered, 1, onlyPair)
  const labels = ordered.map((run) =>
    run.conductor ? labelWidth(run.conductor) : textWidth(shieldWords(run), TEXT.label, 'bold') + 14,
  )
  const title = textWidth(trunk.title, TEXT.label, 'bold') + 10
  const width = Math.ceil(
    Math.max(title, Math.max(0, ...labels) + (rows.pairs.length > 0 ? TWIST_ROOM : 26) + 24),
  )
  builder.trunks.push({
    id,
    order: Math.min(...ordered.map((run) => builder.orderOf(run.id))),
    trunk: known,
    rows,
    runs: ordered,
    source: near.port,
    target: far.port,
    swapped: far.reversed,
    width,
    height: 2 * ENVELOPE_MARGIN,
  })
}

/** Turns a sheet into nodes with ports and edges between them, before anything has a place. */
export function buildGraph(
  model: SheetModel,
  columns: Columns,
  elsewhere: ReadonlyMap<string, readonly PinsElsewhere[]>,
): Graph {
  const runs = makeRuns(model, columns)
  const every = [...runs.free, ...[...runs.inTrunk.values()].flat()]
  const turned = turnInline(model.blocks, every)
  const ends = endsByBlock(model, every, turned)
  const builder = new GraphBuilder(model.conductors)
  model.blocks.forEach((block, i) => {
    const shape = shapeOf(
      block,
      ends.get(block.id) ?? [],
      turned.has(block.id),
      elsewhere.get(block.id) ?? [],
    )
    builder.addNode({ id: `b${i}`, block, shape })
  })
  let t = 0
  for (const [trunk, own] of runs.inTrunk) addTrunk(builder, `t${t++}`, trunk, own)
  for (const run of runs.free)
    if (run.ends[0]?.block === run.ends[1]?.block) builder.addLoop(run)
    else builder.addWire(run, `${run.key}:0`, `${run.key}:1`, true)
  return builder.finish()
}
