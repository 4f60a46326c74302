import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { hashOf } from './content-hash.ts'

/** Sources and bundles alike lie two folders below the top of the package. */
const TOP = fileURLToPath(new URL('../..', import.meta.url))
/** Written when the package is built: the hash of everything that was bundled and of the packages it asks for. */
const BUILD_ID = join(dirname(fileURLToPath(import.meta.url)), '..', 'build-id')
/** What else pages are made from. */
const LOOK = ['templates', 'site']

function lookOf(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ name }) => name)
    .sort()
    .flatMap((name) => [name, readFileSync(join(folder, name), 'utf8')])
}

/**
 * A hash of everything of this tool that can show in its results: its code, its templates and styles, and the runtime, which sorts
 * and rounds. Undefined where the code is run from its sources: it may change at any moment, so nothing is kept from it.
 */
export function toolIdentity(): string | undefined {
  try {
    const build = readFileSync(BUILD_ID, 'utf8').trim()
    return hashOf(build, process.version, ...LOOK.flatMap((folder) => lookOf(join(TOP, folder))))
  } catch {
    return undefined
  }
}
