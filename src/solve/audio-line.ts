import type { ComponentUse, Link, Loom, Terminal } from '../resolve/loom.ts'
import { UnionFind } from '../resolve/union-find.ts'
import { type AcElement, type AcTransformer, solveAc } from './ac-network.ts'
import { magnitude } from './formulas/complex.ts'
import type { NetPins } from './net-pins.ts'
import { across } from './reach.ts'
import type { LinkOhms } from './solution.ts'

/** Level of each input that an output drives, as a voltage ratio of its open-circuit volts. */
export interface AudioLine {
  readonly output: Terminal
  readonly inputs: readonly { readonly input: Terminal; readonly ratio: number }[]
  /** Facts that are missing: the figures leave those inputs out. */
  readonly needs: readonly string[]
}

const PASSES: ReadonlySet<Link['kind']> = new Set([
  'conductor',
  'mate',
  'join',
  'bond',
  'switch',
  'relay-contact',
  'resistor',
  'capacitor',
])
/** A conductor or contact without a figure: nothing beside an audio impedance. */
const BARE_OHMS = 1e-3
/** Larger networks are not lines. */
const MOST_NODES = 160

/** What an isolated side is tied to the reference with. One tie carries no current, so its size changes nothing. */
const TIE_OHMS = 1

/** The opposite leg, or the return a single leg is measured against. */
const backOf = (nets: NetPins, pin: Terminal): Terminal | undefined => nets.otherLeg(pin)

/** Everything that is joined to an output, transformers included. */
interface Reached {
  readonly nodes: ReadonlyMap<Terminal, number>
  readonly links: ReadonlySet<Link>
  readonly transformers: ReadonlySet<ComponentUse>
  readonly inputs: readonly Terminal[]
}

function reach(loom: Loom, output: Terminal, back: Terminal): Reached | undefined {
  const nodes = new Map<Terminal, number>([
    [back, 0],
    [output, 1],
  ])
  const links = new Set<Link>()
  const transformers = new Set<ComponentUse>()
  const inputs: Terminal[] = []
  const take = (terminal: Terminal): void => {
    if (!nodes.has(terminal)) nodes.set(terminal, nodes.size)
  }
  for (const from of nodes.keys()) {
    if (nodes.size > MOST_NODES) return undefined
    if (from.on === 'equipment' && from.does.kind === 'audio-in' && from.half?.unit !== output.half?.unit)
      inputs.push(from)
    const { component } = from
    if (component?.source.kind === 'transformer') {
      transformers.add(component)
      // Of what lies behind an unknown ratio nothing can be said, not even that nothing arrives.
      if (component.source.ratio !== undefined) for (const side of component.terminals.values()) take(side)
    }
    for (const link of loom.linksAt[from.index] ?? []) {
      if (!PASSES.has(link.kind)) continue
      links.add(link)
      take(across(link, from))
    }
  }
  return { nodes, links, transformers, inputs }
}

/** Ties for the stretches that only a transformer joins to node 0. */
function ties(
  nodes: number,
  elements: readonly AcElement[],
  transformers: readonly AcTransformer[],
): AcElement[] {
  const joined = new UnionFind(nodes)
  // The output's own source joins its two pins, and a winding its two ends.
  joined.join(0, 1)
  for (const { a, b } of elements) joined.join(a, b)
  for (const { p1, p2, s1, s2 } of transformers) {
    joined.join(p1, p2)
    joined.join(s1, s2)
  }
  const tied = new Set([joined.find(0)])
  const added: AcElement[] = []
  for (let node = 1; node < nodes; node++) {
    const root = joined.find(node)
    if (tied.has(root)) continue
    tied.add(root)
    added.push({ a: node, b: 0, ohms: TIE_OHMS })
  }
  return added
}

/**
 * Solves an audio line at one frequency with line resistance, pads, coupling capacitors and ideal transformers as complex
 * impedances: what of the output's own voltage arrives at each input. Undefined where the output's impedance or its other leg is not given.
 */
export function audioLine(
  loom: Loom,
  nets: NetPins,
  ohms: readonly (LinkOhms | undefined)[],
  output: Terminal,
  hertz = 1000,
): AudioLine | undefined {
  const { does } = output
  const back = backOf(nets, output)
  if (does.kind !== 'audio-out' || does.ohms === undefined || !back) return undefined
  const reached = reach(loom, output, back)
  if (!reached) return undefined
  const { nodes, links } = reached
  const needs: string[] = []
  const at = (terminal: Terminal): number => nodes.get(terminal) ?? 0
  const elements: AcElement[] = []
  for (const link of links) {
    const component = link.component?.source
    if (link.kind === 'capacitor') {
      const farads = component?.kind === 'capacitor' ? component.farads : undefined
      if (farads !== undefined) elements.push({ a: at(link.a), b: at(link.b), farads })
      else needs.push(`the capacitance of ${link.component?.id}`)
    } else
      elements.push({ a: at(link.a), b: at(link.b), ohms: Math.max(ohms[link.index]?.ohms ?? 0, BARE_OHMS) })
  }
  const transformers = [...reached.transformers].flatMap((use): AcTransformer[] => {
    const { id, source, terminals } = use
    const [p1, p2, s1, s2] = ['p1', 'p2', 's1', 's2'].map((name) => {
      const terminal = terminals.get(name)
      return terminal && at(terminal)
    })
    const known = p1 !== undefined && p2 !== undefined && s1 !== undefined && s2 !== undefined
    const ratio = source.kind === 'transformer' ? source.ratio : undefined
    if (known && ratio !== undefined) return [{ p1, p2, s1, s2, ratio, ohms: BARE_OHMS }]
    needs.push(`the ratio of ${id}`)
    return []
  })
  const inputs = reached.inputs.flatMap((input) => {
    const cold = backOf(nets, input)
    if (input.does.kind !== 'audio-in' || input.does.leg === 'cold' || !cold || !nodes.has(cold)) return []
    if (input.does.ohms === undefined) needs.push(`the input impedance of ${input.address}`)
    else elements.push({ a: at(input), b: at(cold), ohms: input.does.ohms })
    return [{ input, cold }]
  })
  const source = { a: 1, b: 0, volts: 1, ohms: does.ohms }
  const apart = transformers.length > 0 ? ties(nodes.size, elements, transformers) : []
  const volts = solveAc(nodes.size, [...elements, ...apart], [source], hertz, transformers)
  return {
    output,
    needs: [...new Set(needs)],
    inputs: inputs.map(({ input, cold }) => {
      const [a, b] = [volts[at(input)], volts[at(cold)]]
      const ratio = a && b ? magnitude({ re: a.re - b.re, im: a.im - b.im }) : Number.NaN
      return { input, ratio }
    }),
  }
}
