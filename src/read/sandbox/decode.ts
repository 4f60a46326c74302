import * as z from 'zod'
import { routeInCall } from '../../author/cable.ts'
import { type Frame, type Mark, remember } from '../../author/site.ts'
import { APART } from './limits.ts'

const text = z.string().max(APART.answerLength)
const crossing = z.union([
  text,
  z.number(),
  z.boolean(),
  z.null(),
  z.tuple([z.int().nonnegative()]),
  z.strictObject({
    odd: z.enum(['undefined', 'function', 'symbol', 'NaN', 'Infinity', '-Infinity', 'bigint']),
  }),
])
const spot = z.tuple([z.int().nonnegative(), z.int().nonnegative()])
const mark = z.strictObject({
  kind: z.enum(['part', 'equipment', 'harness', 'installation', 'policy']).optional(),
  lands: z.enum(['connectors', 'splices', 'components']).optional(),
  args: z.array(z.string()).max(16),
  cable: z.boolean(),
  frames: z.array(spot).max(16),
  uses: z.array(crossing),
})
const node = z.strictObject({
  list: z.array(crossing).optional(),
  keys: z.array(text).optional(),
  values: z.array(crossing).optional(),
  of: text.optional(),
  mark: mark.optional(),
})
const file = z.strictObject({
  names: z.array(text).optional(),
  values: z.array(crossing).optional(),
  message: text.optional(),
  at: spot.optional(),
})
const whole = z.strictObject({ files: z.array(file), nodes: z.array(node).max(APART.values) })

type Crossing = z.output<typeof crossing>
type Node = z.output<typeof node>

/** A file as it was described inside: its exports, or the words of what it threw. */
export type Decoded =
  | { readonly exported: Readonly<Record<string, unknown>> }
  | { readonly message: string; readonly at: readonly [line: number, column: number] | undefined }

const ODD: Readonly<Record<string, unknown>> = {
  undefined,
  function: () => undefined,
  symbol: Symbol('its own'),
  NaN: Number.NaN,
  Infinity: Number.POSITIVE_INFINITY,
  '-Infinity': Number.NEGATIVE_INFINITY,
  bigint: 0n,
}

/** An object that stands for one of a class, so that it is refused by the name of its class. */
function ofClass(name: string): object {
  const made = Object.defineProperty(() => undefined, 'name', { value: name })
  return Object.create(Object.create(Object.prototype, { constructor: { value: made } }) as object) as object
}

const shell = ({ list, of }: Node): object => (list ? [] : of === undefined ? {} : ofClass(of))

/** Sets a member whatever its name; `__proto__` becomes a plain key, which is refused later with its place. */
function set(object: object, key: string | number, value: unknown): void {
  Object.defineProperty(object, key, { value, enumerable: true, writable: true, configurable: true })
}

class Nodes {
  readonly #objects: readonly object[]

  constructor(nodes: readonly Node[], scriptPath: string) {
    this.#objects = nodes.map(shell)
    for (const [index, one] of nodes.entries()) this.#fill(this.#objects[index] ?? {}, one, scriptPath)
  }

  value(crossed: Crossing): unknown {
    if (Array.isArray(crossed)) return this.#objects[crossed[0]]
    return typeof crossed === 'object' && crossed !== null ? ODD[crossed.odd] : crossed
  }

  #fill(object: object, { list, keys, values, mark: noted }: Node, scriptPath: string): void {
    for (const [index, entry] of (list ?? []).entries()) set(object, index, this.value(entry))
    for (const [index, key] of (keys ?? []).entries()) set(object, key, this.value(values?.[index] ?? null))
    if (noted) remember(object, this.#mark(noted, scriptPath))
  }

  #mark({ kind, lands, args, cable, frames, uses }: z.output<typeof mark>, scriptPath: string): Mark {
    const objects = uses
      .map((used) => this.value(used))
      .filter((used) => typeof used === 'object' && used !== null)
    return {
      ...(kind ? { kind } : {}),
      ...(lands ? { lands } : {}),
      ...(cable ? { route: routeInCall } : {}),
      args,
      uses: objects as object[],
      frames: frames.map(
        ([line, column]): Frame => ({
          getFileName: () => scriptPath,
          getLineNumber: () => line,
          getColumnNumber: () => column,
        }),
      ),
    }
  }
}

/**
 * Builds the objects an answer describes, as plain data of our own, with what the builders noted about them.
 * Nothing of the answer is believed: undefined if it is not shaped as an answer for that many files.
 */
export function decode(answer: string, files: number, scriptPath: string): Decoded[] | undefined {
  let parsed: unknown
  try {
    parsed = JSON.parse(answer)
  } catch {
    return undefined
  }
  const checked = whole.safeParse(parsed)
  if (!checked.success || checked.data.files.length !== files) return undefined
  const nodes = new Nodes(checked.data.nodes, scriptPath)
  return checked.data.files.map(({ names, values, message, at }): Decoded => {
    if (message !== undefined) return { message, at }
    const exported: Record<string, unknown> = {}
    for (const [index, name] of (names ?? []).entries())
      set(exported, name, nodes.value(values?.[index] ?? null))
    return { exported }
  })
}
