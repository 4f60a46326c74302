import { formatLength, formatPercent } from '../../base/format-quantity.ts'
import type { Pointer } from '../../base/place.ts'
import type { HarnessConnector } from '../../describe/harness.ts'
import type { Conductor, Half } from '../../resolve/loom.ts'
import type { LaidBranch } from '../../solve/lay.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { type Bundle, bundleOf, packedMm, surelyFits } from '../queries/bundle.ts'
import { landings } from '../queries/landings.ts'
import type { Outcome, Rule, RuleContext } from '../rule.ts'

const example = (od: '3.4 mm' | '2.4 mm') =>
  wired({
    units: {
      box: { pins: { '1': { name: 'A' }, '2': { name: 'B' }, '3': { name: 'C' } } },
      panel: { pins: { '1': { name: 'A' }, '2': { name: 'B' }, '3': { name: 'C' } } },
    },
    parts: [{ kind: 'wire', id: 'hook-up', title: 'Example wire', size: '1.5 mm²', od }],
    runs: [1, 2, 3].map(
      (pin) => [`box.${pin}`, `panel.${pin}`, { size: '1.5 mm²', part: 'hook-up' }] as const,
    ),
    harness: {
      branches: [
        { from: 'P1', to: 'P2', length: '0.9 m', marks: [{ kind: 'grommet', at: '400 mm', bore: '7 mm' }] },
      ],
    },
  })

interface Opening {
  readonly address: string
  /** "the grommet at 400 mm of P1-P2" */
  readonly name: string
  readonly boreMm: number
  /** Ties in a sleeve need room to slide: it is judged by fill; a hole by diameter. */
  readonly sleeve: boolean
  readonly conductors: readonly Conductor[]
  readonly at: Pointer
}

/** Share of a sleeve's or conduit's section that may be filled by one, two, or more: NFPA 70 chapter 9 table 1. */
const fillLimit = (count: number): number => (count === 1 ? 0.53 : count === 2 ? 0.31 : 0.4)

function* openingsOfBranch(branch: LaidBranch): Iterable<Opening> {
  for (const mark of branch.source.marks ?? []) {
    if (mark.bore === undefined) continue
    yield {
      address: branch.address,
      name: `the ${mark.kind} at ${formatLength(mark.at)} of ${branch.address}`,
      boreMm: mark.bore,
      sleeve: mark.kind === 'sleeve',
      conductors: branch.conductors,
      at: branch.at,
    }
  }
}

function boreOf(half: Half): number | undefined {
  return half.side === 'harness' ? ((half.source as HarnessConnector).bore ?? half.family?.bore) : undefined
}

/** A wire no longer than this ends inside the hood, at a resistor or another pin. */
const INSIDE_HOOD_MM = 50

function* openings({ loom, paths }: RuleContext): Iterable<Opening> {
  const byHalf = new Map<Half, Conductor[]>()
  for (const [pin, wires] of landings(loom)) {
    if (pin.half?.side !== 'harness') continue
    const through = wires.filter(({ lengthMm }) => lengthMm === undefined || lengthMm > INSIDE_HOOD_MM)
    byHalf.set(pin.half, [...(byHalf.get(pin.half) ?? []), ...through])
  }
  for (const [half, conductors] of byHalf) {
    const boreMm = boreOf(half)
    if (boreMm === undefined) continue
    yield {
      address: half.address,
      name: `the cable entry of ${half.address}`,
      boreMm,
      sleeve: false,
      conductors,
      at: half.at,
    }
  }
  for (const use of loom.looms)
    for (const branch of paths.lay(use)?.branches ?? []) yield* openingsOfBranch(branch)
}

function tooThick(opening: Opening, bundle: Bundle, bundleMm: number): Outcome {
  return found({
    subject: opening.address,
    what: `The bundle through ${opening.name} is ${formatLength(round(bundleMm))} thick (bore ${formatLength(opening.boreMm)})`,
    why: `${listOf(bundle.names)}, packed as tightly as they go: ${sizes(bundle.diametersMm)} make ${formatLength(round(bundleMm))}.`,
    fix: `Take one with a bore of ${formatLength(Math.ceil(bundleMm))} or more, or split the bundle.`,
    facts: {
      bundle: { value: round(bundleMm), unit: 'mm' },
      bore: { value: opening.boreMm, unit: 'mm' },
      members: { value: bundle.names.length },
    },
    at: opening.at,
    marks: opening.conductors.map(({ address }) => address),
  })
}

