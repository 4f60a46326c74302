import { type DocumentInput, document } from '../../src/describe/document.ts'
import type { Shop, Sourced } from '../../src/describe/shop.ts'
import type { Loom } from '../../src/resolve/loom.ts'
import { type ResolvedShop, resolveShop } from '../../src/resolve/resolve.ts'

type Content = Omit<DocumentInput, 'loomwright'>

/** A shop described in one document called `job.json`. */
export function shopOf(content: Content): Shop {
  const read = document.parse({ loomwright: 1, ...content })
  const list = <T>(key: string, items: readonly T[] | undefined): Sourced<T>[] =>
    (items ?? []).map((value, index) => ({ value, at: { doc: 'job.json', path: [key, index] } }))
  return {
    parts: list('parts', read.parts),
    equipment: list('equipment', read.equipment),
    harnesses: list('harnesses', read.harnesses),
    installations: list('installations', read.installations),
    policy: read.policy ? { value: read.policy, at: { doc: 'job.json', path: ['policy'] } } : undefined,
    procedures: [],
  }
}

export function resolved(content: Content): ResolvedShop {
  return resolveShop(shopOf(content))
}

/** The only loom of a document. */
export function loomOf(content: Content): Loom {
  const { looms } = resolved(content)
  const [loom] = looms
  if (!loom || looms.length !== 1) throw new Error(`expected one loom, got ${looms.length}`)
  return loom
}
