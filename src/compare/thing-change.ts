import { naturalOrder } from '../base/natural-order.ts'
import { below } from '../base/place.ts'
import type { ThingChange, ThingKind } from './changes.ts'
import { isPhysical, valueChanges } from './field-values.ts'

export const isThere = <T>(value: T | undefined): value is T => value !== undefined

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
