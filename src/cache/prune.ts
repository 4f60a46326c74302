import { readdirSync, rmdirSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'

/** How large a cache may grow, in bytes, and how long an entry may lie unused, in milliseconds. */
export interface CacheLimits {
  readonly bytes: number
  readonly unusedMs: number
}

export const CACHE_LIMITS: CacheLimits = { bytes: 512 * 1024 * 1024, unusedMs: 30 * 24 * 3600 * 1000 }

/** A cache is looked through at most this often. */
const EVERY_MS = 24 * 3600 * 1000
const UNFINISHED = /\.new-\d+-[0-9a-f]+$/
/** What a build that still runs may be writing. */
const UNFINISHED_MS = 3600 * 1000

interface Entry {
  readonly path: string
  readonly bytes: number
  readonly usedAt: number
}

function entriesOf(folder: string): Entry[] {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
  return names.flatMap((entry) => {
    const path = join(entry.parentPath, entry.name)
    // What stands in the folder itself says what it is.
    if (!entry.isFile() || entry.parentPath === folder) return []
    const facts = statSync(path, { throwIfNoEntry: false })
    return facts ? [{ path, bytes: facts.size, usedAt: facts.mtimeMs }] : []
  })
}

function remove(path: string): void {
  rmSync(path, { force: true })
  try {
    rmdirSync(dirname(path))
  } catch {
    // Other entries are in it.
  }
}

/** Takes away what was not used for long, then what was used longest ago until the rest is small enough. */
export function prune(folder: string, now: number, limits: CacheLimits = CACHE_LIMITS): void {
  const entries = entriesOf(folder).sort((a, b) => b.usedAt - a.usedAt)
  let bytes = 0
  for (const { path, bytes: size, usedAt } of entries) {
    bytes += size
    const age = now - usedAt
    if (bytes > limits.bytes || age > limits.unusedMs || (UNFINISHED.test(path) && age > UNFINISHED_MS))
      remove(path)
  }
}

/** Prunes a cache unless that was done a short while ago. Never throws. */
export function pruneNowAndThen(folder: string, now = Date.now()): void {
  const mark = join(folder, 'pruned')
  try {
    const last = statSync(mark, { throwIfNoEntry: false })?.mtimeMs ?? 0
    if (now - last < EVERY_MS) return
    writeFileSync(mark, '')
    prune(folder, now)
  } catch {
    // No cache, or none we may change.
  }
}
