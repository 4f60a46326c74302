import { mkdir, stat } from 'node:fs/promises'
import { dirname } from 'node:path'
import { codeOf } from './write-error.ts'

/**
 * Makes a folder and those above it that are missing. One at a time, each tried once: the recursive form of `mkdir` never
 * ends on a file system that says "no such file" instead of "not allowed", as /proc does.
 */
export async function makeFolder(path: string): Promise<void> {
  const found = await stat(path).catch(() => undefined)
  if (found?.isDirectory()) return
  const above = dirname(path)
  if (above !== path) await makeFolder(above)
  try {
    await mkdir(path)
  } catch (error) {
    // Another process may have made it meanwhile.
    if (codeOf(error) !== 'EEXIST' || !(await stat(path)).isDirectory()) throw error
  }
}
