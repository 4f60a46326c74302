import { LIMITS } from '../describe/limits.ts'

export type PlainPath = readonly (string | number)[]

/** Values shared many times over are copied each time; beyond this many the data was not meant to be a description. */
const MOST_VALUES = 5_000_000

/** A value that JSON cannot hold, and where. */
export interface NotPlain {
  readonly path: PlainPath
  readonly what: string
}

/** The constructor's name, for values that are objects but no plain data. */
function kindOf(value: object): string {
  const made = value.constructor
  return typeof made === 'function' && made.name !== '' ? made.name : 'special'
}

function refused(value: unknown): string | undefined {
  if (typeof value === 'function') return 'a function'
  if (typeof value === 'symbol') return 'a symbol'
  if (typeof value === 'bigint') return `the big integer ${value}n`
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return undefined
  const prototype: unknown = Object.getPrototypeOf(value)
  const plain = prototype === null || Object.getPrototypeOf(prototype) === null
  return plain ? undefined : `an object of class ${kindOf(value)}`
}

/**
 * Copies data as its JSON would be: keys without a value fall away, hidden members too.
 * @returns the copy, or the first value that JSON cannot hold: a function, a class, a circle, nesting without end
 */
export function plainData(value: unknown): { readonly data: unknown } | { readonly problem: NotPlain } {
  const within = new Set<object>()
  const path: (string | number)[] = []
  let problem: NotPlain | undefined
  let values = 0
  const fail = (what: string): undefined => {
    problem ??= { path: [...path], what }
    return undefined
  }
  const copy = (from: unknown): unknown => {
    const reason = refused(from)
    if (reason !== undefined) return fail(`${reason} stands where plain data is needed`)
    if (typeof from !== 'object' || from === null) return from
    values += 1
    if (values > MOST_VALUES) return fail(`there are more than ${MOST_VALUES} values`)
    if (problem) return undefined
    if (within.has(from)) return fail('this object contains itself')
    if (path.length > LIMITS.depth) return fail(`lists and objects lie more than ${LIMITS.depth} deep`)
    within.add(from)
    const made = Array.isArray(from) ? copyList(from) : copyObject(from)
    within.delete(from)
    return made
  }
  const copyAt = (key: string | number, from: unknown): unknown => {
    path.push(key)
    const made = copy(from)
    path.pop()
    return made
  }
  const copyList = (from: readonly unknown[]): unknown[] =>
    Array.from(from, (entry, index) => copyAt(index, entry === undefined ? null : entry))
  const copyObject = (from: object): object => {
    const made: Record<string, unknown> = {}
    for (const [key, entry] of Object.entries(from)) {
      if (key === '__proto__') fail('“__proto__” is no key of a description')
      else if (entry !== undefined) made[key] = copyAt(key, entry)
    }
    return made
  }
  const data = copy(value)
  return problem ? { problem } : { data }
}
