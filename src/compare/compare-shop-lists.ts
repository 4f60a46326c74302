import { below, type Pointer } from '../base/place.ts'
import { functionWords } from '../check/queries/pin-words.ts'
import type { Equipment, EquipmentConnector } from '../describe/equipment.ts'
import type { PinFunction } from '../describe/function.ts'
import type { Part } from '../describe/part.ts'
import type { Sourced } from '../describe/shop.ts'
import type { SubjectChange, ThingChange } from './changes.ts'
import { valueChanges } from './field-values.ts'
import { overlap, type Paired, pairByKey, pairByName } from './pair-up.ts'
import { altered, fieldChanges, isThere, oneSided } from './thing-change.ts'

/** `SPK+, loudspeaker output` */
const pinText = (does: PinFunction): string =>
  [does.name, does.kind === 'unstated' && does.name ? undefined : functionWords(does)]
    .filter(isThere)
    .join(', ')

function pinChange(
  id: string,
  before: PinFunction,
  after: PinFunction,
  at: Pointer,
): ThingChange | undefined {
  const values = valueChanges(before, after, ['kind'])
  // Another function is one fact; the fields that come and go with it are not worth a line each.
  if (before.kind !== after.kind)
    return altered('pin', id, id, {
      values: [{ field: 'does', words: 'function', before: pinText(before), after: pinText(after) }],
      at,
    })
  return altered('pin', id, id, { values, at })
}

function pinChanges(before: EquipmentConnector, after: EquipmentConnector, at: Pointer): ThingChange[] {
  const names = new Set([...Object.keys(before.pins), ...Object.keys(after.pins)])
  return [...names]
    .map((name) => {
      const id = `${after.id}-${name}`
      const [old, now] = [before, after].map(({ pins }) =>
        Object.hasOwn(pins, name) ? pins[name] : undefined,
      )
      const where = below(at, 'pins', name)
      if (old && now) return pinChange(id, old, now, where)
      if (now) return oneSided('added', 'pin', id, pinText(now), { at: where })
      return old && oneSided('removed', 'pin', id, pinText(old))
    })
    .filter(isThere)
}

const pinSet = ({ pins }: EquipmentConnector): ReadonlySet<string> =>
  new Set(Object.entries(pins).map(([name, does]) => `${name} ${does.kind} ${does.name ?? ''}`))

/** Connectors of a type of equipment, renamed ones recognised by their pinout. */
export const pairEquipmentConnectors = (before: Equipment, after: Equipment): Paired<EquipmentConnector> =>
  pairByName(before.connectors, after.connectors, {
    name: ({ id }) => id,
    least: 0.6,
    score: (one, two) => (one.family === two.family ? overlap(pinSet(one), pinSet(two)) : 0),
  })

function equipmentThings(before: Equipment, after: Equipment, at: Pointer): ThingChange[] {
  const { kept, added, removed } = pairEquipmentConnectors(before, after)
  const placeOf = (id: string) =>
    below(
      at,
      'connectors',
      after.connectors.findIndex((one) => one.id === id),
    )
  const connectors = kept.flatMap(([one, two]) => [
    altered('connector', two.id, one.id, {
      values: valueChanges(one, two, ['id', 'pins']),
      at: placeOf(two.id),
    }),
    ...pinChanges(one, two, placeOf(two.id)),
  ])
  const inside = pairByKey(before.inside ?? [], after.inside ?? [], ({ id }) => id)
  return [
    ...connectors.filter(isThere),
    ...added.map((one) => oneSided('added', 'connector', one.id, one.family, { at: placeOf(one.id) })),
    ...removed.map((one) => oneSided('removed', 'connector', one.id, one.family)),
    ...inside.kept
      .map(([one, two]) =>
        altered('component', two.id, one.id, { values: valueChanges(one, two, ['id']), at }),
      )
      .filter(isThere),
    ...inside.added.map((one) => oneSided('added', 'component', one.id, one.kind, { at })),
    ...inside.removed.map((one) => oneSided('removed', 'component', one.id, one.kind)),
    ...fieldChanges(before, after, ['connectors', 'inside'], at),
  ]
}

export type PairedSourced<T> = Paired<Sourced<T>>

/** Types of equipment, renamed ones recognised by what is on their connectors. */
export function pairEquipment(
  before: readonly Sourced<Equipment>[],
  after: readonly Sourced<Equipment>[],
): PairedSourced<Equipment> {
  const marks = ({ value }: Sourced<Equipment>) =>
    new Set(
      value.connectors.flatMap((one) => [...pinSet(one)].map((pin) => `${one.id} ${one.family} ${pin}`)),
    )
  return pairByName(before, after, {
    name: ({ value }) => value.id,
    least: 0.6,
    score: (one, two) => overlap(marks(one), marks(two)) * (one.value.title === two.value.title ? 1.5 : 1),
  })
}

export function compareEquipment(paired: PairedSourced<Equipment>): SubjectChange[] {
  const facts = ({ title }: Equipment) => title
  return subjects('equipment', paired, facts, (one, two) => equipmentThings(one.value, two.value, two.at))
}

const partTitle = (part: Part): string =>
  'title' in part && typeof part.title === 'string' ? part.title : part.id

/** Parts have no other mark than their name: one with another name is another part. */
export function compareParts(
  before: readonly Sourced<Part>[],
  after: readonly Sourced<Part>[],
): SubjectChange[] {
  const paired = pairByKey(before, after, ({ value }) => `${value.kind} ${value.id}`)
  return subjects('part', paired, partTitle, (one, two) => fieldChanges(one.value, two.value, [], two.at))
}

interface Named {
  readonly id: string
}

/** What came, went and changed in one list of the shop. */
export function subjects<T extends Named>(
  of: SubjectChange['of'],
  paired: PairedSourced<T>,
  facts: (value: T) => string,
  things: (before: Sourced<T>, after: Sourced<T>) => readonly ThingChange[],
): SubjectChange[] {
  const title = (value: T) => ('title' in value && typeof value.title === 'string' ? value.title : value.id)
  const whole = (change: 'added' | 'removed', { value, at }: Sourced<T>): SubjectChange => ({
    of,
    change,
    id: value.id,
    title: title(value),
    facts: facts(value),
    things: [],
    at,
  })
  const kept = paired.kept.flatMap(([one, two]): SubjectChange[] => {
    const found = [...things(one, two)]
    const was = one.value.id === two.value.id ? {} : { was: one.value.id }
    if (found.length === 0 && one.value.id === two.value.id) return []
    return [
      { of, change: 'altered', id: two.value.id, ...was, title: title(two.value), things: found, at: two.at },
    ]
  })
  return [
    ...kept,
    ...paired.added.map((one) => whole('added', one)),
    ...paired.removed.map((one) => whole('removed', one)),
  ]
}
