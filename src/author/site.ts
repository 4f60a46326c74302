/** One step of a call stack, as V8 hands it out. Lines and columns are worked out only when they are read. */
export interface Frame {
  getFileName(): string | null | undefined
  getLineNumber(): number | null
  getColumnNumber(): number | null
}

/** The lists of a document that a builder's object may stand in by itself. */
export type TopKind = 'part' | 'equipment' | 'harness' | 'installation' | 'policy'

/** What a conductor can land on. */
export type LandingKind = 'connectors' | 'splices' | 'components'

type Path = readonly (string | number)[]
export type Route = (object: object, path: Path) => Path

/** What is remembered about an object that a builder made; never part of the object itself. */
export interface Mark {
  /** Set for objects that a document lists; left out for wires, connectors and other inner things. */
  readonly kind?: TopKind
  /** Set for the things in a harness that a conductor can land on. */
  readonly lands?: LandingKind
  /** Calls that led to the object, the builder's caller first. Empty where the engine offers no call sites. */
  readonly frames: readonly Frame[]
  /** Keys of the object that the builder takes as plain arguments, in order; an empty name for one that is no key. */
  readonly args: readonly string[]
  /** For an object whose data is laid out otherwise than its call: the path to a value as the call has it. */
  readonly route?: Route
  /** Equipment, harnesses and parts the object mentions by name, so that nobody has to export them as well. */
  readonly uses: readonly object[]
}

type Callable = (...values: never[]) => unknown

interface Tracing {
  captureStackTrace?: (target: object, cut: Callable) => void
  prepareStackTrace?: unknown
  stackTraceLimit?: number
}

/** Enough to see past a helper function and a loop; more would be paid for by every object. */
const FRAMES = 4

// Keyed by the object, so that a description stays plain data and forgotten objects are forgotten here too.
const marks = new WeakMap<object, Mark>()

/** The calls above `cut`, nearest first. Only V8 offers them; elsewhere places fall back to the file. */
function framesAbove(cut: Callable): readonly Frame[] {
  const tracing = Error as unknown as Tracing
  if (typeof tracing.captureStackTrace !== 'function') return []
  const { prepareStackTrace, stackTraceLimit } = tracing
  const target: { stack?: unknown } = {}
  try {
    tracing.prepareStackTrace = (_: unknown, frames: unknown) => frames
    tracing.stackTraceLimit = FRAMES
    tracing.captureStackTrace(target, cut)
    return Array.isArray(target.stack) ? (target.stack as Frame[]) : []
  } finally {
    tracing.prepareStackTrace = prepareStackTrace
    tracing.stackTraceLimit = stackTraceLimit as number
  }
}

export interface MarkOptions {
  readonly kind?: TopKind
  readonly lands?: LandingKind
  readonly args?: readonly string[]
  readonly route?: Route
  readonly uses?: readonly (object | undefined)[]
}

/**
 * Notes where an object was written: at the call of the public builder `cut`. Returns the object.
 * The frame nearest to the builder is kept first. Where a helper function of the shop made the object, the frames of the
 * helper's callers follow; whoever prints a place picks the frame in which the name or the value in question is written.
 */
export function mark<T extends object>(object: T, cut: Callable, options: MarkOptions = {}): T {
  marks.set(object, {
    frames: framesAbove(cut),
    args: options.args ?? [],
    uses: (options.uses ?? []).filter((used) => used !== undefined),
    ...(options.kind ? { kind: options.kind } : {}),
    ...(options.route ? { route: options.route } : {}),
    ...(options.lands ? { lands: options.lands } : {}),
  })
  return object
}

/** Lets a changed copy stand where its original was written. */
export function markAs<T extends object>(copy: T, original: object): T {
  const known = marks.get(original)
  if (known) marks.set(copy, known)
  return copy
}

/** Notes about an object what was noted about it elsewhere, where its builder ran. */
export function remember(object: object, noted: Mark): void {
  marks.set(object, noted)
}

/** What is known about an object, or undefined if no builder made it. */
export const markOf = (object: object): Mark | undefined => marks.get(object)

/** Adds a member that is not data: it is neither listed, copied nor written to JSON. */
export function hide<T extends object>(object: T, members: Readonly<Record<string, unknown>>): T {
  for (const [name, value] of Object.entries(members)) Object.defineProperty(object, name, { value })
  return object
}

/** A copy without the keys whose value is undefined, so that the object is what its JSON is. */
export function tidy<T extends object>(object: T): T {
  return Object.fromEntries(Object.entries(object).filter(([, value]) => value !== undefined)) as T
}
