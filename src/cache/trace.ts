import { lstatSync, readdirSync, readFileSync, realpathSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { contentHash, hashOf } from './content-hash.ts'

/** What something looked like when it was read: the hash of a file, or of the names in a folder. */
export type Trace = readonly (readonly [path: string, state: string])[]

const ABSENT = 'absent'

/** What a listing says of an entry. What a link leads to decides how it is taken. */
function entryState(folder: string, name: string, kind: string): string {
  if (kind !== 'link') return `${kind} ${name}`
  try {
    return `${kind} ${name} ${realpathSync(join(folder, name))}`
  } catch {
    return `${kind} ${name}`
  }
}

/** Hidden entries are never read; results, caches and what editors leave behind come and go without meaning anything. */
function folderState(path: string): string {
  const entries = readdirSync(path, { withFileTypes: true }).filter(({ name }) => !name.startsWith('.'))
  const states = entries.map((entry) => {
    const kind = entry.isDirectory() ? 'folder' : entry.isSymbolicLink() ? 'link' : 'file'
    return entryState(path, entry.name, kind)
  })
  return hashOf(...states.sort())
}

/** The state of a file or folder now; one that is missing or closed to us has a state too. */
export function stateOf(path: string): string {
  try {
    return contentHash(readFileSync(path))
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'EISDIR')) return ABSENT
  }
  try {
    return folderState(path)
  } catch {
    return ABSENT
  }
}

export function traceOf(paths: Iterable<string>): Trace {
  return [...new Set(paths)].sort().map((path) => [path, stateOf(path)])
}

/** Whether everything still is as it was. */
export const isUnchanged = (trace: Trace): boolean => trace.every(([path, state]) => stateOf(path) === state)

/** Time stamps of some disks are this coarse. */
const COARSE_MS = 2000
const FINE_MS = 20

/**
 * Whether nothing was changed since a moment, by the time of the last change of content, name or rights. What changed while it was being
 * read may have been read in its old form, so a trace of it taken now would vouch for what was never seen.
 */
export function isOlderThan(
  paths: readonly string[],
  momentMs: number,
  isOutput: (folder: string) => boolean,
): boolean {
  const known = new Set(paths)
  return paths.every((path) => {
    const facts = statSync(path, { throwIfNoEntry: false })
    if (!facts) return false
    // A folder changes with whatever is written into it, so its entries are asked instead.
    return facts.isDirectory()
      ? entriesOf(path).every((entry) => known.has(entry) || isOutput(entry) || isOld(entry, momentMs))
      : isOld(path, momentMs)
  })
}

const entriesOf = (folder: string): string[] =>
  readdirSync(folder)
    .filter((name) => !name.startsWith('.'))
    .map((name) => join(folder, name))

function isOld(path: string, momentMs: number): boolean {
  const changed = lstatSync(path, { throwIfNoEntry: false })?.ctimeMs
  if (changed === undefined) return false
  const margin = changed % 1000 === 0 ? COARSE_MS : FINE_MS
  return changed <= momentMs - margin
}
