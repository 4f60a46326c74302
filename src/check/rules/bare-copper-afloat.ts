import type { Conductor, LoomUse } from '../../resolve/loom.ts'
import { twoLoads } from '../examples/two-loads.ts'
import { found, listOf, unknown } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (tinned: boolean) => {
  const data = twoLoads('25 mm²')
  return {
    ...data,
    parts: [
      ...(data.parts ?? []),
      { kind: 'wire' as const, id: 'flex', title: 'Flexible wire, 105 °C', class: '105 °C' as const, tinned },
    ],
    harnesses: (data.harnesses ?? []).map((harness) => ({
      ...harness,
      wires: (harness.wires ?? []).map((wire) => ({ ...wire, part: 'flex' as const })),
    })),
  }
}

/** Wires of one kind in one loom: one thing to order anew. */
interface Group {
  readonly loom: LoomUse
  readonly part: string
  readonly title: string
  readonly wires: Conductor[]
  readonly tinned: boolean | undefined
}

/** Single wires only: what is inside the jacket of a cable is seldom chosen, and its ends are moulded or sealed. */
function groups(conductors: readonly Conductor[]): Iterable<Group> {
  const byPart = new Map<string, Group>()
  for (const wire of conductors) {
    if (wire.kind !== 'wire' || !wire.wirePart) continue
    const { id, title, tinned } = wire.wirePart
    const key = `${wire.loom.id} ${id}`
    const group = byPart.get(key) ?? { loom: wire.loom, part: id, title, wires: [], tinned }
    group.wires.push(wire)
    byPart.set(key, group)
  }
  return byPart.values()
}

function report({ loom, part, title, wires }: Group): Outcome {
  const [first] = wires as [Conductor, ...Conductor[]]
  return found({
    subject: first.address,
    what: `${wires.length} wires of ${loom.id} have strands of bare copper: ${title}`,
    why: `${listOf(wires.map(({ id }) => id))}: salt air creeps along bare strands under the insulation; the joint gets resistance and breaks, a hand’s breadth behind the crimp.`,
    fix: 'Order tinned wire of the same size.',
    facts: { wires: { value: wires.length }, part: { value: part } },
    at: first.at,
    marks: wires.map(({ address }) => address),
  })
}

export const bareCopperAfloat: Rule = {
  id: 'bare-copper-afloat',
  title: 'Wires afloat have tinned strands',
  family: 'crimping',
  level: 'warning',
  covers: ['C9'],
  reason:
    'Bare copper that looks like boat cable turns black inside within two seasons. The fault is a voltage that is there without a load and gone with one.',
  remedy: 'Tinned wire, and sealed crimps.',
  needs: 'the wires used and whether they are tinned',
  sources: ['common marine practice', 'ABYC E-11 (from memory)'],
  examples: { trips: example(false), passes: example(true) },
  *check({ loom }) {
    if (loom.setting !== 'boat') return
    for (const group of groups(loom.conductors)) {
      if (group.tinned === false) yield report(group)
      else if (group.tinned === undefined)
        yield unknown(
          group.wires[0]?.address ?? group.loom.id,
          `needs whether ${group.part} is tinned`,
          group.wires[0]?.at,
        )
    }
  },
}
