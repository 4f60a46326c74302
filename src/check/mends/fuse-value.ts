import type { Edit, Finding, ValueChange } from '../../base/finding.ts'
import { formatAmps } from '../../base/format-quantity.ts'
import { below } from '../../base/place.ts'
import type { FusePart } from '../../describe/part.ts'
import type { ComponentUse } from '../../resolve/loom.ts'
import { fuseForLoad } from '../../solve/formulas/fuse-for-load.ts'
import { BLADE_FUSE_RATINGS, LARGE_BLADE_FUSE_RATINGS } from '../../solve/formulas/fuse-ratings.ts'
import { fuseRating, protectedConductors } from '../queries/protected-conductors.ts'
import type { RuleContext } from '../rule.ts'
import { type Ladder, localSubject, type Mend, markedConductors } from './mend.ts'
import { byArea, thickerLadder } from './thicker-wire.ts'

/** The fuse of a finding, if it sits in the run of a harness: what is inside equipment is not the shop's to change. */
function fuseOf(finding: Finding, { loom }: RuleContext): ComponentUse | undefined {
  const address = localSubject(finding, loom)
  return loom.components.find((each) => each.address === address && each.loom && each.source.kind === 'fuse')
}

/** Fuses that go into the same holder, rising. Without a part the holder is one of the two blade sizes, by the rating. */
function sisters({ loom }: RuleContext, fuse: ComponentUse): readonly { rating: number; part?: FusePart }[] {
  const own = fuse.fusePart
  if (!own) {
    const rating = fuseRating(fuse) ?? 0
    const series = rating > 40 ? LARGE_BLADE_FUSE_RATINGS : BLADE_FUSE_RATINGS
    return series.includes(rating) ? series.map((each) => ({ rating: each })) : []
  }
  const alike = [...loom.parts.fuses.values()].filter(
    (part) => part.style === own.style && part.volts === own.volts,
  )
  const ratings = [...new Set(alike.map(({ rating }) => rating))].sort((a, b) => a - b)
  // Two parts of one rating leave a choice, so neither is taken.
  return ratings.flatMap((rating) => {
    const [part, second] = alike.filter((each) => each.rating === rating)
    return part && !second ? [{ rating, part }] : []
  })
}

function editTo(fuse: ComponentUse, to: { rating: number; part?: FusePart }): Edit {
  const { source } = fuse
  const changes: ValueChange[] = []
  if (source.kind === 'fuse' && source.rating !== undefined)
    changes.push({ at: below(fuse.at, 'rating'), value: `${to.rating} A` })
  if (to.part) changes.push({ at: below(fuse.at, 'part'), value: to.part.id })
  return { what: `${fuse.id} to ${formatAmps(to.rating)}`, changes }
}

/** Largest share of its rating a fuse may carry, as `fuse-loaded` has it. */
const LONG_SHARE = 0.8

/** Whether every current through the fuse is known, and a fuse of that rating bears them. */
function bears({ loom, solution }: RuleContext, fuse: ComponentUse, rating: number): boolean {
  const link = loom.links.find((each) => each.component === fuse && each.kind === 'fuse')
  if (!link || solution.states.some(({ unsolved }) => unsolved.length > 0)) return false
  return solution.states.every(({ state, amps }) => {
    const flowing = Math.abs(amps[link.index] ?? Number.NaN)
    return flowing <= rating * (state.brief ? 1 : LONG_SHARE)
  })
}

/**
 * A fuse too large for its wires. Where none of them bears it and a smaller one carries the loads, the fuse is wrong. Where some
 * bear it and a smaller fuse would do as well, it is for a person to say which of the two was meant.
 */
function tooLarge(finding: Finding, context: RuleContext): readonly Ladder[] {
  const { loom, paths } = context
  const fuse = fuseOf(finding, context)
  const ampacity = finding.facts.ampacity?.value
  if (!fuse || typeof ampacity !== 'number') return []
  const guarded = protectedConductors(loom, paths).find((each) => each.fuse === fuse)
  const thin = markedConductors(finding, loom)
  const all = guarded?.conductors.filter(({ kind }) => kind !== 'shield') ?? []
  const smaller = sisters(context, fuse).findLast(
    ({ rating }) => rating * loom.settings.fuseMargin <= ampacity,
  )
  if (!smaller || !bears(context, fuse, smaller.rating)) return [thickerLadder(loom, [...thin].sort(byArea))]
  return all.every((each) => thin.includes(each)) ? [[editTo(fuse, smaller)]] : []
}

/** A fuse too small for its loads: the next one that carries them, if the wires bear it, which the trial tells. */
function tooSmall(finding: Finding, context: RuleContext): readonly Ladder[] {
  const fuse = fuseOf(finding, context)
  const amps = finding.facts.current?.value
  if (!fuse || typeof amps !== 'number') return []
  const series = sisters(context, fuse)
  const wanted = fuseForLoad(
    amps,
    series.map(({ rating }) => rating),
  )
  const next = series.find(({ rating }) => rating === wanted)
  return next ? [[editTo(fuse, next)]] : []
}

export const fuseValue: Mend = {
  id: 'fuse-value',
  rules: ['fuse-protects-wire', 'fuse-loaded'],
  propose: (finding, context) =>
    finding.rule === 'fuse-loaded' ? tooSmall(finding, context) : tooLarge(finding, context),
}
