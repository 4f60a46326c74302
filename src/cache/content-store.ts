import { randomBytes } from 'node:crypto'
import {
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { dirname, join } from 'node:path'
import { deflateRawSync, inflateRawSync } from 'node:zlib'
import { contentHash } from './content-hash.ts'

/** Standing of the cache directory tagging proposal: backups leave a folder out that holds this file. */
const TAG = 'Signature: 8a477f597d28d172789f06886806bc55\n# Made by loomwright; may be deleted at any time.\n'
/** The form of the entries: another form lies in another folder and leaves this one to be pruned. */
export const FORM = 'v1'
const HASH_LENGTH = 64
/** Pages are mostly alike inside; packing them takes a tenth of the room and little time. */
const PACK_FROM_BYTES = 16 * 1024

/** The body of an entry begins with how it is written: `=` as it is, `z` packed. */
function bodyOf(content: string): Buffer {
  const bytes = Buffer.from(content)
  return bytes.length < PACK_FROM_BYTES
    ? Buffer.concat([Buffer.from('='), bytes])
    : Buffer.concat([Buffer.from('z'), deflateRawSync(bytes, { level: 1 })])
}

function contentOf(body: Buffer): string {
  const bytes = body.subarray(1)
  return (body.toString('latin1', 0, 1) === 'z' ? inflateRawSync(bytes) : bytes).toString('utf8')
}

/** An entry used again is marked as used, but not at every build: that would write as often as it reads. */
const MARK_AFTER_MS = 24 * 3600 * 1000

/**
 * Texts kept by a key in a folder. An entry carries the hash of its content, so one that was cut short, damaged or changed reads as
 * not there. Entries are written beside their place and renamed, so two builds at once or a crash never leave half of one under
 * its name. The cache only saves time: whatever goes wrong with it, the work is done without.
 */
export class ContentStore {
  readonly folder: string
  #usable = true

  /** @param folder need not exist; it is made when the first entry is kept */
  constructor(folder: string) {
    this.folder = folder
  }

  /** Where an entry lies. */
  path(kind: string, key: string): string {
    return join(this.folder, FORM, kind, key.slice(0, 2), key.slice(2))
  }

  /** What was kept, or undefined where nothing sound is. */
  get(kind: string, key: string): string | undefined {
    const path = this.path(kind, key)
    try {
      const entry = readFileSync(path)
      const body = entry.subarray(HASH_LENGTH)
      if (entry.toString('latin1', 0, HASH_LENGTH) !== contentHash(body)) {
        removeQuietly(path)
        return undefined
      }
      markUsed(path)
      return contentOf(body)
    } catch {
      return undefined
    }
  }

  /** Keeps a text. A full or read-only disk is no failure of the build. */
  put(kind: string, key: string, content: string): void {
    if (!this.#usable) return
    const path = this.path(kind, key)
    const fresh = `${path}.new-${process.pid}-${randomBytes(4).toString('hex')}`
    try {
      this.#prepare()
      mkdirSync(dirname(path), { recursive: true })
      const body = bodyOf(content)
      writeFileSync(fresh, Buffer.concat([Buffer.from(contentHash(body)), body]), { flag: 'wx' })
      renameSync(fresh, path)
    } catch {
      this.#usable = false
      removeQuietly(fresh)
    }
  }

  #prepare(): void {
    if (existsSync(join(this.folder, 'CACHEDIR.TAG'))) return
    mkdirSync(this.folder, { recursive: true })
    writeFileSync(join(this.folder, '.gitignore'), '*\n')
    writeFileSync(join(this.folder, 'CACHEDIR.TAG'), TAG)
  }
}

function removeQuietly(path: string): void {
  try {
    rmSync(path, { force: true })
  } catch {
    // Pruning takes it away.
  }
}

function markUsed(path: string): void {
  const now = Date.now()
  if (now - statSync(path).mtimeMs < MARK_AFTER_MS) return
  try {
    utimesSync(path, now / 1000, now / 1000)
  } catch {
    // A cache somebody else owns can be read all the same.
  }
}
