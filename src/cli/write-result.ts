import { resolve } from 'node:path'
import { writeFileWhole } from '../write/write-file.ts'
import { UsageError } from './command.ts'
import type { Io } from './io.ts'

/**
 * Sends the result of a command to a file, or to standard output when none is named.
 * A file that was read for this very run is never written over: one slip would cost a description.
 */
export async function writeResult(
  text: string,
  file: string | undefined,
  io: Io,
  inputs: readonly string[] = [],
): Promise<void> {
  if (file === undefined) {
    io.out(text)
    return
  }
  const path = resolve(io.cwd, file)
  if (inputs.some((input) => resolve(io.cwd, input) === path))
    throw new UsageError(`${file} is one of the files that were read`, 'name another file to write to')
  await writeFileWhole(path, text)
  io.err(`wrote ${file}\n`)
}
