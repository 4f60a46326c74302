import type { Finding } from '../base/finding.ts'
import type { Pointer } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { type Document, document, SHAPE_VERSION } from './document.ts'
import { type Fault, faultsOf, shown } from './fault.ts'
import { LIMITS } from './limits.ts'
import { salvage } from './salvage.ts'
import { schemaOf } from './schema-path.ts'
import type { Procedure, Shop, Sourced } from './shop.ts'

/** A document as it was read: any data at all. */
export interface RawDocument {
  readonly name: string
  readonly data: unknown
}

/** A shop, what was wrong with its description, and how to find the written form of a value. */
export interface Description {
  readonly shop: Shop
  readonly findings: readonly Finding[]
  /** Pointers into the shop count the entries that could be used; this gives the pointer as written. Identity for a sound document. */
  readonly written: (pointer: Pointer) => Pointer
}

type Path = readonly (string | number)[]

const WHY =
  'A guess could end in a wrong crimp, so what does not fit is left out, and the rest is judged as if it were not there.'

/** Keys under which things name themselves, best first. */
const NAMES = ['id', 'core', 'shield', 'rule'] as const

function nameOf(thing: unknown): string | undefined {
  if (typeof thing !== 'object' || thing === null) return undefined
  const names = NAMES.map((key) => (thing as Record<string, unknown>)[key])
  return names.find((name): name is string => typeof name === 'string' && name !== '')?.slice(0, 64)
}

/** `pickup-head.A20.colour`: names of the things on the path, then what is left of it. */
function subjectOf(doc: string, data: unknown, path: Path): string {
  const words: string[] = []
  let at = data
  for (const [depth, key] of path.entries()) {
    at = typeof at === 'object' && at !== null ? (at as Record<string | number, unknown>)[key] : undefined
    if (typeof key === 'number') {
      const list = words.pop() ?? ''
      words.push(nameOf(at) ?? `${list}[${key}]`)
    } else if (key !== 'pins' || depth === path.length - 1) words.push(key)
  }
  return words.length > 0 ? words.join('.') : doc
}

function finding(doc: RawDocument, fault: Fault): Finding {
  const subject = subjectOf(doc.name, doc.data, fault.path)
  const owner = subjectOf(doc.name, doc.data, fault.path.slice(0, -1))
  const named = fault.path.length > 1 ? `${owner}: ` : ''
  return {
    rule: 'description-shape',
    level: 'stop',
    subject,
    what: `${named}${fault.what}`,
    why: WHY,
    fix: fault.fix,
    assumed: [],
    facts: {},
    at: { doc: doc.name, path: fault.path },
    notes: [],
    cause: `description-shape ${doc.name} ${fault.cause}`,
    marks: [],
  }
}

/** Whether the document says it follows a shape this tool reads; a fault if not. */
function versionFault(data: unknown): Fault | undefined {
  const at = (path: Path, what: string, fix: string): Fault => ({ path, what, fix, cause: 'version' })
  const start = `Begin the document with { "loomwright": ${SHAPE_VERSION}, … }.`
  if (typeof data !== 'object' || data === null || Array.isArray(data))
    return at([], `${shown(data)} is not a description, which is an object in braces`, start)
  const version: unknown = 'loomwright' in data ? data.loomwright : undefined
  if (version === SHAPE_VERSION) return undefined
  if (version === undefined) return at([], 'the version of the description is missing', start)
  if (typeof version === 'number' && version > SHAPE_VERSION)
    return at(
      ['loomwright'],
      `the description follows shape ${version}, and this tool reads up to ${SHAPE_VERSION}`,
      'Bring the tool up to date.',
    )
  const older = typeof version === 'number' && Number.isInteger(version) && version > 0
  return at(
    ['loomwright'],
    older
      ? `the description follows shape ${version}, and this tool reads ${SHAPE_VERSION}`
      : `${shown(version)} is not a version of the description`,
    `Write "loomwright": ${SHAPE_VERSION}, a number without quotation marks; what changed since is then pointed out.`,
  )
}

interface Understood {
  readonly value: Document | undefined
  readonly faults: readonly Fault[]
  readonly written?: (path: Path) => (string | number)[]
}

function understand(data: unknown): Understood {
  const outdated = versionFault(data)
  if (outdated) return { value: undefined, faults: [outdated] }
  const read = document.safeParse(data)
  if (read.success) return { value: read.data, faults: [] }
  const root = schemaOf(document)
  const faults = read.error.issues.slice(0, LIMITS.faults).flatMap((issue) => faultsOf(root, data, issue))
  const saved = salvage(document, data)
  return saved ? { value: saved.value, faults, written: saved.written } : { value: undefined, faults }
}

function sourced<T>(doc: string, key: string, list: readonly T[] | undefined): Sourced<T>[] {
  return (list ?? []).map((value, index) => ({ value, at: { doc, path: [key, index] } }))
}

function secondPolicy(doc: RawDocument, first: Pointer): Finding {
  return {
    ...finding(doc, {
      path: ['policy'],
      what: `a second shop policy, after the one in ${quote(first.doc)}`,
      fix: 'Move all decisions into one policy.',
      cause: 'policy',
    }),
    why: 'Two policies could say opposite things; the first one is used.',
    notes: [{ text: 'the policy that is used', at: first }],
  }
}

/**
 * Reads documents by the shape of the description. Never throws, whatever the data.
 * Each fault is a finding of rule `description-shape` at the value itself. What is broken is left out, the rest is used.
 */
export function describeShop(
  documents: readonly RawDocument[],
  procedures: readonly Procedure[] = [],
): Description {
  const findings: Finding[] = []
  const written = new Map<string, (path: Path) => (string | number)[]>()
  const shop = {
    parts: [] as Shop['parts'][number][],
    equipment: [] as Shop['equipment'][number][],
    harnesses: [] as Shop['harnesses'][number][],
    installations: [] as Shop['installations'][number][],
    policy: undefined as Shop['policy'],
    procedures,
  }
  for (const doc of documents) {
    const { value, faults, written: back } = understand(doc.data)
    findings.push(...faults.map((fault) => finding(doc, fault)))
    if (back) written.set(doc.name, back)
    if (!value) continue
    shop.parts.push(...sourced(doc.name, 'parts', value.parts))
    shop.equipment.push(...sourced(doc.name, 'equipment', value.equipment))
    shop.harnesses.push(...sourced(doc.name, 'harnesses', value.harnesses))
    shop.installations.push(...sourced(doc.name, 'installations', value.installations))
    if (value.policy && shop.policy) findings.push(secondPolicy(doc, shop.policy.at))
    else if (value.policy) shop.policy = { value: value.policy, at: { doc: doc.name, path: ['policy'] } }
  }
  return {
    shop,
    findings,
    written: ({ doc, path }) => ({ doc, path: written.get(doc)?.(path) ?? path }),
  }
}
