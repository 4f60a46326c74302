import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { Facts } from './facts.ts'

/** A thing found by its address, or why not. */
export type Lookup<T> =
  | { readonly ok: true; readonly thing: T; readonly address: string }
  | { readonly ok: false; readonly problem: string; readonly fix: string }

const MOST_LISTED = 4

/**
 * Finds a thing by its full address, by its name in the loom whose procedure is read, or by the end of its address when
 * only one thing has it.
 */
export function lookUp<T>(
  facts: Facts,
  things: ReadonlyMap<string, T>,
  kind: string,
  name: string,
): Lookup<T> {
  const exact = [facts.scope ? `${facts.scope.id}.${name}` : name, name].find((address) =>
    things.has(address),
  )
  if (exact !== undefined) return { ok: true, thing: things.get(exact) as T, address: exact }
  const ending = [...things.keys()].filter((address) => address.endsWith(`.${name}`))
  const [only] = ending
  if (only !== undefined && ending.length === 1)
    return { ok: true, thing: things.get(only) as T, address: only }
  return ending.length > 1 ? ambiguous(kind, name, ending) : nowhere(facts, things, kind, name)
}

function ambiguous(kind: string, name: string, addresses: readonly string[]): Lookup<never> {
  const shown = addresses.slice(0, MOST_LISTED).map(quote).join(', ')
  const more = addresses.length > MOST_LISTED ? ` and ${addresses.length - MOST_LISTED} more` : ''
  return refuse(`${quote(name)} is the ${kind} ${shown}${more}`, `Write the one that is meant in full.`)
}

function nowhere<T>(facts: Facts, things: ReadonlyMap<string, T>, kind: string, name: string): Lookup<never> {
  const { loom, scope } = facts
  const short = scope ? [...things.keys()].flatMap((address) => withoutPrefix(address, `${scope.id}.`)) : []
  const hint = didYouMean(name, [...things.keys(), ...short])
  return refuse(
    `${loom.kind} ${quote(loom.id)} has no ${kind} ${quote(name)}`,
    hint === '' ? `Cite a ${kind} it has, or take the citation out.` : `Correct the citation.${hint}`,
  )
}

const withoutPrefix = (address: string, prefix: string): string[] =>
  address.startsWith(prefix) ? [address.slice(prefix.length)] : []

const refuse = (problem: string, fix: string): Lookup<never> => ({ ok: false, problem, fix })
