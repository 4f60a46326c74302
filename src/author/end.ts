import { quote } from '../base/quote.ts'
import { hide } from './site.ts'

/** Somewhere a conductor can land: a pin, a terminal, a splice, or a connector that has one pin only. */
export interface End {
  /** As wires name it: "P2.1", "F1.in", "SP1". */
  readonly address: string
  /** The connector, component or splice of the harness it belongs to. */
  readonly owner: object
}

/** A pin of a harness connector or a terminal of a component. `Does` is the signal on the equipment pin it is made to meet. */
export interface Pin<Name extends string = string, Does = unknown> extends End {
  readonly name: Name
  /** For completion only: never set. */
  readonly does?: Does
}

/** Names by which pins may be asked for: as moulded, or as a number where they are numbers. */
export type PinArgument<Names extends string> = Names | (string & {}) | number

/** True for a single name, false for several or for names that are not known. */
export type IsOne<Names extends string, All extends string = Names> = string extends Names
  ? false
  : Names extends All
    ? [All] extends [Names]
      ? true
      : false
    : never

const pinOf = (owner: object, id: string, name: string): Pin => ({ name, address: `${id}.${name}`, owner })

/** The `pin()` and `p` members of a handle. A name is not checked here: a wrong one becomes a finding with its place. */
export function withPins<T extends { readonly id: string }>(handle: T): T {
  const pin = (name: string | number): Pin => pinOf(handle, handle.id, String(name))
  const p = new Proxy(
    {},
    { get: (_, name) => (typeof name === 'string' ? pin(name) : undefined), set: () => false },
  )
  return hide(handle, { pin, p, address: handle.id, owner: handle })
}

const shownAs = (value: unknown): string => (typeof value === 'string' ? quote(value) : String(value))

/**
 * The ends of a conductor, once they are known to be some. Types see to that where they are checked; code may run unchecked.
 * @throws TypeError that names the conductor and what it was given
 */
export function endsOf(what: string, ...ends: readonly End[]): readonly End[] {
  const none = ends.findIndex(
    (end: unknown) => !(typeof end === 'object' && end !== null && 'address' in end && 'owner' in end),
  )
  if (none < 0) return ends
  throw new TypeError(
    `${what}: ${shownAs(ends[none])} is no end; give a pin such as P1.pin(1), a terminal such as F1.in, or a splice`,
  )
}
