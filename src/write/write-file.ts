import { randomBytes } from 'node:crypto'
import { open, rename, rm, stat } from 'node:fs/promises'
import { basename, dirname, join, resolve } from 'node:path'
import { makeFolder } from './make-folder.ts'
import { WriteError, writeError } from './write-error.ts'

/**
 * Writes one file whole or not at all: beside its place first, then by renaming. An old file of that name is replaced.
 * Throws {@link WriteError}.
 */
export async function writeFileWhole(path: string, content: string): Promise<void> {
  const target = resolve(path)
  const fresh = join(
    dirname(target),
    `.${basename(target)}.loomwright-new-${process.pid}-${randomBytes(4).toString('hex')}`,
  )
  try {
    const found = await stat(target).catch(() => undefined)
    if (found?.isDirectory())
      throw new WriteError(`cannot write ${path}: it is a folder`, 'give the name of a file')
    await makeFolder(dirname(target))
    const file = await open(fresh, 'wx')
    try {
      await file.writeFile(content)
      await file.sync()
    } finally {
      await file.close()
    }
    await rename(fresh, target)
  } catch (error) {
    await rm(fresh, { force: true }).catch(() => undefined)
    throw writeError(path, error)
  }
}
