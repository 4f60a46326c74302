import { colourLabel } from '../base/colour.ts'
import { formatLength } from '../base/format-quantity.ts'
import { naturalOrder } from '../base/natural-order.ts'
import { below } from '../base/place.ts'
import { bothSizes } from '../base/wire-size.ts'
import type { Conductor } from '../resolve/loom.ts'
import type { Move, ThingChange, ThingKind, ValueChange } from './changes.ts'
import { valueChanges } from './field-values.ts'
import { conductorsOf, type HarnessMatch, throughRenames } from './match-harness.ts'
import { conductorFacts, endName, endsText } from './names.ts'
import type { PlacedHarness } from './revision.ts'
import { altered, byName, isThere, oneSided } from './thing-change.ts'

/** A harness in both revisions, and which thing is which. */
export interface Sides {
  readonly before: PlacedHarness
  readonly after: PlacedHarness
  readonly match: HarnessMatch
}

/** An end in words: that of the terminal, or as it was written where it leads nowhere. */
function endWords(conductor: Conductor, which: 'from' | 'to'): string | undefined {
  const terminal = conductor[which]
  if (terminal) return endName(terminal)
  const stated = conductor.source[which]
  return stated === undefined ? undefined : `${stated} (leads nowhere)`
}

/** Ends that land elsewhere. Which end is written first makes no difference. */
function movesOf(
  { match }: Sides,
  before: Conductor,
  after: Conductor,
): { moves: Move[]; ends: ('from' | 'to')[] } {
  const old = { from: match.endBefore(before, 'from'), to: match.endBefore(before, 'to') }
  const now = { from: match.endAfter(after, 'from'), to: match.endAfter(after, 'to') }
  const straight = Number(old.from === now.from) + Number(old.to === now.to)
  const crossed = Number(old.from === now.to) + Number(old.to === now.from)
  const turned =
    crossed > straight ||
    (crossed === straight && sameHolder(old.from, now.to) > sameHolder(old.from, now.from))
  const moves: Move[] = []
  const ends: ('from' | 'to')[] = []
  for (const end of ['from', 'to'] as const) {
    const there = turned ? (end === 'from' ? 'to' : 'from') : end
    if (old[end] === now[there]) continue
    moves.push({ from: endWords(before, end), to: endWords(after, there) })
    ends.push(there)
  }
  return { moves, ends }
}

const holderOf = (key: string | undefined): string => key?.split('.')[0] ?? ''
const sameHolder = (a: string | undefined, b: string | undefined): number =>
  Number(holderOf(a) === holderOf(b))

const value = (
  field: string,
  words: string,
  before: string | undefined,
  after: string | undefined,
): ValueChange[] => (before === after ? [] : [{ field, words, before, after }])

/** The other conductor of a twisted pair. */
function partners(conductors: readonly Conductor[]): Map<Conductor, string> {
  const pairs = new Map<string, Conductor[]>()
  for (const conductor of conductors)
    if (conductor.pair !== undefined && conductor.kind === 'wire')
      pairs.set(conductor.pair, [...(pairs.get(conductor.pair) ?? []), conductor])
  const found = new Map<Conductor, string>()
  for (const members of pairs.values())
    for (const one of members) {
      const others = members.filter((other) => other !== one).map(({ id }) => id)
      if (others.length > 0) found.set(one, others.sort(naturalOrder).join(', '))
    }
  return found
}

/** Fields told of by what they mean, so not again as text. */
const OWN_FIELDS = ['id', 'from', 'to', 'size', 'colour', 'length', 'pair', 'core', 'shield']

function wireValues(before: Conductor, after: Conductor): ValueChange[] {
  const colour = (one: Conductor) => one.colour && colourLabel(one.colour)
  const size = (one: Conductor) => one.size && bothSizes(one.size)
  const length = (one: Conductor) => (one.lengthMm === undefined ? undefined : formatLength(one.lengthMm))
  return [
    ...value('colour', 'colour', colour(before), colour(after)),
    ...value('size', 'size', size(before), size(after)),
    ...value('length', 'length', length(before), length(after)),
  ]
}

function conductorChange(
  sides: Sides,
  pairsBefore: ReadonlyMap<Conductor, string>,
  pairsAfter: ReadonlyMap<Conductor, string>,
  before: Conductor,
  after: Conductor,
): ThingChange | undefined {
  const { renamed } = sides.match
  const { moves, ends } = movesOf(sides, before, after)
  const through = (names: string | undefined) =>
    names
      ?.split(', ')
      .map((name) => throughRenames(renamed, name))
      .sort(naturalOrder)
      .join(', ')
  const cable = (one: Conductor, old: boolean) =>
    one.cable && `${old ? throughRenames(renamed, one.cable.id) : one.cable.id} ${one.core ?? ''}`.trim()
  const loose = before.cable === undefined && after.cable === undefined
  const values = [
    // What a cable is made of is told of once, at the cable.
    ...(loose ? wireValues(before, after) : []),
    ...value('core', 'core', cable(before, true), cable(after, false)),
    ...value('pair', 'partner of the twisted pair', through(pairsBefore.get(before)), pairsAfter.get(after)),
    ...valueChanges(before.source, after.source, OWN_FIELDS),
  ]
  const field = ends[0] ?? values[0]?.field
  const was =
    before.id === throughRenames(renamedCables(sides), before.id)
      ? before.id
      : throughRenames(renamedCables(sides), before.id)
  return altered(after.kind === 'shield' ? 'shield' : 'conductor', after.id, was, {
    moves,
    values,
    addresses: [before.address, after.address],
    at: field === undefined ? after.at : below(after.at, field),
  })
}

/** Cores without a number of their own are called after their cable; a renamed cable renames no core. */
function renamedCables({ match }: Sides): ReadonlyMap<string, string> {
  return new Map(match.cables.kept.flatMap(([a, b]) => (a.id === b.id ? [] : [[a.id, b.id] as const])))
}

/** What became of every wire, core and shield. */
export function conductorChanges(sides: Sides): ThingChange[] {
  const pairsBefore = partners(conductorsOf(sides.before))
  const pairsAfter = partners(conductorsOf(sides.after))
  const { kept, added, removed } = sides.match.conductors
  const kind = (one: Conductor): ThingKind => (one.kind === 'shield' ? 'shield' : 'conductor')
  const facts = (one: Conductor) =>
    [conductorFacts(one), endsText(one)].filter((text) => text !== '').join(', ')
  return [
    ...kept.map(([one, two]) => conductorChange(sides, pairsBefore, pairsAfter, one, two)).filter(isThere),
    ...added.map((one) =>
      oneSided('added', kind(one), one.id, facts(one), { addresses: [one.address], at: one.at }),
    ),
    ...removed.map((one) =>
      oneSided('removed', kind(one), one.id, facts(one), { addresses: [one.address], at: one.at }),
    ),
  ].sort(byName)
}
