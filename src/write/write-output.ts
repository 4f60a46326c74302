import { randomBytes } from 'node:crypto'
import { type Dirent, existsSync, readFileSync, realpathSync, renameSync, rmSync } from 'node:fs'
import { link, lstat, mkdir, open, readdir, readFile } from 'node:fs/promises'
import { basename, dirname, join, parse, resolve, sep } from 'node:path'
import { OUTPUT_MARKER as MARKER } from '../base/output-marker.ts'
import { makeFolder } from './make-folder.ts'
import { outputNamesProblem } from './output-name.ts'
import { codeOf, WriteError, writeError } from './write-error.ts'

const MARKER_TEXT =
  'Made by loomwright and replaced as a whole at every build: keep nothing of your own here.\n'

/** Files by name: relative, with forward slashes. */
export type OutputFiles = ReadonlyMap<string, string | Uint8Array>

/** How an output folder changed. */
export interface Written {
  /** The folder, absolute. */
  readonly folder: string
  readonly written: number
  /** Files whose bytes are as before; on most systems they are the very same files. */
  readonly unchanged: number
  readonly removed: number
}

/** Where a write is up to, so that an interrupt knows what to take away. */
interface Attempt {
  readonly target: string
  readonly fresh: string
  readonly old: string
}

function bytesOf(content: string | Uint8Array): Uint8Array {
  return typeof content === 'string' ? Buffer.from(content, 'utf8') : content
}

/** The folder behind symbolic links, so that a link stays a link and what it points to is replaced. */
function realTarget(folder: string): string {
  const absolute = resolve(folder)
  return existsSync(absolute) ? realpathSync(absolute) : absolute
}

/** Why a folder may not be replaced, or undefined. It may be new, empty, or carry our marker. */
async function refusal(target: string): Promise<WriteError | undefined> {
  if (parse(target).root === target)
    return new WriteError(`cannot write to ${target}: it is the top of the disk`, 'name a folder of its own')
  const found = await lstat(target).catch(() => undefined)
  if (!found) return undefined
  if (!found.isDirectory()) return new WriteError(`cannot write to ${target}: it is a file`, 'name a folder')
  const names = await readdir(target)
  if (names.length === 0 || names.includes(MARKER)) return undefined
  return new WriteError(
    `will not replace ${target}: it holds files and was not made by loomwright`,
    'name a new or empty folder; only a folder that loomwright made is replaced',
  )
}

/** Same bytes as last time: link the file that is there, so that its date stays and copying tools skip it. */
async function keepIfSame(before: string, path: string, bytes: Uint8Array): Promise<boolean> {
  try {
    if (!(await lstat(before)).isFile()) return false
    const same = Buffer.compare(await readFile(before), bytes) === 0
    if (same) await link(before, path)
    return same
  } catch (error) {
    // Not there last time, or a disk without hard links: write it.
    if (codeOf(error) === 'ENOSPC') throw error
    return false
  }
}

/** Data reaches the disk before the folder is swapped in, or a power cut could leave empty files behind the new name. */
async function writeThrough(path: string, bytes: Uint8Array): Promise<void> {
  const file = await open(path, 'wx')
  try {
    await file.writeFile(bytes)
    await file.sync()
  } finally {
    await file.close()
  }
}

async function fill(attempt: Attempt, files: OutputFiles): Promise<number> {
  const folders = new Set([...files.keys()].map((name) => dirname(join(attempt.fresh, name))))
  for (const folder of folders) await makeFolder(folder)
  let unchanged = 0
  for (const [name, content] of files) {
    const path = join(attempt.fresh, name)
    if (!path.startsWith(attempt.fresh + sep)) throw new Error(`${name} leaves the output folder`)
    const bytes = bytesOf(content)
    if (await keepIfSame(join(attempt.target, name), path, bytes)) unchanged += 1
    else await writeThrough(path, bytes)
  }
  return unchanged
}

/** On Windows a virus scanner or a viewer may hold a file for a moment; elsewhere another build may swap at the same time. */
const PASSING = new Set(['EPERM', 'EACCES', 'EBUSY', 'ENOTEMPTY', 'EEXIST', 'ENOENT'])
const TRIES = 5

/** Puts the fresh folder in the target's place by two renames with nothing between them that could fail on its own. */
function swapOnce({ target, fresh, old }: Attempt): void {
  const had = existsSync(target)
  if (had) renameSync(target, old)
  try {
    renameSync(fresh, target)
  } catch (error) {
    if (had && !existsSync(target)) renameSync(old, target)
    throw error
  }
}

