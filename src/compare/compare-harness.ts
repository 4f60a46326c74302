import { colourLabel } from '../base/colour.ts'
import { formatLength } from '../base/format-quantity.ts'
import { naturalOrder } from '../base/natural-order.ts'
import { below } from '../base/place.ts'
import { bothSizes } from '../base/wire-size.ts'
import type { CableUse, ComponentUse, Conductor, Half } from '../resolve/loom.ts'
import type { Move, SubjectChange, ThingChange, ThingKind, ValueChange } from './changes.ts'
import { isPhysical, valueChanges } from './field-values.ts'
import { conductorsOf, type HarnessMatch, throughRenames } from './match-harness.ts'
import { conductorFacts, endName, endsText } from './names.ts'
import type { PlacedHarness } from './revision.ts'

interface Sides {
  readonly before: PlacedHarness
  readonly after: PlacedHarness
  readonly match: HarnessMatch
}

/** A change that holds something, or undefined. */
export function altered(
  kind: ThingKind,
  id: string,
  was: string,
  parts: Partial<Pick<ThingChange, 'moves' | 'values' | 'addresses' | 'at'>>,
): ThingChange | undefined {
  const { moves = [], values = [], addresses = [], at } = parts
  if (id === was && moves.length === 0 && values.length === 0) return undefined
  return {
    change: 'altered',
    kind,
    id,
    ...(id === was ? {} : { was }),
    moves,
    values,
    // A new name is new labels and new papers; only what it names stays as it is.
    physical: id !== was || moves.length > 0 || values.some(({ field }) => isPhysical(field)),
    addresses,
    ...(at ? { at } : {}),
  }
}

/** Something that is on one side only. */
export const oneSided = (
  change: 'added' | 'removed',
  kind: ThingKind,
  id: string,
  facts: string,
  rest: Partial<Pick<ThingChange, 'addresses' | 'at'>> = {},
): ThingChange => ({
  change,
  kind,
  id,
  facts,
  moves: [],
  values: [],
  physical: true,
  addresses: rest.addresses ?? [],
  ...(rest.at ? { at: rest.at } : {}),
})

export const byName = (a: ThingChange, b: ThingChange): number => naturalOrder(a.id, b.id)
const isThere = <T>(value: T | undefined): value is T => value !== undefined

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

