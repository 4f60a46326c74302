import type { Link, Loom, State } from '../resolve/loom.ts'
import { UnionFind } from '../resolve/union-find.ts'
import { DIODE_OHMS, DIODE_VOLTS, type Element, elementsIn } from './dc-elements.ts'
import { liveTerminals } from './dc-live.ts'
import { type FedLoad, fedLoads } from './dc-loads.ts'
import { concludeDc, type Solved } from './dc-outcome.ts'
import { type Held, holdSources, liveSources, type Source } from './dc-sources.ts'
import { againstZero, type Draw, prepareSystem } from './dc-system.ts'
import type { LinkOhms, StateSolution } from './solution.ts'

const MOST_DIODE_ROUNDS = 24
const MOST_POWER_ROUNDS = 2000

/**
 * The DC network of a loom in one operating state: nodal analysis with feed, return, contacts and fuses, loads of constant
 * current or constant power. See `liveSources`, `holdSources` and `loadFigure` for what is taken where little is stated.
 */
export function solveDc(loom: Loom, ohms: readonly (LinkOhms | undefined)[], state: State): StateSolution {
  const assumed = new Set<string>()
  const sources = liveSources(loom, state, assumed)
  const live = liveTerminals(loom, sources, state)
  const loads = fedLoads(loom, live, state)
  const elements = elementsIn(loom, ohms, state, assumed)
  const solved = withDiodes(loom, sources, loads, elements, assumed)
  return concludeDc({ loom, state, sources, live, loads, solved, assumed })
}

/** Solves with each diode conducting or blocking until none changes its mind. */
function withDiodes(
  loom: Loom,
  sources: readonly Source[],
  loads: readonly FedLoad[],
  elements: readonly Element[],
  assumed: Set<string>,
): Solved {
  const diodes = loom.links.filter((link) => link.kind === 'diode')
  const on = new Set<Link>()
  let solved = solveLinear(loom, sources, loads, elements, assumed)
  for (let round = 0; round < MOST_DIODE_ROUNDS && diodes.length > 0; round++) {
    const { volts, amps } = solved
    const changed = diodes.filter((link) => on.has(link) !== conducts(link, on.has(link), volts, amps))
    if (changed.length === 0) break
    // One at a time towards the end, so that two diodes that depend on each other cannot flip for ever.
    for (const link of round < MOST_DIODE_ROUNDS / 2 ? changed : changed.slice(0, 1))
      if (!on.delete(link)) on.add(link)
    const conducting = [...on].map((link) => diodeElement(link))
    solved = solveLinear(loom, sources, loads, [...elements, ...conducting], assumed)
  }
  return solved
}

const diodeElement = (link: Link): Element => ({
  a: link.a.index,
  b: link.b.index,
  ohms: DIODE_OHMS,
  offset: DIODE_VOLTS,
  link,
})

function conducts(link: Link, isOn: boolean, volts: Float64Array, amps: Float64Array): boolean {
  if (isOn) return (amps[link.index] ?? 0) >= 0
  const [a, k] = [volts[link.a.index] ?? Number.NaN, volts[link.b.index] ?? Number.NaN]
  // A cathode that floats follows the anode: the diode is what feeds it.
  if (Number.isNaN(k)) return !Number.isNaN(a) && a > DIODE_VOLTS
  return a - k > DIODE_VOLTS
}

function solveLinear(
  loom: Loom,
  sources: readonly Source[],
  loads: readonly FedLoad[],
  elements: readonly Element[],
  assumed: Set<string>,
): Solved {
  const size = loom.terminals.length
  const all = new UnionFind(size)
  const metal = new UnionFind(size)
  const backs = loads.flatMap((load) => (load.back ? [load.back.index] : []))
  for (const { a, b, link } of elements) {
    all.join(a, b)
    if (link?.kind === 'coil' || link?.kind === 'resistor') backs.push(a, b)
    else metal.join(a, b)
  }
  const held = holdSources(loom, sources, { all, metal, backs }, assumed)
  const piece = (node: number): number => all.find(node)
  const standing = standingPieces(held, piece)
  const draws = loads.flatMap((load) => {
    const { back, terminal, figure } = load
    if (figure.kind === 'unknown' || !back) return []
    if (!standing.has(piece(terminal.index)) || !standing.has(piece(back.index))) return []
    return [{ from: terminal.index, to: back.index, amps: figure.kind === 'amps' ? figure.amps : 0, load }]
  })
  const system = prepareSystem({
    size,
    elements,
    held: held.volts,
    between: held.between,
    draws: draws.filter((draw) => draw.load.figure.kind === 'watts' || draw.amps !== 0),
    piece,
  })
  const { base, rise, starved } = settlePower(system.solve, draws)
  const volts = base.map((value, node) => value + (rise[node] ?? 0))
  const amps = new Float64Array(loom.links.length)
  for (const element of elements) {
    if (!element.link) continue
    const across = (rise[element.a] ?? 0) - (rise[element.b] ?? 0) - (element.offset ?? 0)
    amps[element.link.index] = standing.has(piece(element.a)) ? across / element.ohms : 0
  }
  return { volts, amps, elements, draws, starved, held }
}

/** Pieces with a voltage of their own: those with a held node or a source against zero. */
function standingPieces(held: Held, piece: (node: number) => number): Set<number> {
  const standing = new Set([...held.volts.keys()].map(piece))
  for (const source of held.between)
    if (againstZero(source, held.volts)) standing.add(piece(source.terminal.index))
  return standing
}

/**
 * Constant-power loads by repeated substitution: each round draws P over the volts of the round before. From the
 * unloaded volts this falls steadily onto the working point, or, where the feed cannot deliver the power, through it.
 */
function settlePower(solve: ReturnType<typeof prepareSystem>['solve'], draws: Solved['draws']) {
  const powered = draws.filter((draw) => draw.load.figure.kind === 'watts')
  let now = solve()
  const starved = new Set<FedLoad>()
  const voltsAt = (draw: Draw): number =>
    (now.base[draw.from] ?? 0) -
    (now.base[draw.to] ?? 0) +
    (now.rise[draw.from] ?? 0) -
    (now.rise[draw.to] ?? 0)
  const open = powered.map(voltsAt)
  for (let round = 0; round < MOST_POWER_ROUNDS && powered.length > starved.size; round++) {
    let change = 0
    powered.forEach((draw, index) => {
      const { figure } = draw.load
      if (figure.kind !== 'watts' || starved.has(draw.load)) return
      const volts = voltsAt(draw)
      const fallen = !(volts > 0.05 * Math.abs(open[index] ?? 0))
      if (fallen) starved.add(draw.load)
      const amps = fallen ? 0 : figure.watts / volts
      change = Math.max(change, Math.abs(amps - draw.amps) / Math.max(amps, 1e-12))
      draw.amps = amps
    })
    now = solve()
    if (change < 1e-13) break
    if (round === MOST_POWER_ROUNDS - 1 && change > 1e-9) for (const draw of powered) starved.add(draw.load)
  }
  return { ...now, starved: [...starved] }
}
