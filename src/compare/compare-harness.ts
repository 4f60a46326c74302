import { formatLength } from '../base/format-quantity.ts'
import { below } from '../base/place.ts'
import type { Harness } from '../describe/harness.ts'
import type { CableUse, ComponentUse, Half } from '../resolve/loom.ts'
import type { SubjectChange, ThingChange } from './changes.ts'
import { conductorChanges, type Sides } from './compare-conductors.ts'
import { valueChanges } from './field-values.ts'
import { type HarnessMatch, throughRenames } from './match-harness.ts'
import { pairByKey } from './pair-up.ts'
import type { PlacedHarness } from './revision.ts'
import { altered, byName, fieldChanges, isThere, oneSided } from './thing-change.ts'

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

interface Stretch {
  readonly id: string
  readonly length: number
  readonly zone?: string | undefined
  readonly note?: string | undefined
  readonly angle?: number | undefined
  readonly marks: readonly string[]
}

/** A branch has no name of its own: it is called after its two ends. */
function stretches(harness: Harness, renamed: ReadonlyMap<string, string>): Stretch[] {
  return (harness.branches ?? []).map(({ from, to, marks = [], ...rest }) => ({
    ...rest,
    id: `${throughRenames(renamed, from)} to ${throughRenames(renamed, to)}`,
    marks: marks.map(({ kind, at, to: end, note }) =>
      [kind, `at ${formatLength(at)}`, end === undefined ? undefined : `to ${formatLength(end)}`, note]
        .filter(isThere)
        .join(' '),
    ),
  }))
}

/** To say for the first time how a loom lies does not make it another loom, and is no news branch by branch. */
function firstLayout(before: Harness, after: Harness, at: SubjectChange['at']): ThingChange[] | undefined {
  const [old, now] = [before.branches?.length ?? 0, after.branches?.length ?? 0]
  if (old > 0 && now > 0) return undefined
  const count = (n: number) => (n === 0 ? undefined : `${n}`)
  return fieldChanges({ layout: count(old) }, { layout: count(now) }, [], at && below(at, 'branches'))
}

function branchChanges({ before, after, match }: Sides, at: SubjectChange['at']): ThingChange[] {
  const first = firstLayout(before.harness, after.harness, at)
  if (first) return first
  const { kept, added, removed } = pairByKey(
    stretches(before.harness, match.renamed),
    stretches(after.harness, new Map()),
    ({ id }) => id,
  )
  const place = at ? { at: below(at, 'branches') } : {}
  const all = [
    ...kept
      .map(([one, two]) =>
        altered('branch', two.id, one.id, { values: valueChanges(one, two, ['id']), ...place }),
      )
      .filter(isThere),
    ...added.map((one) => oneSided('added', 'branch', one.id, formatLength(one.length), place)),
    ...removed.map((one) => oneSided('removed', 'branch', one.id, formatLength(one.length))),
  ]
  return all.sort(byName)
}

const LISTS = ['connectors', 'splices', 'components', 'wires', 'cables', 'branches', 'revisions']

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
    ...branchChanges(sides, at),
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