function conductorChanges(sides: Sides): ThingChange[] {
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

function halfFacts(half: Half): string {
  const label = 'label' in half.source ? half.source.label : undefined
  return [
    half.family?.title ?? half.familyId,
    half.fits === undefined ? undefined : `fits ${half.fits}`,
    label === undefined ? undefined : `labelled ${label}`,
  ]
    .filter(isThere)
    .join(', ')
}

function halfChanges({ match }: Sides, fits: (name: string) => string): ThingChange[] {
  const { kept, added, removed } = match.halves
  return [
    ...kept
      .map(([one, two]) => {
        const source = one.fits === undefined ? one.source : { ...one.source, fits: fits(one.fits) }
        const values = valueChanges(source, two.source, ['id'])
        const [first] = values[0]?.field.split(' ') ?? []
        return altered('connector', two.id, one.id, {
          values,
          addresses: [one.address, two.address],
          at: first === undefined ? two.at : below(two.at, first),
        })
      })
      .filter(isThere),
    ...added.map((one) =>
      oneSided('added', 'connector', one.id, halfFacts(one), { addresses: [one.address], at: one.at }),
    ),
    ...removed.map((one) =>
      oneSided('removed', 'connector', one.id, halfFacts(one), { addresses: [one.address], at: one.at }),
    ),
  ].sort(byName)
}

function componentChanges({ match }: Sides): ThingChange[] {
  const { kept, added, removed } = match.components
  const facts = ({ source, fusePart }: ComponentUse) =>
    [source.kind, fusePart?.title, source.title].filter(isThere).join(', ')
  return [
    ...kept
      .map(([one, two]) => {
        const values = valueChanges(one.source, two.source, ['id'])
        const [first] = values[0]?.field.split(' ') ?? []
        return altered('component', two.id, one.id, {
          values,
          addresses: [one.address, two.address],
          at: first === undefined ? two.at : below(two.at, first),
        })
      })
      .filter(isThere),
    ...added.map((one) =>
      oneSided('added', 'component', one.id, facts(one), { addresses: [one.address], at: one.at }),
    ),
    ...removed.map((one) =>
      oneSided('removed', 'component', one.id, facts(one), { addresses: [one.address], at: one.at }),
    ),
  ].sort(byName)
}

function spliceChanges({ before, after, match }: Sides): ThingChange[] {
  const { kept, added, removed } = match.splices
  const source = ({ harness }: PlacedHarness, id: string) =>
    harness.splices?.find((splice) => splice.id === id) ?? { id }
  const facts = (side: PlacedHarness, id: string) => {
    const { kind, zone } = { kind: undefined, zone: undefined, ...source(side, id) }
    return [kind === undefined ? 'splice' : `${kind} splice`, zone].filter(isThere).join(', ')
  }
  const address = (side: PlacedHarness, id: string) => `${side.use.id}.${id}`
  return [
    ...kept
      .map(([one, two]) =>
        altered('splice', two, one, {
          values: valueChanges(source(before, one), source(after, two), ['id']),
          addresses: [address(before, one), address(after, two)],
          at: after.use.at,
        }),
      )
      .filter(isThere),
    ...added.map((id) =>
      oneSided('added', 'splice', id, facts(after, id), { addresses: [address(after, id)] }),
    ),
    ...removed.map((id) =>
      oneSided('removed', 'splice', id, facts(before, id), { addresses: [address(before, id)] }),
    ),
  ].sort(byName)
}

function cableChanges({ match }: Sides): ThingChange[] {
  const { kept, added, removed } = match.cables
  const facts = ({ part, source }: CableUse) =>
    [part?.title ?? source.part, source.length === undefined ? undefined : formatLength(source.length)]
      .filter(isThere)
      .join(', ')
  return [
    ...kept
      .map(([one, two]) => {
        const values = valueChanges(one.source, two.source, ['id', 'cores', 'shields'])
        const first = values[0]?.field
        return altered('cable', two.id, one.id, {
          values,
          addresses: [one.address, two.address],
          at: first === undefined ? two.at : below(two.at, first),
        })
      })
      .filter(isThere),
    ...added.map((one) =>
      oneSided('added', 'cable', one.id, facts(one), { addresses: [one.address], at: one.at }),
    ),
    ...removed.map((one) =>
      oneSided('removed', 'cable', one.id, facts(one), { addresses: [one.address], at: one.at }),
    ),
  ].sort(byName)
}

/** A field of the thing itself, such as its title or its revision. */
export const fieldChanges = (
  before: object,
  after: object,
  skip: readonly string[],
  at?: ThingChange['at'],
): ThingChange[] =>
  valueChanges(before, after, ['id', ...skip])
    .map((one) => {
      const [first] = one.field.split(' ')
      const place = at && first !== undefined ? { at: below(at, first) } : {}
      return altered('field', one.words, one.words, { values: [one], ...place })
    })
    .filter(isThere)

/** Two looms that differ under one revision letter cannot be told apart by their labels. */
function remarkOn(
  before: PlacedHarness,
  after: PlacedHarness,
  things: readonly ThingChange[],
): string | undefined {
  const { revision, state } = after.harness
  const same = revision !== undefined && revision === before.harness.revision
  if (!same || state !== 'issued' || !things.some(({ physical }) => physical)) return undefined
  return `It is issued and still says revision ${revision}: looms and papers of both cannot be told apart. Raise the revision.`
}

const LISTS = ['connectors', 'splices', 'components', 'wires', 'cables', 'revisions']

/** What changed in a harness; undefined when nothing did. `at` is the place of the new harness in its file. */
export function compareHarness(
  before: PlacedHarness,
  after: PlacedHarness,
  match: HarnessMatch,
  fits: (name: string) => string,
  at: SubjectChange['at'],
): SubjectChange | undefined {
  const sides: Sides = { before, after, match }
  const things = [
    ...halfChanges(sides, fits),
    ...cableChanges(sides),
    ...componentChanges(sides),
    ...spliceChanges(sides),
    ...conductorChanges(sides),
    ...fieldChanges(before.harness, after.harness, LISTS, at),
  ]
  const was = before.harness.id
  const { id, title } = after.harness
  if (things.length === 0 && id === was) return undefined
  const remark = remarkOn(before, after, things)
  return {
    of: 'harness',
    change: 'altered',
    id,
    ...(id === was ? {} : { was }),
    title,
    things,
    ...(remark === undefined ? {} : { remark }),
    ...(at ? { at } : {}),
  }
}
