import type { Finding } from '../base/finding.ts'
import type { Conductor, Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import { adjacentPins } from './adjacent-pins.ts'
import { type Bench, onTheBench, type Piece } from './bench.ts'
import { landingsAt, landingsOf } from './landings.ts'
import { pinName } from './names.ts'
import { probesOf } from './probe-points.ts'
import type { Step } from './ring-out-step.ts'

/** What a ring-out leaves out. */
interface Gap {
  readonly what: string
  readonly why: string
  readonly address: string
}

const isOpen = ({ limit }: Step): boolean => limit?.minOhms !== undefined && limit.maxOhms === undefined

/** Every probe point of a net has to be reached from every other by steps that read closed. */
function* netGaps(bench: Bench, steps: readonly Step[]): Iterable<Gap> {
  const joined = new Map<number, Set<number>>()
  const join = (a: Terminal, b: Terminal) => {
    joined.set(a.index, (joined.get(a.index) ?? new Set()).add(b.index))
    joined.set(b.index, (joined.get(b.index) ?? new Set()).add(a.index))
  }
  for (const { probes, limit, nominal } of steps) {
    const [a, b] = [probes?.a[0], probes?.b[0]]
    if (a && b && nominal !== undefined && limit?.minOhms === undefined) join(a, b)
  }
  for (const piece of bench.pieces) {
    const probes = probesOf(piece)
    const [first] = probes
    if (!first || probes.length < 2) continue
    const met = new Set([first.index])
    for (const index of met) for (const next of joined.get(index) ?? []) met.add(next)
    for (const probe of probes.filter(({ index }) => !met.has(index)))
      yield {
        what: `no step rings ${pinName(probe)} out against ${pinName(first)}, which is the same net`,
        why: 'An open crimp there passes the ring-out.',
        address: probe.address,
      }
  }
}

const ends = ({ from, to }: Conductor): Terminal[] => [from, to].filter((end) => end !== undefined)

/** A screen that lands at one end, or at none, is looked at; one that lands at both is a net like any other. */
function* screenGaps(use: LoomUse, steps: readonly Step[]): Iterable<Gap> {
  const looked = new Set(steps.map(({ address }) => address))
  for (const shield of use.cables.flatMap(({ conductors }) =>
    conductors.filter(({ kind }) => kind === 'shield'),
  ))
    if (ends(shield).length < 2 && !looked.has(shield.address))
      yield {
        what: `no step looks at the screen ${shield.id}`,
        why: 'A screen that is landed at the wrong end, or not at all, is found on site as hum.',
        address: shield.address,
      }
}

const pairKey = (a: Piece, b: Piece): string => [a.index, b.index].sort((x, y) => x - y).join(' ')

/** Nets that some step holds apart. */
function heldApart(bench: Bench, steps: readonly Step[]): Set<string> {
  const pairs = new Set<string>()
  for (const { probes } of steps.filter(isOpen))
    for (const a of probes?.a ?? [])
      for (const b of probes?.b ?? []) {
        const [one, two] = [bench.pieceOf.get(a.index), bench.pieceOf.get(b.index)]
        if (one && two) pairs.add(pairKey(one, two))
      }
  return pairs
}

/** Pairs that a stray strand, a bad core or a wrong cavity could join: neighbours, a supply and anything, a screen and its cores. */
function* mustNotJoin(loom: Loom, bench: Bench): Iterable<readonly [Terminal, Terminal]> {
  const { use } = bench
  const landings = landingsOf(loom, use)
  const isUsed = (pin: Terminal) => landingsAt(landings, pin).length > 0
  const used = use.halves.flatMap(({ pins }) => [...pins.values()]).filter(isUsed)
  for (const half of use.halves)
    for (const [nameA, nameB] of adjacentPins(half)) {
      const [a, b] = [half.pins.get(nameA), half.pins.get(nameB)]
      if (a && b && isUsed(a) && isUsed(b)) yield [a, b]
    }
  const supplies = used.filter(({ does }) => does.kind === 'supply-in' || does.kind === 'supply-out')
  for (const supply of supplies) for (const other of used) yield [supply, other]
  for (const { conductors } of use.cables) {
    const shields = conductors.filter(({ kind }) => kind === 'shield').flatMap(ends)
    const cores = conductors.filter(({ kind }) => kind !== 'shield').flatMap(ends)
    for (const shield of shields) for (const core of cores) yield [shield, core]
  }
}

function* openGaps(loom: Loom, bench: Bench, steps: readonly Step[]): Iterable<Gap> {
  const held = heldApart(bench, steps)
  // With a component between them a meter does not read open; the component has a step of its own.
  for (const link of bench.parts) {
    const [a, b] = [bench.pieceOf.get(link.a.index), bench.pieceOf.get(link.b.index)]
    if (a && b) held.add(pairKey(a, b))
  }
  for (const [a, b] of mustNotJoin(loom, bench)) {
    const [one, two] = [bench.pieceOf.get(a.index), bench.pieceOf.get(b.index)]
    if (!one || !two || one === two || held.has(pairKey(one, two))) continue
    held.add(pairKey(one, two))
    yield {
      what: `no step holds ${pinName(a)} against ${pinName(b)}, which must not be joined`,
      why: 'A strand across the two passes the ring-out and shows when power comes on.',
      address: a.address,
    }
  }
}

/**
 * Holds a ring-out sheet against the loom: every net is rung out, every screen looked at or rung out, and every pair that
 * must not be joined is held apart. Neighbours, supplies and screens are found anew and not taken from the steps.
 */
export function auditRingOut(loom: Loom, use: LoomUse, steps: readonly Step[]): Finding[] {
  const bench = onTheBench(loom, use)
  const gaps = [...netGaps(bench, steps), ...screenGaps(use, steps), ...openGaps(loom, bench, steps)]
  return gaps.map(
    ({ what, why, address }): Finding => ({
      rule: 'ring-out-complete',
      level: 'warning',
      subject: `${loom.id}/${address}`,
      what: `The ring-out of ${use.id} has a gap: ${what}`,
      why,
      fix: 'Add the step by hand on this sheet, and report the description that does this.',
      assumed: [],
      facts: { steps: { value: steps.length } },
      at: use.at,
      notes: [],
      marks: [address],
    }),
  )
}
