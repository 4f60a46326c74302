import { access, readdir, readFile, writeFile } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { makeFolder } from '../write/make-folder.ts'
import { codeOf, writeError } from '../write/write-error.ts'
import { CLEAN, type Runner, UsageError } from './command.ts'
import { packageFile } from './package-file.ts'

async function exists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  )
}

async function copyStarter(from: string, names: readonly string[], folder: string): Promise<void> {
  try {
    await makeFolder(folder)
    // The flag refuses a file that came up since it was looked for.
    for (const name of names)
      await writeFile(join(folder, name), await readFile(join(from, name)), { flag: 'wx' })
  } catch (error) {
    const clash = codeOf(error) === 'EEXIST'
    throw clash
      ? new UsageError(`${folder} is a file, or came up while writing`, 'name another folder')
      : writeError(folder, error)
  }
}

/** `init FOLDER`: the starter, never over a file that is there. */
export const runInit: Runner = async (args, io) => {
  const shown = args.positionals[0] ?? '.'
  const folder = resolve(io.cwd, shown)
  const from = packageFile('templates/starter')
  const names = (await readdir(from)).sort()
  for (const name of names) {
    if (await exists(join(folder, name)))
      throw new UsageError(
        `${join(shown, name)} is there already, and nothing is written over`,
        'loomwright init NEW-FOLDER',
      )
  }
  await copyStarter(from, names, folder)
  io.out(
    `${[
      `Wrote ${names.map((name) => join(shown, name)).join(' and ')}.`,
      `  loomwright check ${shown}    says what is wrong with it (nothing yet)`,
      `  loomwright build ${shown}    draws it and publishes its pages into the folder out`,
    ].join('\n')}\n`,
  )
  return CLEAN
}
