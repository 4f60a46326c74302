import { formatArea } from '../../base/format-quantity.ts'
import type { Conductor, LoomUse } from '../../resolve/loom.ts'
import { twoLoads } from '../examples/two-loads.ts'
import { found, listOf, unknown } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const LONE_MM2 = 1
const SHEATHED_MM2 = 0.75
/** 18 AWG is sold for 0.75 mm² and 16 AWG for more than 1 mm²; rounding of a stated area is no fault. */
const SLACK = 0.99

const isSheathed = ({ source }: Conductor): boolean => 'sheathed' in source && source.sheathed === true
const leastMm2 = (wire: Conductor): number => (isSheathed(wire) ? SHEATHED_MM2 : LONE_MM2)

function report(wires: readonly Conductor[]): Outcome {
  const [first] = wires as [Conductor, ...Conductor[]]
  return found({
    subject: first.address,
    what: `${listOf(wires.map((wire) => `${wire.id} ${formatArea(wire.size?.areaMm2 ?? 0)}`))} ${wires.length > 1 ? 'are' : 'is'} too thin for a single wire afloat (limit ${formatArea(leastMm2(first))})`,
    why: `A single wire on a boat is at least ${formatArea(LONE_MM2)}, or ${formatArea(SHEATHED_MM2)} where it lies in a sheath: thinner ones break from vibration and corrode through.`,
    fix: `${listOf(wires.map(({ id }) => id))} to ${formatArea(leastMm2(first))} or more, or as cores of a cable.`,
    facts: {
      thinnest: { value: Math.min(...wires.map(({ size }) => size?.areaMm2 ?? 0)), unit: 'mm²' },
      limit: { value: leastMm2(first), unit: 'mm²' },
    },
    at: first.at,
    marks: wires.map(({ address }) => address),
  })
}

export const thinWireAfloat: Rule = {
  id: 'thin-wire-afloat',
  title: 'Single wires afloat are thick enough to last',
  family: 'power',
  level: 'warning',
  covers: ['W24'],
  reason:
    'What carries the current does not always last: on a boat thin single wires break at the crimp and rot behind it.',
  remedy: 'At least 1 mm², or 0.75 mm² in a sheath; or a cable.',
  needs: 'sizes of the wires, and whether they are sheathed',
  sources: ['ISO 10133 §7.7 (from memory)', 'ABYC E-11: 16 AWG, 18 AWG in a sheath (from memory)'],
  examples: { trips: twoLoads('25 mm²', '0.5 mm²'), passes: twoLoads('25 mm²') },
  *check({ loom }) {
    if (loom.setting !== 'boat') return
    const thin = new Map<LoomUse, Conductor[]>()
    for (const wire of loom.conductors) {
      if (wire.kind !== 'wire') continue
      if (!wire.size) yield unknown(wire.address, `needs the size of ${wire.id}`, wire.at)
      else if (wire.size.areaMm2 < leastMm2(wire) * SLACK)
        thin.set(wire.loom, [...(thin.get(wire.loom) ?? []), wire])
    }
    for (const wires of thin.values()) yield report(wires)
  },
}
