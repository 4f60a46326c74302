import { formatFarads, formatOhms } from '../base/format-quantity.ts'
import type { Link, Loom } from '../resolve/loom.ts'
import type { Bench } from './bench.ts'
import { effectiveOhms } from './effective-ohms.ts'
import { pinName } from './names.ts'
import { probeOf } from './probe-points.ts'
import type { Step } from './ring-out-step.ts'

/** Tolerance printed for a resistor or coil: its own and the meter's. */
const PART_SHARE = 0.1

/** Steps for the diodes, resistors, coils and capacitors of a loom, each between the nearest points a probe can reach. */
export function partSteps(loom: Loom, bench: Bench): Step[] {
  return bench.parts.flatMap((link) => {
    const [pieceA, pieceB] = [bench.pieceOf.get(link.a.index), bench.pieceOf.get(link.b.index)]
    const [probeA, probeB] = [pieceA && probeOf(pieceA), pieceB && probeOf(pieceB)]
    if (!probeA || !probeB) return []
    const common = {
      a: pinName(probeA),
      b: pinName(probeB),
      through: link.component?.id ?? '',
      address: link.component?.address,
      probes: { a: [probeA], b: [probeB] },
    }
    return expectations(bench, link).map((expect) => ({ ...common, ...expect }))
  })
}

type Expectation = Pick<Step, 'expect' | 'nominal' | 'attention' | 'limit'>

function expectations(bench: Bench, link: Link): Expectation[] {
  const source = link.component?.source
  switch (link.kind) {
    case 'diode':
      return [
        { expect: 'red lead on A: conducts, about 0.6 V on the diode range', nominal: 'anode at A' },
        { expect: 'red lead on B: open', nominal: 'cathode at B' },
      ]
    case 'resistor':
    case 'coil':
      return [onceFitted(link, resistance(bench, link))]
    case 'capacitor':
      return [
        {
          expect: 'open at DC once charged',
          nominal:
            source?.kind === 'capacitor' && source.farads !== undefined ? formatFarads(source.farads) : '',
        },
      ]
    case 'switch':
      return [{ expect: 'open at rest, closed when worked' }]
    default:
      return []
  }
}

/** The rest of the sheet is measured with relays out of their sockets. */
function onceFitted(link: Link, expectation: Expectation): Expectation {
  if (link.component?.source.kind !== 'relay') return expectation
  return { ...expectation, expect: `relay plugged in: ${expectation.expect}` }
}

/** What a meter reads across a resistor or coil where it sits: others across the same two nets count too. */
function resistance(bench: Bench, link: Link): Expectation {
  const node = (index: number) => bench.pieceOf.get(index)?.index ?? -1
  const resistive = bench.parts.filter((part) => part.kind === 'resistor' || part.kind === 'coil')
  const known = resistive.flatMap((part) =>
    part.ohms === undefined ? [] : [{ a: node(part.a.index), b: node(part.b.index), ohms: part.ohms }],
  )
  const ohms =
    link.ohms === undefined ? undefined : effectiveOhms(known, node(link.a.index), node(link.b.index))
  if (ohms === undefined) return { expect: 'a steady reading', nominal: 'value missing', attention: true }
  const parallel = Math.abs(ohms - (link.ohms ?? ohms)) > 1e-6 * ohms ? ', parts in parallel counted' : ''
  return {
    expect: `${formatOhms(ohms * (1 - PART_SHARE))} to ${formatOhms(ohms * (1 + PART_SHARE))}`,
    nominal: `${formatOhms(ohms)}${parallel}`,
    limit: { minOhms: ohms * (1 - PART_SHARE), maxOhms: ohms * (1 + PART_SHARE) },
  }
}
