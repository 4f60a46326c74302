import type * as z from 'zod'

type Container = Record<string | number, unknown>
type Path = readonly PropertyKey[]

const GONE = Symbol('left out')
/** A removal can make the thing around it incomplete; the shape is less deep than this. */
const ROUNDS = 16

/** A document with its broken parts left out, and where its list entries stood before. */
export interface Salvaged<T> {
  readonly value: T
  /** The path in the document as written, for a path in the salvaged one. */
  readonly written: (path: readonly (string | number)[]) => (string | number)[]
}

const isContainer = (value: unknown): value is Container => typeof value === 'object' && value !== null

/** Copies what it changes, once, so that the caller's data stays whole and a thousand removals stay cheap. */
class Cutter {
  readonly #copies = new Set<object>()
  readonly #indexes = new Map<object, number[]>()
  readonly #holed = new Set<unknown[]>()
  data: unknown

  constructor(data: unknown) {
    this.data = this.#own(data)
  }

  #own(value: unknown): unknown {
    if (!isContainer(value) || this.#copies.has(value)) return value
    const copy = Array.isArray(value) ? [...value] : { ...value }
    this.#copies.add(copy)
    if (Array.isArray(value))
      this.#indexes.set(
        copy,
        value.map((_, index) => index),
      )
    return copy
  }

  /** Takes the value at a path away; where nothing stands there, what should hold it. False at the root. */
  remove(path: Path): boolean {
    if (path.length === 0) return false
    let parent = this.data as Container
    for (const [depth, key] of path.slice(0, -1).entries()) {
      const child = this.#own(parent[key as string])
      if (!isContainer(child)) return child === GONE || this.remove(path.slice(0, depth))
      parent[key as string] = child
      parent = child
    }
    const last = path.at(-1) as string
    if (!Object.hasOwn(parent, last) || parent[last] === undefined) return this.remove(path.slice(0, -1))
    if (!Array.isArray(parent)) return delete parent[last]
    parent[Number(last)] = GONE
    this.#holed.add(parent)
    return true
  }

  /** Closes the gaps in lists, remembering the old indexes. */
  close(): void {
    for (const holed of this.#holed) {
      const kept = (this.#indexes.get(holed) ?? []).filter((_, index) => holed[index] !== GONE)
      const rest = holed.filter((entry) => entry !== GONE)
      holed.splice(0, holed.length, ...rest)
      this.#indexes.set(holed, kept)
    }
    this.#holed.clear()
  }

  written(path: readonly (string | number)[]): (string | number)[] {
    let at = this.data
    return path.map((key) => {
      const before = isContainer(at) && typeof key === 'number' ? this.#indexes.get(at)?.[key] : undefined
      at = isContainer(at) ? at[key] : undefined
      return before ?? key
    })
  }
}

/**
 * Leaves out what does not fit the schema: the faulty value, or the smallest thing around it that can be left out.
 * Undefined if nothing remains.
 */
export function salvage<T>(schema: z.ZodType<T>, data: unknown): Salvaged<T> | undefined {
  const cutter = new Cutter(data)
  for (let round = 0; round < ROUNDS; round++) {
    const read = schema.safeParse(cutter.data)
    if (read.success) return { value: read.data, written: (path) => cutter.written(path) }
    for (const issue of read.error.issues) {
      const paths =
        issue.code === 'unrecognized_keys' ? issue.keys.map((key) => [...issue.path, key]) : [issue.path]
      for (const path of paths) if (!cutter.remove(path)) return undefined
    }
    cutter.close()
  }
  return undefined
}
