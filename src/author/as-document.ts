import { type DocumentInput, SHAPE_VERSION } from '../describe/document.ts'
import { markOf, type TopKind } from './site.ts'

/** What builders made, and lists and records of it, to any depth. */
export type Things = object

const LISTS = {
  part: 'parts',
  equipment: 'equipment',
  harness: 'harnesses',
  installation: 'installations',
} as const satisfies Partial<Record<TopKind, keyof DocumentInput>>

/** How deep lists and records of exported things are searched; deeper is no description any more. */
const DEEPEST = 8

/**
 * Everything builders made among some values and within their lists and records, and whatever those things mention.
 * Each object comes once, a thing after what it mentions, in the order of writing. Anything else is passed over.
 */
export function gather(values: readonly unknown[]): object[] {
  const found = new Set<object>()
  const seen = new Set<object>()
  const visit = (value: unknown, depth: number): void => {
    if (typeof value !== 'object' || value === null || seen.has(value) || depth > DEEPEST) return
    seen.add(value)
    const known = markOf(value)
    if (known) {
      for (const used of known.uses) visit(used, 0)
      if (known.kind) found.add(value)
      return
    }
    if (Array.isArray(value)) for (const one of value) visit(one, depth + 1)
    else if (isRecord(value)) for (const one of Object.values(value)) visit(one, depth + 1)
  }
  for (const value of values) visit(value, 0)
  return [...found]
}

function isRecord(value: object): boolean {
  const prototype: unknown = Object.getPrototypeOf(value)
  return prototype === Object.prototype || prototype === null || !('constructor' in value)
}

/** A document of things that were gathered already. */
export function documentOf(things: readonly object[]): DocumentInput {
  const lists: Record<string, object[]> = {}
  let policy: object | undefined
  for (const thing of things) {
    const kind = markOf(thing)?.kind
    if (kind === 'policy') policy = thing
    else if (kind) {
      const list = lists[LISTS[kind]] ?? []
      lists[LISTS[kind]] = list
      list.push(thing)
    }
  }
  const inOrder = Object.values(LISTS).flatMap((name) => (lists[name] ? [[name, lists[name]]] : []))
  return {
    loomwright: SHAPE_VERSION,
    ...Object.fromEntries(inOrder),
    ...(policy ? { policy } : {}),
  } as DocumentInput
}

/**
 * The document of what builders made: plain data, ready for JSON. What a harness or an installation mentions comes along.
 * `asDocument(head, pickup17)`
 */
export function asDocument(...things: readonly Things[]): DocumentInput {
  return documentOf(gather(things))
}
