import { randomBytes } from 'node:crypto'
import { open, readFile, realpath, rename, rm, stat } from 'node:fs/promises'
import { basename, dirname, join, relative, sep } from 'node:path'
import { WriteError, writeError } from './write-error.ts'

/** A file to be changed: what it must still hold, and what it is to hold. Neither has a byte order mark; the file keeps its own. */
export interface Replacement {
  /** Absolute. */
  readonly path: string
  /** As people call it. */
  readonly file: string
  readonly before: string
  readonly after: string
}

const BOM = Buffer.from([0xef, 0xbb, 0xbf])

const hasBom = (bytes: Buffer): boolean => bytes.subarray(0, 3).equals(BOM)

interface Ready {
  readonly target: string
  readonly file: string
  readonly mode: number
  readonly bytes: Buffer
}

/** Everything that can be found out before the first byte is written. */
async function prepare({ path, file, before, after }: Replacement, root: string): Promise<Ready> {
  const [target, top] = await Promise.all([realpath(path), realpath(root)])
  if (relative(top, target).startsWith('..') || !target.startsWith(top + sep))
    throw new WriteError(
      `${file} is not in the shop’s folder, so it was left alone`,
      'make the change by hand, or name its folder as well',
    )
  const facts = await stat(target)
  // The owner of everything may write it all the same; that somebody has locked it still means something.
  if ((facts.mode & 0o222) === 0)
    throw new WriteError(
      `${file} is read-only, so it was left alone`,
      'allow writing it, or apply the patch of --dry-run',
    )
  const bytes = await readFile(target)
  const bom = hasBom(bytes)
  if (!bytes.subarray(bom ? 3 : 0).equals(Buffer.from(before, 'utf8')))
    throw new WriteError(`${file} has changed since it was read, so it was left alone`, 'run it again')
  const fresh = Buffer.from(after, 'utf8')
  return { target, file, mode: facts.mode, bytes: bom ? Buffer.concat([BOM, fresh]) : fresh }
}

async function put({ target, mode, bytes }: Ready): Promise<void> {
  const fresh = join(
    dirname(target),
    `.${basename(target)}.loomwright-new-${process.pid}-${randomBytes(4).toString('hex')}`,
  )
  try {
    const file = await open(fresh, 'wx', mode)
    try {
      await file.writeFile(bytes)
      await file.chmod(mode)
      await file.sync()
    } finally {
      await file.close()
    }
    await rename(fresh, target)
  } catch (error) {
    await rm(fresh, { force: true }).catch(() => undefined)
    throw error
  }
}

/**
 * Changes text files of a shop, each whole or not at all. All are looked at before the first is written: if one lies outside the
 * folder, is read-only or no longer holds what was read, none is changed. Throws {@link WriteError}.
 */
export async function replaceTexts(replacements: readonly Replacement[], root: string): Promise<void> {
  const ready: Ready[] = []
  for (const one of replacements)
    ready.push(
      await prepare(one, root).catch((error: unknown) => {
        throw writeError(one.file, error)
      }),
    )
  for (const one of ready)
    await put(one).catch((error: unknown) => {
      throw writeError(one.file, error)
    })
}
