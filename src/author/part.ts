import type {
  StandardCableId,
  StandardCoreNames,
  StandardShieldNames,
} from '../catalogue/cables/core-names.ts'
import type { StandardFamilyId, StandardPinNames } from '../catalogue/connectors/pin-names.ts'
import type { PartInput } from '../describe/part.ts'
import { mark } from './site.ts'

type InputOf<Kind extends PartInput['kind']> = Extract<PartInput, { kind: Kind }>
type Given<Kind extends PartInput['kind'], Own extends string = never> = Omit<
  InputOf<Kind>,
  'kind' | 'id' | Own
>

/** A connector family of the shop's own; connectors made from it know its pin names. */
export type ConnectorPart<Id extends string = string, Pins extends string = string> = InputOf<'connector'> & {
  readonly id: Id
  readonly pins: readonly Pins[]
  readonly shell?: boolean
}
/** A cable of the shop's own; runs of it know its core and shield names. */
export type CablePart<
  Id extends string = string,
  Cores extends string = string,
  Shields extends string = string,
> = InputOf<'cable'> & {
  readonly id: Id
  readonly cores: readonly { readonly name: Cores }[]
  readonly shields?: readonly { readonly name: Shields }[]
}
export type ContactPart = InputOf<'contact'>
export type SealPart = InputOf<'seal'>
export type WirePart = InputOf<'wire'>
export type FusePart = InputOf<'fuse'>

/** A part named by its catalogue name, or the shop's own part itself. */
export type Ref<Own extends { readonly id: string }> = string | Own

/** The name to write down for a part. */
export const nameOf = (ref: Ref<{ readonly id: string }> | undefined): string | undefined =>
  typeof ref === 'object' ? ref.id : ref
/** The part itself where it is the shop's own. */
export const ownOf = (ref: Ref<{ readonly id: string }> | undefined): object | undefined =>
  typeof ref === 'object' ? ref : undefined

/** What a connector may be made from: a standard family by name, or the shop's own. */
export type Family = StandardFamilyId | ConnectorPart
/** As `Family`, and any text, so that the compiler can answer a misspelt name with a sentence. */
export type FamilyArgument = Family | (string & {})
export type KnownFamily<F> = F extends Family ? F : `no connector family is called ${F & string}`
/** Pin names of a family. */
export type PinsOf<F> =
  F extends ConnectorPart<string, infer Pins>
    ? Pins | (F extends { readonly shell: true } ? 'shell' : never)
    : F extends StandardFamilyId
      ? StandardPinNames[F]
      : string
/** The name of a family or cable, for messages. */
export type PartName<P> = P extends string
  ? P
  : P extends { readonly id: infer Id extends string }
    ? Id
    : 'part'
/** What a run of cable may be cut from. */
export type Cable = StandardCableId | CablePart
export type CableArgument = Cable | (string & {})
export type KnownCable<C> = C extends Cable ? C : `no cable is called ${C & string}`
export type CoresOf<C> =
  C extends CablePart<string, infer Cores, string>
    ? Cores
    : C extends StandardCableId
      ? StandardCoreNames[C]
      : string
export type ShieldsOf<C> =
  C extends CablePart<string, string, infer Shields>
    ? Shields
    : C extends StandardCableId
      ? StandardShieldNames[C]
      : string

function made<T extends PartInput>(
  kind: T['kind'],
  id: string,
  figures: object,
  cut: (...v: never[]) => unknown,
) {
  return mark({ kind, id, ...figures } as T, cut, { kind: 'part', args: ['id', ''] })
}

function connectorPart<
  const Id extends string,
  const Pins extends string,
  const Shell extends boolean = false,
>(
  id: Id,
  figures: Given<'connector', 'pins' | 'shell'> & { pins: readonly Pins[]; shell?: Shell },
): ConnectorPart<Id, Pins> & { readonly shell: Shell } {
  return made<InputOf<'connector'>>('connector', id, figures, connectorPart) as ConnectorPart<Id, Pins> & {
    readonly shell: Shell
  }
}

type CoreInput<Name extends string> = Omit<InputOf<'cable'>['cores'][number], 'name'> & { name: Name }
type ShieldInput<Name extends string> = Omit<
  NonNullable<InputOf<'cable'>['shields']>[number],
  'name' | 'covers'
> & { name: Name; covers?: readonly string[] }

function cablePart<const Id extends string, const Cores extends string, const Shields extends string = never>(
  id: Id,
  figures: Given<'cable', 'cores' | 'shields'> & {
    cores: readonly CoreInput<Cores>[]
    shields?: readonly ShieldInput<Shields>[]
  },
): CablePart<Id, Cores, Shields> {
  return made<InputOf<'cable'>>('cable', id, figures, cablePart) as CablePart<Id, Cores, Shields>
}

function contactPart(id: string, figures: Given<'contact'>): ContactPart {
  return made<ContactPart>('contact', id, figures, contactPart)
}

function sealPart(id: string, figures: Given<'seal'>): SealPart {
  return made<SealPart>('seal', id, figures, sealPart)
}

function wirePart(id: string, figures: Given<'wire'>): WirePart {
  return made<WirePart>('wire', id, figures, wirePart)
}

function fusePart(id: string, figures: Given<'fuse'>): FusePart {
  return made<FusePart>('fuse', id, figures, fusePart)
}

/** The shop's own parts, one builder a kind: `part.connector('my-4-way', { title, pins: ['A', 'B', 'C', 'D'], style: 'housing' })`. */
export const part = {
  connector: connectorPart,
  contact: contactPart,
  seal: sealPart,
  wire: wirePart,
  cable: cablePart,
  fuse: fusePart,
} as const
