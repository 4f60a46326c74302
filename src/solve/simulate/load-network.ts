import type { Link, Loom } from '../../resolve/loom.ts'
import { DIODE_OHMS, type Element, elementsIn } from '../dc-elements.ts'
import { prepareNodal } from '../nodal.ts'
import { returnPin } from '../return-pin.ts'
import type { Solution, StateSolution } from '../solution.ts'

/** A conductor of unknown size or length is reckoned with this, so that it neither stops current nor draws it all. */
const UNKNOWN_OHMS = 0.01
const DIODE_ROUNDS = 6

/** The volts and amps of a loom in which something has been opened. */
export interface Opened {
  /** By terminal index; NaN where it floats. */
  readonly volts: Float64Array
  /** Amps of a link from a to b; 0 where it is open or floats. */
  amps(link: Link): number
}

/**
 * The network of one state with each load as the resistance it shows at work, so that any link may be opened and current
 * finds its own way. Sources stand at the volts they had with everything whole.
 */
export function loadNetwork(
  loom: Loom,
  solution: Solution,
  state: StateSolution,
): { open(links: ReadonlySet<Link>): Opened } {
  const size = loom.terminals.length
  const elements = elementsIn(loom, solution.linkOhms, state.state, new Set())
  const loads = state.loads.flatMap((load): Element[] => {
    if (!load.back || !(load.amps > 0) || !(load.volts > 0)) return []
    return [{ a: load.terminal.index, b: load.back.index, ohms: load.volts / load.amps }]
  })
  const diodes = loom.links.filter((link) => link.kind === 'diode')
  const { isFixed, fixed } = heldNodes(loom, state)
  const solveWith = (list: readonly Element[]): Float64Array =>
    prepareNodal(
      size,
      {
        a: list.map((element) => element.a),
        b: list.map((element) => element.b),
        siemens: list.map(({ ohms, unknown }) => 1 / (unknown ? UNKNOWN_OHMS : ohms)),
      },
      isFixed,
    ).solve(new Float64Array(size), fixed)
  return {
    open: (links) => {
      const whole = elements.filter(({ link }) => !link || !links.has(link))
      const byLink = new Map(whole.flatMap((element) => (element.link ? [[element.link, element]] : [])))
      const on = new Set<Link>()
      let volts = solveWith([...whole, ...loads])
      for (let round = 0; round < DIODE_ROUNDS; round++) {
        const changed = diodes.filter(
          (link) => !links.has(link) && conducts(link, volts, on) !== on.has(link),
        )
        if (changed.length === 0) break
        for (const link of changed) if (!on.delete(link)) on.add(link)
        volts = solveWith([...whole, ...loads, ...[...on].map(asElement)])
      }
      return {
        volts,
        amps: (link) => {
          const element = byLink.get(link) ?? (on.has(link) ? asElement(link) : undefined)
          const across = (volts[link.a.index] ?? Number.NaN) - (volts[link.b.index] ?? Number.NaN)
          return element && !Number.isNaN(across)
            ? across / (element.unknown ? UNKNOWN_OHMS : element.ohms)
            : 0
        },
      }
    },
  }
}

const asElement = (link: Link): Element => ({ a: link.a.index, b: link.b.index, ohms: DIODE_OHMS, link })

function conducts(link: Link, volts: Float64Array, on: ReadonlySet<Link>): boolean {
  const [a, k] = [volts[link.a.index] ?? Number.NaN, volts[link.b.index] ?? Number.NaN]
  if (on.has(link)) return a >= k
  return Number.isNaN(k) ? a > 0.7 : a - k > 0.7
}

/** Source pins and their returns, at the volts of the whole network; body metal that is the battery's negative. */
function heldNodes(loom: Loom, state: StateSolution): { isFixed: Uint8Array; fixed: Float64Array } {
  const isFixed = new Uint8Array(loom.terminals.length)
  const fixed = new Float64Array(loom.terminals.length)
  const hold = (index: number): void => {
    const volts = state.volts[index] ?? Number.NaN
    if (Number.isNaN(volts)) return
    isFixed[index] = 1
    fixed[index] = volts
  }
  for (const { terminal } of state.sources) {
    hold(terminal.index)
    const back = returnPin(terminal)
    if (back) hold(back.index)
  }
  for (const unit of loom.units) {
    if (unit.equipment.role !== 'chassis') continue
    for (const half of unit.halves)
      for (const pin of half.pins.values())
        if (pin.does.kind === 'chassis' && state.volts[pin.index] === 0) hold(pin.index)
  }
  return { isFixed, fixed }
}

/** Trials a loom of this size may cost: each solves the whole network anew. */
export const mostTrials = (terminals: number): number =>
  Math.max(6, Math.min(64, Math.floor(120_000 / Math.max(terminals, 1))))

/** The state with the greatest total current. */
export function heaviestState(solution: Solution): StateSolution | undefined {
  const total = (state: StateSolution): number =>
    state.sources.reduce((sum, source) => sum + (Number.isNaN(source.amps) ? 0 : Math.abs(source.amps)), 0)
  return solution.states.reduce<StateSolution | undefined>(
    (most, next) => (most && total(most) >= total(next) ? most : next),
    undefined,
  )
}
