import type { Mark } from '../../author/site.ts'
import type { CrossedMark, CrossedNode, Crossing, Odd } from './answer.ts'
import { APART } from './limits.ts'

function oddOf(value: unknown): Odd | undefined {
  if (value === undefined) return { odd: 'undefined' }
  if (typeof value === 'function') return { odd: 'function' }
  if (typeof value === 'symbol') return { odd: 'symbol' }
  if (typeof value === 'bigint') return { odd: 'bigint' }
  if (typeof value === 'number' && !Number.isFinite(value)) return { odd: String(value) as Odd['odd'] }
  return undefined
}

/** The class of an object that is no plain data, or undefined for plain data. */
function classOf(value: object): string | undefined {
  const prototype: unknown = Object.getPrototypeOf(value)
  if (prototype === null || Object.getPrototypeOf(prototype) === null) return undefined
  const made: unknown = value.constructor
  return typeof made === 'function' && made.name !== '' ? String(made.name).slice(0, 80) : 'special'
}

/**
 * Turns values into a flat list of nodes that JSON can hold. Works through a list of its own instead of calling itself, so
 * that nesting without end does not end the interpreter. Throws when there is more than may come back.
 */
export class Encoder {
  readonly nodes: CrossedNode[] = []
  readonly #seen = new Map<object, number>()
  readonly #waiting: object[] = []
  readonly #markOf: (object: object) => Mark | undefined
  #values = 0

  constructor(markOf: (object: object) => Mark | undefined) {
    this.#markOf = markOf
  }

  #count(more: number): void {
    this.#values += more
    if (this.#values > APART.values) throw new RangeError(`there are more than ${APART.values} values`)
  }

  cross(value: unknown): Crossing {
    const odd = oddOf(value)
    if (odd) return odd
    if (typeof value !== 'object' || value === null) return value as string | number | boolean | null
    const known = this.#seen.get(value)
    if (known !== undefined) return [known]
    const index = this.#seen.size
    this.#seen.set(value, index)
    this.#waiting.push(value)
    return [index]
  }

  /** Works off what was met so far. */
  finish(): void {
    for (let next = this.#waiting[this.nodes.length]; next; next = this.#waiting[this.nodes.length])
      this.nodes.push(this.#node(next))
  }

  #node(object: object): CrossedNode {
    const noted = this.#markOf(object)
    const mark = noted ? { mark: this.#mark(noted) } : {}
    if (Array.isArray(object)) {
      this.#count(object.length + 1)
      return { list: Array.from(object, (entry) => this.cross(entry)), ...mark }
    }
    const of = classOf(object)
    this.#count(1)
    if (of !== undefined) return { of, ...mark }
    const keys = Object.keys(object)
    this.#count(keys.length)
    return { keys, values: keys.map((key) => this.cross((object as Record<string, unknown>)[key])), ...mark }
  }

  #mark({ kind, lands, args, route, frames, uses }: Mark): CrossedMark {
    return {
      ...(kind ? { kind } : {}),
      ...(lands ? { lands } : {}),
      args,
      cable: route !== undefined,
      frames: frames.map((frame) => [frame.getLineNumber() ?? 0, frame.getColumnNumber() ?? 0] as const),
      uses: uses.map((used) => this.cross(used)),
    }
  }
}
