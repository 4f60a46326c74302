import type { Link, Loom, Terminal } from '../resolve/loom.ts'
import { type AcElement, solveAc } from './ac-network.ts'
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

/** The opposite leg, or the return a single leg is measured against. */
const backOf = (nets: NetPins, pin: Terminal): Terminal | undefined => nets.otherLeg(pin)

/**
 * Solves an audio line at one frequency with line resistance, pads and coupling capacitors as complex impedances: what of
 * the output's own voltage arrives at each input. Undefined where the output's impedance or its other leg is not given.
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
  const nodes = new Map<Terminal, number>([
    [back, 0],
    [output, 1],
  ])
  const links = new Set<Link>()
  const found: Terminal[] = []
  const needs: string[] = []
  for (const from of nodes.keys()) {
    if (nodes.size > MOST_NODES) return undefined
    if (from.on === 'equipment' && from.does.kind === 'audio-in' && from.half?.unit !== output.half?.unit)
      found.push(from)
    for (const link of loom.linksAt[from.index] ?? []) {
      if (!PASSES.has(link.kind)) continue
      links.add(link)
      const to = across(link, from)
      if (!nodes.has(to)) nodes.set(to, nodes.size)
    }
  }
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
  const inputs = found.flatMap((input) => {
    const cold = backOf(nets, input)
    if (input.does.kind !== 'audio-in' || input.does.leg === 'cold' || !cold || !nodes.has(cold)) return []
    if (input.does.ohms === undefined) needs.push(`the input impedance of ${input.address}`)
    else elements.push({ a: at(input), b: at(cold), ohms: input.does.ohms })
    return [{ input, cold }]
  })
  const volts = solveAc(nodes.size, elements, [{ a: 1, b: 0, volts: 1, ohms: does.ohms }], hertz)
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
