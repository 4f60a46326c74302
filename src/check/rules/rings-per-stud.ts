import type { DocumentInput } from '../../describe/document.ts'
import type { Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import { exampleLead, unitOf } from '../examples/parts.ts'
import { count, found, listOf } from '../outcome.ts'
import { landings, matedPins } from '../queries/landings.ts'
import type { Outcome, Rule } from '../rule.ts'

/** One bar with a stud, and as many rings on it as asked for. */
function example(rings: number): DocumentInput {
  const names = Array.from({ length: rings }, (_, index) => `R${index + 1}`)
  return exampleLead({
    parts: [
      {
        kind: 'connector',
        id: 'stud-example',
        title: 'Stud M6',
        style: 'stud',
        pins: ['1'],
        genderless: true,
        manyWires: true,
        matesWith: ['ring-example'],
        studMm: 6,
      },
      {
        kind: 'connector',
        id: 'ring-example',
        title: 'Ring terminal for M6',
        style: 'ring',
        pins: ['1'],
        genderless: true,
        matesWith: ['stud-example'],
        studMm: 6,
      },
    ],
    equipment: [unitOf('bar', { id: 'S1', family: 'stud-example', pins: { '1': { kind: 'chassis' } } })],
    harness: {
      connectors: names.map((id) => ({ id, family: 'ring-example', fits: 'bar.S1' })),
      splices: [{ id: 'SP1' }],
      wires: names.map((id) => ({ id: `A${id}`, from: `${id}.1`, to: 'SP1', size: '1.5 mm²' })),
    },
  })
}

/** ABYC E-11 allows four conductors on a terminal stud, as reported; small screws hold fewer. */
const MOST_RINGS = 4
/** A ring this much wider than its stud is of the next thread up. */
const LOOSE_MM = 1.6

interface Stack {
  readonly rings: number
  readonly wires: readonly Conductor[]
  readonly tops: readonly Terminal[]
}

/** Rings on one stud: each mated ring, and each wire of a loom that is drawn as landing on the stud itself. */
function stackOn(loom: Loom, stud: Terminal, wired: ReadonlyMap<Terminal, readonly Conductor[]>): Stack {
  const tops = matedPins(loom, stud)
  const wires = [stud, ...tops].flatMap((terminal) => wired.get(terminal) ?? [])
  const rings = [stud, ...tops].reduce((sum, terminal) => {
    const own = wired.get(terminal)?.length ?? 0
    if (terminal === stud) return sum + own
    return sum + (terminal.half?.family?.manyWires ? Math.max(1, own) : 1)
  }, 0)
  return { rings, wires, tops }
}

function tooMany(stud: Terminal, { rings, wires }: Stack): Outcome {
  return found({
    subject: stud.address,
    what: `${count(rings, 'ring')} on the stud ${stud.address} (limit ${MOST_RINGS})`,
    why: `${listOf(
      wires.map((wire) => wire.id),
      12,
    )}: the stack presses on its top rings only, and a nut on a tall stack works loose.`,
    fix: `Put ${rings - MOST_RINGS} of them on another stud or on a bar.`,
    facts: { rings: { value: rings }, limit: { value: MOST_RINGS } },
    at: wires[MOST_RINGS]?.at ?? stud.at,
    marks: [stud.address, ...wires.map((wire) => wire.address)],
  })
}

function wrongHole(stud: Terminal, ring: Terminal, studMm: number, holeMm: number): Outcome {
  return found({
    subject: ring.address,
    what: `The ring ${ring.half?.address ?? ring.address} has a ${holeMm} mm hole and goes on a ${studMm} mm stud`,
    why:
      holeMm < studMm
        ? 'It does not go over the thread; a ring that is drilled out has too little metal left.'
        : 'A loose ring touches on one edge, and heats there.',
    fix: `Use a ring for ${studMm} mm.`,
    facts: { hole: { value: holeMm, unit: 'mm' }, stud: { value: studMm, unit: 'mm' } },
    at: ring.half?.at ?? ring.at,
    marks: [stud.address, ring.address],
  })
}

export const ringsPerStud: Rule = {
  id: 'rings-per-stud',
  title: 'A stud carries at most four rings, of its own size',
  family: 'crimping',
  level: 'warning',
  covers: ['C8'],
  reason:
    'Each ring more on a stud makes the joint softer and the clamping of the lowest worse. The joint warms, the nut settles, and the circuit with the highest current fails first.',
  remedy: 'Spread the rings over several studs, or fit a bar.',
  needs: 'which rings land on which stud',
  sources: ['ABYC E-11, as reported', 'FAA AC 43.13-1B ¶11-174b', 'van body manual §4.1.5, as reported'],
  examples: { trips: example(5), passes: example(4) },
  *check({ loom }) {
    const wired = landings(loom)
    for (const half of loom.halves) {
      if (half.side !== 'equipment' || half.family?.style !== 'stud') continue
      for (const stud of half.pins.values()) {
        const stack = stackOn(loom, stud, wired)
        if (stack.rings > MOST_RINGS) yield tooMany(stud, stack)
        const { studMm } = half.family
        for (const ring of stack.tops) {
          const holeMm = ring.half?.family?.style === 'ring' ? ring.half.family.studMm : undefined
          if (studMm === undefined || holeMm === undefined) continue
          if (holeMm < studMm || holeMm > studMm + LOOSE_MM) yield wrongHole(stud, ring, studMm, holeMm)
        }
      }
    }
  },
}
