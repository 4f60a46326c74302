import type { HarnessConnectorInput } from '../describe/harness.ts'
import { type End, type IsOne, type Pin, type PinArgument, withPins } from './end.ts'
import type { HalfName, Jack, JackOn } from './equipment.ts'
import {
  type ConnectorPart,
  type ContactPart,
  type FamilyArgument,
  type KnownFamily,
  nameOf,
  ownOf,
  type PinsOf,
  type Ref,
  type SealPart,
} from './part.ts'
import { mark, tidy } from './site.ts'

/** The signal of one pin of a fixed half: its name if it has one, else its kind. */
type SignalOf<P, Name extends string> = Name extends keyof P
  ? NameOrKind<P[Name]>
  : Name extends `${infer N extends number}`
    ? N extends keyof P
      ? NameOrKind<P[N]>
      : undefined
    : undefined
type NameOrKind<F> = F extends { readonly name: infer Name }
  ? Name
  : F extends { readonly kind: infer Kind }
    ? Kind
    : undefined

/** A free half of a harness. `pin('14')` and `p[14]` are its pins; a half with one pin only may be named itself. */
export type Connector<Id extends string = string, Pins extends string = string, P = unknown> = Omit<
  HarnessConnectorInput,
  'id'
> & {
  readonly id: Id
  pin<const K extends PinArgument<Pins>>(
    name: `${K}` extends Pins ? K : `connector ${Id} has no pin ${K}`,
  ): Pin<`${K}`, SignalOf<P, `${K}`>>
  /** Its pins by name, each with the signal of the equipment pin it is made to meet. */
  readonly p: { readonly [K in Pins]: Pin<K, SignalOf<P, K>> }
} & (IsOne<Pins> extends true ? End : unknown)

type Cavity = NonNullable<HarnessConnectorInput['pins']>[string]
interface Own<Pins extends string> {
  /** Contact used in every cavity. */
  contact?: Ref<ContactPart>
  /** Wire seal used in every cavity. */
  seal?: Ref<SealPart>
  /** What differs from cavity to cavity. */
  pins?: {
    readonly [K in Pins]?: Omit<Cavity, 'contact' | 'seal'> & {
      contact?: Ref<ContactPart>
      seal?: Ref<SealPart>
    }
  }
}
type Plain = Omit<HarnessConnectorInput, 'id' | 'family' | 'half' | 'fits' | keyof Own<string>>

export type ConnectorOptions<Pins extends string, Fits = JackOn> = Plain &
  Own<Pins> & {
    /** The fixed half it is made to mate with: `radio.at('J2')`. */
    fits?: Fits
  }

type FunctionsOf<J> = J extends Jack<string, unknown, infer P> ? P : unknown

function namedCavities(pins: Own<string>['pins']): HarnessConnectorInput['pins'] {
  if (pins === undefined) return undefined
  return Object.fromEntries(
    Object.entries(pins).map(([name, cavity = {}]) => [
      name,
      tidy({ ...cavity, contact: nameOf(cavity.contact), seal: nameOf(cavity.seal) }),
    ]),
  )
}

function build(
  id: string,
  family: Ref<ConnectorPart>,
  half: string | undefined,
  options: ConnectorOptions<string>,
  cut: (...v: never[]) => unknown,
  args: readonly string[],
): HarnessConnectorInput {
  const { fits, contact, seal, pins, ...rest } = options
  const named = {
    fits: fits?.address,
    contact: nameOf(contact),
    seal: nameOf(seal),
    pins: namedCavities(pins),
  }
  const data = tidy({ id, family: nameOf(family) ?? '', half, ...rest, ...named }) as HarnessConnectorInput
  const cavities = Object.values(pins ?? {}).flatMap((one) => [ownOf(one?.contact), ownOf(one?.seal)])
  const uses = [ownOf(family), ownOf(contact), ownOf(seal), ...cavities, fits?.equipment]
  return withPins(mark(data, cut, { lands: 'connectors', args, uses }))
}

/**
 * A free half of a harness: a plug on a tail, a ring, a cable socket.
 * @param half which contacts it has; leave it out for families whose halves are alike
 */
export function connector<
  const Id extends string,
  const F extends FamilyArgument,
  J extends Jack = Jack<string, unknown, Record<never, never>>,
>(
  id: Id,
  family: KnownFamily<F>,
  half?: HalfName,
  options: ConnectorOptions<PinsOf<F>, JackOn<string, J>> = {},
): Connector<Id, PinsOf<F>, FunctionsOf<J>> {
  const gender = half === 'genderless' ? undefined : half
  return build(id, family as Ref<ConnectorPart>, gender, options as ConnectorOptions<string>, connector, [
    'id',
    'family',
    'half',
    '',
  ]) as never
}

type FamilyOf<J> = J extends Jack<string, infer F extends FamilyArgument, unknown> ? F : never
const other = { pin: 'socket', socket: 'pin' } as const

/**
 * The free half that fits a fixed one: same family, the other contacts. `plug('P2', radio.at('J2'), { contact: 'dsub-crimp-20' })`.
 * Where the mating half is of another family (a ring for a stud), name it: `{ family: 'ring-m6' }`.
 */
export function plug<const Id extends string, J extends Jack, const F extends FamilyArgument = FamilyOf<J>>(
  id: Id,
  fits: JackOn<string, J>,
  options: ConnectorOptions<PinsOf<F>, never> & { family?: KnownFamily<F> } = {},
): Connector<Id, PinsOf<F>, FunctionsOf<J>> {
  const { family, ...rest } = options as ConnectorOptions<string> & { family?: Ref<ConnectorPart> }
  const fixed: Jack | undefined = fits.jack
  const half = fixed?.half && other[fixed.half]
  const coding = family === undefined && fixed?.coding ? { coding: fixed.coding } : {}
  return build(id, family ?? fixed?.family ?? '', half, { ...coding, ...rest, fits }, plug, [
    'id',
    'fits',
    '',
  ]) as never
}