function tooFull(opening: Opening, bundle: Bundle, fill: number, limit: number): Outcome {
  const needMm = Math.sqrt((fill * opening.boreMm ** 2) / limit)
  return found({
    subject: opening.address,
    what: `The bundle fills ${formatPercent(fill)} of ${opening.name} (limit ${formatPercent(limit)})`,
    why: `${sizes(bundle.diametersMm)} over a bore of ${formatLength(opening.boreMm)}: Σd² ÷ D² = ${formatPercent(fill)}. Fuller, nothing can be drawn through, and heat stays in.`,
    fix: `Take a sleeve of ${formatLength(Math.ceil(needMm))} or more.`,
    facts: {
      fill: { value: fill },
      limit: { value: limit },
      bore: { value: opening.boreMm, unit: 'mm' },
    },
    at: opening.at,
    marks: opening.conductors.map(({ address }) => address),
  })
}

const round = (mm: number): number => Math.round(mm * 10) / 10

/** `6 mm, 6 × 1.6 mm`. */
function sizes(diametersMm: readonly number[]): string {
  const counts = new Map<number, number>()
  for (const mm of [...diametersMm].sort((a, b) => b - a)) counts.set(mm, (counts.get(mm) ?? 0) + 1)
  return [...counts].map(([mm, times]) => `${times > 1 ? `${times} × ` : ''}${formatLength(mm)}`).join(', ')
}

function judge(
  opening: Opening,
  bundle: Bundle,
  packed: (mm: readonly number[]) => number,
): Outcome | undefined {
  const { boreMm } = opening
  const sum = bundle.diametersMm.reduce((total, mm) => total + mm * mm, 0)
  if (opening.sleeve) {
    const [fill, limit] = [sum / boreMm ** 2, fillLimit(bundle.names.length)]
    return fill > limit * 1.001 ? tooFull(opening, bundle, fill, limit) : undefined
  }
  if (surelyFits(bundle.diametersMm, boreMm)) return undefined
  const bundleMm = packed(bundle.diametersMm)
  return bundleMm > boreMm * 1.005 ? tooThick(opening, bundle, bundleMm) : undefined
}

export const bundleFits: Rule = {
  id: 'bundle-fits',
  title: 'Bundles fit the openings they go through',
  family: 'routing',
  level: 'warning',
  covers: ['M10'],
  reason:
    'A hood that will not close, a grommet that pops out, a sleeve nothing more can be drawn through: all found when the loom is made and the van is waiting.',
  remedy: 'The next size of hood, grommet or sleeve; or two bundles.',
  needs: '"bore" of hoods, grommets, glands and sleeves, and the diameters of wires and cables',
  sources: [
    'circle packing (Graham 1968 and later, for equal wires)',
    'NFPA 70 chapter 9 table 1 for the fill of sleeves, from memory',
  ],
  examples: { trips: example('3.4 mm'), passes: example('2.4 mm') },
  *check(context) {
    const known = new Map<string, number>()
    const packed = (diametersMm: readonly number[]): number => {
      const key = [...diametersMm].sort((a, b) => b - a).join(' ')
      const mm = known.get(key) ?? packedMm(diametersMm)
      known.set(key, mm)
      return mm
    }
    for (const opening of openings(context)) {
      const bundle = bundleOf(opening.conductors)
      if (bundle.names.length === 0) continue
      // What is known may be too thick already, whatever the rest adds.
      const outcome = judge(opening, bundle, packed)
      if (outcome) yield outcome
      else if (bundle.unknown.length > 0)
        yield unknown(
          opening.address,
          `needs the outside diameter of ${listOf(bundle.unknown)}, which go through ${opening.name}`,
          opening.at,
        )
    }
  },
}
