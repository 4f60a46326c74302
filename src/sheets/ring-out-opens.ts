import type { Half, Loom, Terminal } from '../resolve/loom.ts'
import { adjacentPins } from './adjacent-pins.ts'
import type { Bench, Piece } from './bench.ts'
import { groupBy } from './group-by.ts'
import { landingsAt, landingsOf } from './landings.ts'
import { halfName, pinName, pinNames } from './names.ts'
import { probeOf } from './probe-points.ts'
import type { Step } from './ring-out-step.ts'

export const OPEN = 'open, >1 MΩ'
export const OPEN_LIMIT = { minOhms: 1e6 }

/**
 * Everything that must not be joined: neighbours on each face, each supply to every other net, each screen to the cores
 * under it, and cavities that must be empty.
 */
export function openSteps(loom: Loom, bench: Bench): Step[] {
  const joined = joinedByParts(bench)
  const context = { loom, bench, joined, used: usedPins(loom, bench), supplies: new Set(suppliesOf(bench)) }
  return [
    ...neighbourSteps(context),
    ...supplySteps(context),
    ...screenSteps(context),
    ...bench.use.halves.flatMap((half) => emptyStep(context, half)),
  ]
}

interface Context {
  readonly loom: Loom
  readonly bench: Bench
  /** Pairs of pieces with a component between them, which a meter does not see as open. */
  readonly joined: ReadonlySet<string>
  readonly used: ReadonlySet<Terminal>
  readonly supplies: ReadonlySet<Piece>
}

const pairKey = (a: Piece, b: Piece): string => `${Math.min(a.index, b.index)} ${Math.max(a.index, b.index)}`

function joinedByParts(bench: Bench): Set<string> {
  const keys = bench.parts.flatMap((link) => {
    const [a, b] = [bench.pieceOf.get(link.a.index), bench.pieceOf.get(link.b.index)]
    return a && b ? [pairKey(a, b)] : []
  })
  return new Set(keys)
}

function usedPins(loom: Loom, bench: Bench): Set<Terminal> {
  const landings = landingsOf(loom, bench.use)
  const pins = bench.use.halves.flatMap((half) => [...half.pins.values()])
  return new Set(pins.filter((pin) => landingsAt(landings, pin).length > 0))
}

/** Whether two pins belong to different metal with nothing between them. */
function apart({ bench, joined }: Context, a: Terminal, b: Terminal): boolean {
  const [pieceA, pieceB] = [bench.pieceOf.get(a.index), bench.pieceOf.get(b.index)]
  return (
    pieceA !== undefined && pieceB !== undefined && pieceA !== pieceB && !joined.has(pairKey(pieceA, pieceB))
  )
}

/**
 * Neighbours on each face, each pair of nets once, at the first plug where they meet. Neighbours of a supply are left to the
 * supply's own steps, which touch every net.
 */
function neighbourSteps(context: Context): Step[] {
  const { bench, used, supplies } = context
  const done = new Set<string>()
  return bench.use.halves.flatMap((half) =>
    adjacentPins(half).flatMap(([nameA, nameB]) => {
      const [a, b] = [half.pins.get(nameA), half.pins.get(nameB)]
      if (!a || !b || !used.has(a) || !used.has(b) || !apart(context, a, b)) return []
      const [pieceA, pieceB] = [bench.pieceOf.get(a.index), bench.pieceOf.get(b.index)]
      if (!pieceA || !pieceB || supplies.has(pieceA) || supplies.has(pieceB)) return []
      const key = pairKey(pieceA, pieceB)
      if (done.has(key)) return []
      done.add(key)
      return [
        {
          a: pinName(a),
          b: pinName(b),
          through: 'neighbours on the face',
          expect: OPEN,
          address: a.address,
          probes: { a: [a], b: [b] },
          limit: OPEN_LIMIT,
        },
      ]
    }),
  )
}

/** Pins of one half as `P2-1, 3, 5`. */
function pinList(half: Half, pins: readonly Terminal[]): string {
  if (half.pins.size === 1) return halfName(half)
  return `${halfName(half)}-${pinNames(pins)}`
}

const isSupply = (terminal: Terminal): boolean =>
  terminal.does.kind === 'supply-in' || terminal.does.kind === 'supply-out'

/** Metal that carries a supply. */
const suppliesOf = (bench: Bench): Piece[] => bench.pieces.filter((piece) => piece.terminals.some(isSupply))

/**
 * For each supply, one step for all single ends and one for each plug: every net once, by its first pin. Two supplies are
 * held against each other once.
 */
function supplySteps(context: Context): Step[] {
  const { bench } = context
  const done = new Set<Piece>()
  return suppliesOf(bench).flatMap((piece) => {
    const from = probeOf(piece)
    done.add(piece)
    if (!from) return []
    const others = [...context.used].filter((pin) => {
      const other = bench.pieceOf.get(pin.index)
      return other !== undefined && !done.has(other) && apart(context, from, pin)
    })
    const firsts = [...groupBy(others, (pin) => bench.pieceOf.get(pin.index)).values()].flatMap(([pin]) =>
      pin?.half ? [pin] : [],
    )
    const byHalf = groupBy(firsts, (pin) => pin.half)
    const lists = [...byHalf].flatMap(([half, pins]) =>
      half
        ? [
            {
              single: half.pins.size === 1,
              pins,
              text: pinList(half, pins),
            },
          ]
        : [],
    )
    const single = lists.filter((list) => list.single)
    const plugs = lists.filter((list) => !list.single)
    const step = (to: typeof lists): Step => ({
      a: pinName(from),
      b: to.map((list) => list.text).join(', '),
      through: 'supply to every other net',
      expect: OPEN,
      probes: { a: [from], b: to.flatMap((list) => list.pins) },
      limit: OPEN_LIMIT,
    })
    return [...(single.length > 0 ? [step(single)] : []), ...plugs.map((list) => step([list]))]
  })
}

function screenSteps(context: Context): Step[] {
  const { bench } = context
  return bench.use.cables.flatMap((cable) => {
    const shields = cable.conductors.filter((conductor) => conductor.kind === 'shield')
    const cores = cable.conductors.filter((conductor) => conductor.kind !== 'shield')
    return shields.flatMap((shield) => {
      const from = shield.from ?? shield.to
      const ends = cores.map((core) => core.from ?? core.to).filter((end) => end !== undefined)
      const others = from === undefined ? [] : ends.filter((end) => apart(context, from, end))
      if (from === undefined || others.length === 0) return []
      const names = [...new Set(others.map(pinName))]
      return [
        {
          a: pinName(from),
          b: names.join(', '),
          through: `screen of ${cable.id} to its cores`,
          expect: OPEN,
          probes: { a: [from], b: [...new Set(others)] },
          limit: OPEN_LIMIT,
        },
      ]
    })
  })
}

/** One step for all empty cavities of a half: nothing may be found in them. */
function emptyStep(context: Context, half: Half): Step[] {
  const empty = [...half.pins.values()].filter((pin) => !context.used.has(pin))
  if (empty.length === 0 || half.pins.size === 1) return []
  const shell = half.pins.has('shell') ? ' and the shell' : ''
  return [
    {
      a: pinList(half, empty),
      b: `every neighbour${shell}`,
      through: 'unused positions',
      expect: OPEN,
      address: half.address,
      probes: { a: empty, b: [] },
      limit: OPEN_LIMIT,
    },
  ]
}
