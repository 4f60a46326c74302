import { readFileSync } from 'node:fs'
import { contentHash, hashOf } from '../cache/content-hash.ts'
import type { Shop, Sourced } from '../describe/shop.ts'
import type { ShopSource } from '../read/shop-source.ts'
import type { Loom } from '../resolve/loom.ts'
import type { SiteInput } from '../wiki/site-input.ts'
import type { SiteMap } from '../wiki/site-map.ts'
import type { Keeping } from './picture-desk.ts'

/**
 * Gives what was made of a job before, or has it made. It must be plain data, and be the same as long as the files that describe the job
 * are; `besides` is whatever else it depends on.
 */
export type KeepJob = <T>(kind: string, loom: Loom, besides: string, make: () => T) => T

/** A file with only these in it changes nothing but the jobs it describes; what else there is may be used by any. */
const OF_JOBS: ReadonlySet<string> = new Set(['$schema', 'loomwright', 'harnesses', 'installations'])

const describesJobs = (data: unknown): boolean =>
  typeof data === 'object' && data !== null && Object.keys(data).every((key) => OF_JOBS.has(key))

interface Files {
  /** Hashes of files that describe jobs and nothing else, by document. */
  readonly own: ReadonlyMap<string, string>
  /** Hash of all other files. */
  readonly shared: string
}

function filesOf({ documents, texts, imported }: ShopSource): Files {
  const others = new Set(imported)
  const mixed = new Set(documents.filter(({ data }) => !describesJobs(data)).map(({ name }) => name))
  const isOwn = ({ name, path, kind }: ShopSource['texts'][number]): boolean =>
    (kind === 'json' || kind === 'typescript') &&
    !others.has(path) &&
    documents.some((document) => document.name === name) &&
    ![...mixed].some((one) => one === name || one.startsWith(`${name}+`))
  const own = new Map(texts.filter(isOwn).map(({ name, text }) => [name, contentHash(text)]))
  const known = new Set(texts.map(({ path }) => path))
  return {
    own,
    shared: hashOf(
      ...texts.filter(({ name }) => !own.has(name)).flatMap(({ name, text }) => [name, text]),
      ...imported.filter((path) => !known.has(path)).flatMap((path) => [path, readFileSync(path, 'utf8')]),
    ),
  }
}

/** Every document that describes anything of the name, since it takes looking at all to know which one counts. */
function documentsOf(list: readonly Sourced<{ readonly id: string }>[], ids: ReadonlySet<string>): string[] {
  return list.filter(({ value }) => ids.has(value.id)).map(({ at }) => at.doc)
}

/** Keeps what is made of jobs by the content of the files that describe them. */
export function keepJobs({ store, tool }: Keeping, source: ShopSource, shop: Shop): KeepJob {
  const files = filesOf(source)
  const keys = new Map<Loom, string>()
  const keyOf = (loom: Loom): string => {
    const harnesses = new Set(loom.looms.map((use) => use.harness.id))
    const documents = new Set([
      loom.at.doc,
      ...documentsOf(shop.harnesses, loom.kind === 'harness' ? harnesses.add(loom.id) : harnesses),
      ...documentsOf(shop.installations, new Set([loom.id])),
    ])
    const hashes = [...documents].sort().flatMap((name) => [name, files.own.get(name) ?? 'shared'])
    return hashOf(tool, files.shared, loom.kind, loom.id, ...hashes)
  }
  return (kind, loom, besides, make) => {
    const key = keys.get(loom) ?? keyOf(loom)
    keys.set(loom, key)
    const full = hashOf(kind, key, besides)
    const kept = store.get('job', full)
    if (kept !== undefined) return JSON.parse(kept)
    const made = make()
    store.put('job', full, JSON.stringify(made))
    return made
  }
}

/** Names, titles, revisions and the like: what is written straight in a thing and not in a list of it. */
const plainFacts = (thing: object): unknown[] =>
  Object.entries(thing).filter(([, value]) => value === null || typeof value !== 'object')

/** Everything that pages of one job show of the rest of the shop. */
export function shownOfOthers(
  map: SiteMap,
  { shop, history }: Omit<SiteInput, 'pictures'>,
  cwd: string,
): string {
  return JSON.stringify([
    cwd,
    shop.harnesses.map(({ value, at }) => [at, plainFacts(value)]),
    shop.installations.map(({ value, at }) => [
      at,
      plainFacts(value),
      value.looms,
      value.units.map((unit) => [unit.id, unit.of]),
    ]),
    map.harnesses.map(({ harness, job, use }) => [harness.id, job.loom.id, use.id, map.harness(harness.id)]),
    map.installations.map(({ loom }) => [loom.id, map.installation(loom.id)]),
    map.connectors.map((key) => [key, map.connector(key)]),
    [...(history ?? [])],
  ])
}