async function swap(attempt: Attempt): Promise<void> {
  for (let left = TRIES; ; left--) {
    try {
      swapOnce(attempt)
      return
    } catch (error) {
      if (left === 0 || !PASSING.has(codeOf(error) ?? '') || !existsSync(attempt.fresh)) throw error
      await new Promise((done) => setTimeout(done, 40))
    }
  }
}

function remove(folder: string): void {
  try {
    rmSync(folder, { recursive: true, force: true, maxRetries: 3 })
  } catch {
    // A leftover is taken away by the next build; it must not turn a good build into a failed one.
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return codeOf(error) === 'EPERM'
  }
}

const leftoverName = (target: string): RegExp => {
  const name = basename(target).replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
  return new RegExp(`^\\.${name}\\.loomwright-(new|old)-(\\d+)-[0-9a-f]+$`)
}

/** A run that was killed may have left folders: its last good output is put back, the rest taken away. */
async function clearLeftovers(target: string): Promise<void> {
  const parent = dirname(target)
  const entries = await readdir(parent, { withFileTypes: true }).catch((): Dirent[] => [])
  const pattern = leftoverName(target)
  for (const entry of entries) {
    const match = pattern.exec(entry.name)
    if (!match || !entry.isDirectory() || isAlive(Number(match[2]))) continue
    const leftover = join(parent, entry.name)
    if (match[1] === 'old' && !existsSync(target) && existsSync(join(leftover, MARKER)))
      renameSync(leftover, target)
    else remove(leftover)
  }
}

/** While writing, an interrupt takes the half-written folder away and ends the process; the last output was never touched. */
function onInterrupt(attempt: Attempt): () => void {
  const stop = (signal: NodeJS.Signals) => {
    remove(attempt.fresh)
    process.exit(signal === 'SIGINT' ? 130 : 143)
  }
  process.once('SIGINT', stop)
  process.once('SIGTERM', stop)
  return () => {
    process.off('SIGINT', stop)
    process.off('SIGTERM', stop)
  }
}

/** Names of the files of the last output, the marker left out. */
async function filesBefore(target: string): Promise<string[]> {
  const entries = await readdir(target, { recursive: true, withFileTypes: true }).catch((): Dirent[] => [])
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) =>
      join(entry.parentPath, entry.name)
        .slice(target.length + 1)
        .split(sep)
        .join('/'),
    )
    .filter((name) => name !== MARKER)
}

async function attemptWrite(attempt: Attempt, files: OutputFiles): Promise<Written> {
  const before = await filesBefore(attempt.target)
  await mkdir(attempt.fresh)
  const unchanged = await fill(attempt, files)
  const removed = before.filter((name) => !files.has(name)).length
  const written: Written = { folder: attempt.target, written: files.size - unchanged, unchanged, removed }
  // Nothing new: leave the folder itself alone, so that a shell or a viewer standing in it stays there.
  if (written.written + removed === 0 && isOutputFolder(attempt.target)) {
    remove(attempt.fresh)
    return written
  }
  await writeThrough(join(attempt.fresh, MARKER), Buffer.from(MARKER_TEXT))
  await swap(attempt)
  remove(attempt.old)
  return written
}

/**
 * Writes a set of files as the whole content of a folder, or nothing: on any failure, an interrupt or a crash, what was there
 * stays. The new content is built beside the folder and swapped in by renaming.
 * Throws {@link WriteError}; refuses a folder that holds files and was not made here.
 */
export async function writeOutput(folder: string, files: OutputFiles): Promise<Written> {
  const problem = outputNamesProblem(files.keys())
  if (problem) throw new WriteError(problem, 'rename what it was made from')
  if (files.has(MARKER)) throw new WriteError(`the output name ${MARKER} is kept for the marker`, 'rename it')
  let attempt: Attempt | undefined
  try {
    const target = realTarget(folder)
    await clearLeftovers(target)
    const refused = await refusal(target)
    if (refused) throw refused
    await makeFolder(dirname(target))
    const tag = `${process.pid}-${randomBytes(4).toString('hex')}`
    const beside = (kind: string) => join(dirname(target), `.${basename(target)}.loomwright-${kind}-${tag}`)
    attempt = { target, fresh: beside('new'), old: beside('old') }
    const quiet = onInterrupt(attempt)
    try {
      return await attemptWrite(attempt, files)
    } finally {
      quiet()
    }
  } catch (error) {
    if (attempt) remove(attempt.fresh)
    throw writeError(folder, error)
  }
}

/** Whether a folder carries our marker. */
export function isOutputFolder(folder: string): boolean {
  try {
    return readFileSync(join(folder, MARKER)).length > 0
  } catch {
    return false
  }
}
