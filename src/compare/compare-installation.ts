import { naturalOrder } from '../base/natural-order.ts'
import type { Pointer } from '../base/place.ts'
import type { Installation } from '../describe/installation.ts'
import type { Sourced } from '../describe/shop.ts'
import type { Loom } from '../resolve/loom.ts'
import type { SubjectChange, ThingChange, ThingKind } from './changes.ts'
import { valueChanges } from './field-values.ts'
import type { JobMatch } from './match-job.ts'
import { type Paired, pairByKey } from './pair-up.ts'
import { altered, fieldChanges, isThere, oneSided } from './thing-change.ts'

interface Named {
  readonly id: string
}

function listChanges<T extends Named>(
  kind: ThingKind,
  { kept, added, removed }: Paired<T>,
  facts: (one: T) => string,
  at: Pointer,
  skip: readonly string[] = [],
): ThingChange[] {
  return [
    ...kept
      .map(([one, two]) =>
        altered(kind, two.id, one.id, {
          values: valueChanges(one, two, ['id', ...skip]),
          addresses: [one.id, two.id],
          at,
        }),
      )
      .filter(isThere),
    ...added.map((one) => oneSided('added', kind, one.id, facts(one), { addresses: [one.id], at })),
    ...removed.map((one) => oneSided('removed', kind, one.id, facts(one), { addresses: [one.id] })),
  ]
}

/** Every joint of two halves as it came out, listed or found by fit. Halves that came or went tell of themselves. */
function matesOf(loom: Loom, address: (of: string) => string): Set<string> {
  const mates = new Set<string>()
  for (const half of loom.halves)
    for (const mate of half.mates)
      mates.add([address(half.address), address(mate.address)].sort(naturalOrder).join(' with '))
  return mates
}

function mateChanges(before: Loom, after: Loom, match: JobMatch, at: Pointer): ThingChange[] {
  const old = matesOf(before, match.address)
  const now = matesOf(after, (address) => address)
  const known = new Set(before.halves.map(({ address }) => match.address(address)))
  const inBoth = (pair: string) =>
    pair.split(' with ').every((half) => known.has(half) && after.halfAt.has(half))
  const moved = (pair: string) => ({ addresses: pair.split(' with '), at })
  return [
    ...[...now]
      .filter((pair) => !old.has(pair) && inBoth(pair))
      .map((pair) => oneSided('added', 'mate', pair, '', moved(pair))),
    ...[...old]
      .filter((pair) => !now.has(pair) && inBoth(pair))
      .map((pair) => oneSided('removed', 'mate', pair, '', moved(pair))),
  ].sort((a, b) => naturalOrder(a.id, b.id))
}

/** What changed in an installation: its units, looms, joints, states and zones. */
export function compareInstallation(
  before: Sourced<Installation>,
  after: Sourced<Installation>,
  looms: readonly [before: Loom | undefined, after: Loom | undefined],
  match: JobMatch | undefined,
  equipmentNow: (id: string) => string,
  harnessNow: (id: string) => string,
): SubjectChange | undefined {
  const [one, two] = [before.value, after.value]
  const { at } = after
  const units = match?.units ?? pairByKey(one.units, two.units, ({ id }) => id)
  const uses = match?.looms ?? pairByKey(one.looms ?? [], two.looms ?? [], ({ id }) => id)
  const withTypes = <T extends { readonly of: string }>(
    { kept, ...rest }: Paired<T>,
    now: (id: string) => string,
  ) => ({
    ...rest,
    kept: kept.map(([a, b]) => [{ ...a, of: now(a.of) }, b] as const),
  })
  const things = [
    ...listChanges(
      'unit',
      withTypes(units, equipmentNow),
      ({ of, zone }) => [of, zone].filter(isThere).join(', '),
      at,
    ),
    ...listChanges('loom', withTypes(uses, harnessNow), ({ of }) => of, at),
    ...(looms[0] && looms[1] && match ? mateChanges(looms[0], looms[1], match, at) : []),
    ...listChanges(
      'state',
      pairByKey(one.states ?? [], two.states ?? [], ({ id }) => id),
      ({ title }) => title ?? '',
      at,
    ),
    ...listChanges(
      'zone',
      pairByKey(one.zones ?? [], two.zones ?? [], ({ id }) => id),
      () => '',
      at,
    ),
    ...fieldChanges(one, two, ['units', 'looms', 'mates', 'states', 'zones'], at),
  ]
  if (things.length === 0 && one.id === two.id) return undefined
  const was = one.id === two.id ? {} : { was: one.id }
  return { of: 'installation', change: 'altered', id: two.id, ...was, title: two.title, things, at }
}
