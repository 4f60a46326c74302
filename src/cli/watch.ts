import { type FSWatcher, watch as watchFolder } from 'node:fs'
import { readdir, stat } from 'node:fs/promises'
import { dirname, extname, join, sep } from 'node:path'
import { isOutputFolder } from '../write/write-output.ts'

/** Saving one file makes several events, and saving all files many; work starts when it has been quiet this long, in ms. */
const QUIET_MS = 120
const DEEPEST = 16
const WATCHED = new Set(['.ts', '.mts', '.cts', '.js', '.mjs', '.json', '.jsonc', '.md', '.hbs'])
const SKIPPED = new Set(['node_modules', 'dist'])

export interface WatchOptions {
  /** Folders and files named by the user, absolute. */
  readonly inputs: readonly string[]
  /** Builds once, whatever the outcome, and names the files and folders that were read, absolute; it never throws. */
  readonly build: () => Promise<readonly string[]>
  /** Ends watching. */
  readonly signal?: AbortSignal
}

const isHidden = (name: string): boolean => name.startsWith('.') || SKIPPED.has(name)

/** A folder and all below it that may hold descriptions; folders we made ourselves are left out, or a build would start the next. */
async function foldersBelow(folder: string, depth: number): Promise<string[]> {
  if (depth > DEEPEST || isOutputFolder(folder)) return []
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => [])
  const inner = entries.filter((entry) => entry.isDirectory() && !isHidden(entry.name))
  const below = await Promise.all(inner.map(({ name }) => foldersBelow(join(folder, name), depth + 1)))
  return [folder, ...below.flat()]
}

function isFolder(path: string): Promise<boolean> {
  return stat(path).then(
    (entry) => entry.isDirectory(),
    () => false,
  )
}

/** Every folder in which a change may matter: those named, those below them, and those of files that were read from elsewhere. */
async function foldersOf(inputs: readonly string[], files: readonly string[]): Promise<Set<string>> {
  const found = new Set<string>()
  for (const input of inputs) {
    const below = (await isFolder(input)) ? await foldersBelow(input, 0) : [dirname(input)]
    for (const folder of below) found.add(folder)
  }
  for (const read of files) found.add((await isFolder(read)) ? read : dirname(read))
  return found
}

/** A change in a file that is read, or a folder that came or went (which has no ending). */
function matters(folder: string, name: string | null, inputs: readonly string[]): boolean {
  if (name === null) return true
  if (isHidden(name)) return false
  const path = join(folder, name)
  if (isOutputFolder(path)) return false
  const ending = extname(name)
  return WATCHED.has(ending) || (ending === '' && inputs.some((input) => path.startsWith(input + sep)))
}

/** Wakes the loop; changes during a build are kept for the next one. */
class Bell {
  #wake: (() => void) | undefined
  #rung = false

  ring(): void {
    this.#rung = true
    this.#wake?.()
  }

  /** Forgets what the coming build will see anyway. */
  still(): void {
    this.#rung = false
  }

  async next(): Promise<void> {
    if (!this.#rung)
      await new Promise<void>((wake) => {
        this.#wake = wake
      })
    this.#wake = undefined
  }
}

/** Watches single folders, since watching whole trees is not to be had on every system. */
class Watchers {
  readonly #open = new Map<string, FSWatcher>()
  readonly #onChange: (folder: string, name: string | null) => void

  constructor(onChange: (folder: string, name: string | null) => void) {
    this.#onChange = onChange
  }

  /** Watches exactly these folders; one that has gone meanwhile is passed over. */
  set(folders: ReadonlySet<string>): void {
    for (const [folder, watcher] of this.#open) {
      if (folders.has(folder)) continue
      watcher.close()
      this.#open.delete(folder)
    }
    for (const folder of folders) if (!this.#open.has(folder)) this.#add(folder)
  }

  #add(folder: string): void {
    try {
      const watcher = watchFolder(folder, (_, name) => this.#onChange(folder, name))
      watcher.on('error', () => {
        watcher.close()
        this.#open.delete(folder)
        this.#onChange(folder, null)
      })
      this.#open.set(folder, watcher)
    } catch {
      // It went away between listing and watching; the event of its parent brings the next build.
    }
  }
}

/** Builds now, and again whenever something that was read changes. Ends when the signal says so, which may be never. */
export async function watch({ inputs, build, signal }: WatchOptions): Promise<void> {
  const bell = new Bell()
  const watchers = new Watchers((folder, name) => {
    if (matters(folder, name, inputs)) bell.ring()
  })
  signal?.addEventListener('abort', () => bell.ring())
  // Watching starts before the first build, so that a change during it is not lost.
  watchers.set(await foldersOf(inputs, []))
  for (;;) {
    const files = await build()
    if (signal?.aborted) break
    watchers.set(await foldersOf(inputs, files))
    await bell.next()
    if (signal?.aborted) break
    await new Promise((quiet) => setTimeout(quiet, QUIET_MS))
    bell.still()
  }
  watchers.set(new Set())
}
