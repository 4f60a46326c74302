import type { Loom, Terminal } from '../resolve/loom.ts'
import type { Bench } from './bench.ts'
import { landingsAt, landingsOf } from './landings.ts'
import { pinName } from './names.ts'
import { probeOf } from './probe-points.ts'
import { OPEN, OPEN_LIMIT } from './ring-out-opens.ts'
import type { Step } from './ring-out-step.ts'

/** A step for each wired pin that no other step touches: its wire reaches nothing a probe can, so it must be open to all. */
export function loneSteps(loom: Loom, bench: Bench, others: readonly Step[]): Step[] {
  const touched = new Set(others.flatMap(({ probes }) => [...(probes?.a ?? []), ...(probes?.b ?? [])]))
  const landings = landingsOf(loom, bench.use)
  const pins = bench.use.halves.flatMap((half) => [...half.pins.values()])
  return pins
    .filter((pin) => landingsAt(landings, pin).length > 0 && !touched.has(pin))
    .map((pin) => loneStep(bench, pin))
}

function loneStep(bench: Bench, pin: Terminal): Step {
  const own = bench.pieceOf.get(pin.index)
  const rest = bench.pieces.filter((piece) => piece !== own && piece.links.length > 0).map(probeOf)
  const names = rest.flatMap((terminal) => (terminal?.half ? [pinName(terminal)] : []))
  return {
    a: pinName(pin),
    b: names.length === 0 ? 'every other pin' : names.join(', '),
    through: 'leads nowhere that a probe can reach',
    expect: OPEN,
    address: pin.address,
    attention: true,
    probes: { a: [pin], b: rest.filter((terminal) => terminal?.half !== undefined) as Terminal[] },
    limit: OPEN_LIMIT,
  }
}
