import { readFile } from 'node:fs/promises'
import { resolve } from 'node:path'
import type { Arrangement } from '../draw/arrangement.ts'
import { arrangementText, parseArrangements } from '../draw/arrangement-file.ts'
import type { Loom, LoomUse } from '../resolve/loom.ts'
import { type Args, UsageError } from './command.ts'
import type { Io } from './io.ts'

/** What a wiring drawing is called in the file. */
export const drawingName = (loom: Loom, use: LoomUse | undefined): string =>
  use ? `harness ${use.harness.id}` : `${loom.kind} ${loom.id}`

/** How drawings were arranged the last time, and how they are now. */
export interface KeptArrangements {
  readonly before: (name: string) => Arrangement
  readonly note: (name: string, arranged: Arrangement) => void
  /** Writes the file where something is arranged otherwise than it says. */
  readonly save: () => Promise<void>
}

const NOTHING_KEPT: KeptArrangements = {
  before: () => [],
  note: () => undefined,
  save: async () => undefined,
}

async function textOf(path: string): Promise<string | undefined> {
  try {
    return await readFile(path, 'utf8')
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return undefined
    throw new UsageError(`cannot read the arrangement in ${path}`, 'name a file that can be read and written')
  }
}

/** The file of `--arranged`, which need not be there yet; without the option nothing is kept. Throws {@link UsageError}. */
export async function readArrangements(args: Args, io: Io): Promise<KeptArrangements> {
  const named = args.text('arranged')
  if (named === undefined) return NOTHING_KEPT
  if (!named.endsWith('.arranged.json'))
    throw new UsageError(
      `the file of --arranged ends in .arranged.json, so that it is not taken for a description; ${named} does not`,
      `--arranged ${named.replace(/\.json$/, '')}.arranged.json`,
    )
  const path = resolve(io.cwd, named)
  const text = await textOf(path)
  const read = text === undefined ? new Map<string, Arrangement>() : parseArrangements(text)
  if (!read)
    throw new UsageError(
      `${named} does not hold an arrangement of drawings`,
      'name the file of an earlier build, or one that is not there yet',
    )
  const now = new Map(read)
  return {
    before: (name) => read.get(name) ?? [],
    note: (name, arranged) => now.set(name, arranged),
    save: async () => {
      const fresh = arrangementText(now)
      if (fresh === text) return
      const { writeFileWhole } = await import('../write/write-file.ts')
      await writeFileWhole(path, fresh)
    },
  }
}
