import type { EquipmentConnectorInput, EquipmentInput } from '../describe/equipment.ts'
import type { PinFunctionInput } from '../describe/function.ts'
import {
  type ConnectorPart,
  type FamilyArgument,
  type KnownFamily,
  nameOf,
  ownOf,
  type PartName,
  type PinsOf,
  type Ref,
} from './part.ts'
import { hide, mark, markOf, tidy } from './site.ts'

/** What each pin of a fixed half does, by its moulded name. */
export type Functions<Names extends string = string> = { readonly [K in Names]?: PinFunctionInput }
/** Which contacts a half has; `genderless` for studs, rings, screw terminals and other halves that are alike. */
export type HalfName = 'pin' | 'socket' | 'genderless'

/** A fixed half with its name, family and pin functions in its type. */
export interface Jack<Id extends string = string, F = unknown, P = Functions>
  extends Omit<EquipmentConnectorInput, 'id' | 'pins'> {
  readonly id: Id
  readonly pins: Record<string, PinFunctionInput>
  /** For types only: never set. */
  readonly types?: { family: F; functions: P }
}

type JackOptions = Omit<EquipmentConnectorInput, 'id' | 'family' | 'half' | 'pins'>
/** Turns a pin the family does not have into a sentence the compiler prints. */
type NoStrayPins<F, P> = string extends keyof P
  ? unknown
  : {
      readonly [K in Exclude<
        keyof P,
        PinsOf<F> | NumberIn<PinsOf<F>>
      >]: `${PartName<F>} has no pin ${K & (string | number)}`
    }
/** Pin names that are whole numbers, as numbers: object keys may be written either way. */
export type NumberIn<Names extends string> = Names extends `${infer N extends number}` ? N : never

const halfOf = (half: HalfName | undefined) => (half === 'genderless' ? undefined : half)

/**
 * A connector as fitted to equipment, with what each pin does. A pin may be described by its name alone (`{ name: 'SPK+' }`).
 * @param half which contacts this fixed half has
 */
export function jack<
  const Id extends string,
  const F extends FamilyArgument,
  const P extends Functions<PinsOf<F>>,
>(
  id: Id,
  family: KnownFamily<F>,
  half: HalfName,
  pins: P & NoStrayPins<F, P>,
  options: JackOptions = {},
): Jack<Id, F, P> {
  const data = tidy({
    id,
    family: nameOf(family as Ref<ConnectorPart>),
    half: halfOf(half),
    ...options,
    pins,
  })
  return mark(data as unknown as Jack<Id, F, P>, jack, {
    args: ['id', 'family', 'half', 'pins', ''],
    uses: [ownOf(family as Ref<ConnectorPart>)],
  })
}

/** The fixed half of one type of equipment, as free halves are made to fit it. */
export interface JackOn<E extends string = string, J extends Jack = Jack> {
  /** "mobile-40.J2" */
  readonly address: `${E}.${J['id']}`
  readonly equipment: Equipment
  readonly jack: J
}

type IdsOf<List extends readonly { readonly id: string }[]> = List[number]['id']
/** The entry of that name. Entries made in a loop share one type whose id is any of their names. */
export type ById<List extends readonly { readonly id: string }[], K> = List[number] extends infer Entry
  ? Entry extends { readonly id: infer Id }
    ? K extends Id
      ? Entry
      : never
    : never
  : never
/** The sentence a name turns into when a list does not hold it. */
export type Held<
  What extends string,
  Id extends string,
  Noun extends string,
  Ids extends string,
  K extends string,
> = K extends Ids ? K : `${What} ${Id} has no ${Noun} ${K}`

/** A type of equipment. `at('J2')` is the fixed half of that name. */
export interface Equipment<Id extends string = string, C extends readonly Jack[] = readonly Jack[]>
  extends Omit<EquipmentInput, 'id' | 'connectors'> {
  readonly id: Id
  readonly connectors: EquipmentConnectorInput[]
  at<const K extends IdsOf<C> | (string & {})>(
    id: Held<'equipment', Id, 'connector', IdsOf<C>, K>,
  ): JackOn<Id, ById<C, K>>
  /** For types only: never set. */
  readonly types?: { jacks: C }
}

/** "J2.7" for every pin of every connector, so that a join cannot name a pin that is not there. */
type PinAddress<C extends readonly Jack[]> = C[number] extends infer J
  ? J extends Jack<infer Id, infer F, unknown>
    ? `${Id}.${PinsOf<F>}`
    : never
  : never

type EquipmentOptions<C extends readonly Jack[]> = Omit<
  EquipmentInput,
  'id' | 'connectors' | 'joins' | 'isolates'
> & {
  connectors: C
  /** Pins that are bonded inside. */
  joins?: (Omit<NonNullable<EquipmentInput['joins']>[number], 'pins'> & { pins: PinAddress<C>[] })[]
  /** Pins that are isolated inside from everything else. */
  isolates?: (Omit<NonNullable<EquipmentInput['isolates']>[number], 'pins'> & { pins: PinAddress<C>[] })[]
}

/** A unit that looms land on: transceiver, loudspeaker, battery, fuse block, chassis. */
export function equipment<const Id extends string, const C extends readonly Jack[]>(
  id: Id,
  options: EquipmentOptions<C>,
): Equipment<Id, C> {
  const data = tidy({ id, ...options })
  const uses = options.connectors.flatMap((one) => markOf(one)?.uses ?? [])
  const handle = mark(data as unknown as Equipment<Id, C>, equipment, {
    kind: 'equipment',
    args: ['id', ''],
    uses,
  })
  const at = (name: string) => ({
    address: `${id}.${name}`,
    equipment: handle,
    jack: options.connectors.find((one) => one.id === name),
  })
  return hide(handle, { at })
}
