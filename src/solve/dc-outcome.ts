import type { Loom, State, Terminal } from '../resolve/loom.ts'
import type { Element } from './dc-elements.ts'
import type { Live } from './dc-live.ts'
import type { FedLoad } from './dc-loads.ts'
import { type Held, innerOhms, type Source } from './dc-sources.ts'
import type { Draw } from './dc-system.ts'
import { throughFuses, walk } from './reach.ts'
import type { LoadResult, StateSolution } from './solution.ts'

/** A network as solved: volts apart into base and rise, and the amps of each element. */
export interface Solved {
  readonly volts: Float64Array
  readonly amps: Float64Array
  readonly elements: readonly Element[]
  readonly draws: readonly (Draw & { readonly load: FedLoad })[]
  readonly starved: readonly FedLoad[]
  readonly held: Held
}

/** A state with everything found out about it. */
interface Outcome {
  readonly loom: Loom
  readonly state: State
  readonly sources: readonly Source[]
  readonly live: Live
  readonly loads: readonly FedLoad[]
  readonly solved: Solved
  readonly assumed: ReadonlySet<string>
}

/** Puts a solved network into words and figures: what each load has, what is unknown, what is lost. */
export function concludeDc(outcome: Outcome): StateSolution {
  const { loom, state, sources, live, solved, assumed } = outcome
  const { volts, amps, elements } = solved
  const unknown = unknownConductors(solved)
  if (unknown.length > 0) blankBeyond(volts, elements, amps, solved.held)
  const unsolved = unsolvedLoads(outcome)
  const delivered = sources.map((source) => ({
    terminal: source.terminal,
    amps: sourceAmps(loom, source, solved),
  }))
  blankUnknownCurrents(outcome)
  const missing = new Set(unsolved.map((entry) => entry.terminal))
  const loads = solved.draws.flatMap((draw) => {
    const source = live.source(draw.load.terminal)
    return source && draw.load.terminal.does.kind === 'supply-in' && !missing.has(draw.load.terminal)
      ? [loadResult(draw.load, draw.amps, volts, source)]
      : []
  })
  return {
    state,
    volts,
    amps,
    loads,
    unsolved,
    sources: delivered,
    wattsLost: wattsLost(elements, amps),
    converged: solved.starved.length === 0,
    assumed: [...assumed],
  }
}

/** Currents that a load of unknown draw takes part in are not known either. */
function blankUnknownCurrents({ loom, loads, live, solved }: Outcome): void {
  for (const load of loads) {
    if (load.terminal.does.kind !== 'supply-in') continue
    if (load.figure.kind !== 'unknown' && !solved.starved.includes(load)) continue
    const { back } = load
    const end = live.source(load.terminal)?.back
    const home = back && end ? (walk(loom, back, throughFuses).pathTo(end) ?? []) : []
    for (const link of [...live.path(load.terminal), ...home]) solved.amps[link.index] = Number.NaN
  }
}

function loadResult(load: FedLoad, amps: number, volts: Float64Array, source: Source): LoadResult {
  const { terminal, back } = load
  const at = (pin: Terminal | undefined): number => (pin ? (volts[pin.index] ?? Number.NaN) : 0)
  const across = at(terminal) - at(back)
  const sourceVolts = at(source.terminal) - at(source.back)
  return {
    terminal,
    ...(back ? { back } : {}),
    amps,
    volts: across,
    sourceVolts,
    source: source.terminal,
    dropVolts: sourceVolts - across,
  }
}

function unsolvedLoads(outcome: Outcome): { terminal: Terminal; needs: string }[] {
  const { loads, solved, live } = outcome
  const drawn = new Map(solved.draws.map((draw) => [draw.load, draw]))
  return loads.flatMap((load) => {
    const { terminal, back, figure } = load
    if (terminal.does.kind !== 'supply-in') return []
    const needs = (text: string) => [{ terminal, needs: text }]
    if (figure.kind === 'unknown') return needs(figure.needs)
    if (!back) return needs(`the return pin of ${terminal.address}`)
    if (!drawn.has(load))
      return needs(`a way back from ${back.address} to ${live.source(terminal)?.terminal.address}`)
    if (solved.starved.includes(load))
      return needs(
        `a feed that can deliver ${figure.kind === 'watts' ? figure.watts : 0} W to ${terminal.address}`,
      )
    const blank = [terminal, back].find((pin) => Number.isNaN(solved.volts[pin.index] ?? Number.NaN))
    if (!blank) return []
    const bare = live
      .path(terminal)
      .find((link) => link.conductor && solved.elements.some((e) => e.link === link && e.unknown))
    return needs(`the size and length of ${bare?.conductor?.id ?? `the conductors to ${blank.address}`}`)
  })
}

function unknownConductors(solved: Solved): Element[] {
  return solved.elements.filter((element) => element.unknown && carriesCurrent(element, solved.amps))
}

const carriesCurrent = (element: Element, amps: Float64Array): boolean =>
  Math.abs(element.link ? (amps[element.link.index] ?? 0) : 0) > 1e-9

/** Volts beyond a conductor of unknown resistance that carries current are not known. */
function blankBeyond(
  volts: Float64Array,
  elements: readonly Element[],
  amps: Float64Array,
  held: Held,
): void {
  const at = new Map<number, Element[]>()
  const add = (node: number, element: Element): void => {
    const list = at.get(node)
    if (list) list.push(element)
    else at.set(node, [element])
  }
  for (const element of elements) {
    if (element.unknown && carriesCurrent(element, amps)) continue
    add(element.a, element)
    add(element.b, element)
  }
  const known = new Set(held.volts.keys())
  for (const source of held.between) known.add(source.terminal.index)
  for (const node of known)
    for (const element of at.get(node) ?? []) known.add(element.a === node ? element.b : element.a)
  for (let node = 0; node < volts.length; node++) if (!known.has(node)) volts[node] = Number.NaN
}

/** What leaves a source: the current in everything joined to its pin, and what is drawn at the pin itself. */
function sourceAmps(loom: Loom, source: Source, solved: Solved): number {
  const { terminal } = source
  const between = solved.held.between.includes(source)
  if (between) {
    const back = source.back ? (solved.volts[source.back.index] ?? 0) : 0
    return (source.volts - ((solved.volts[terminal.index] ?? 0) - back)) / innerOhms(source)
  }
  let amps = 0
  for (const link of loom.linksAt[terminal.index] ?? [])
    amps += (link.a === terminal ? 1 : -1) * (solved.amps[link.index] ?? 0)
  for (const draw of solved.draws) if (draw.from === terminal.index) amps += draw.amps
  return amps
}

function wattsLost(elements: readonly Element[], amps: Float64Array): number {
  let watts = 0
  for (const { link, ohms, offset } of elements) {
    if (!link || link.kind === 'coil' || link.kind === 'resistor') continue
    const current = amps[link.index] ?? 0
    if (!Number.isNaN(current)) watts += current * current * ohms + Math.abs(current) * (offset ?? 0)
  }
  return watts
}
