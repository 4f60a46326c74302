import { execFile, spawn } from 'node:child_process'
import { mkdir, mkdtemp, realpath, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join, resolve } from 'node:path'
import { quote } from '../base/quote.ts'
import { LIMITS } from '../describe/limits.ts'

/** Git is missing, or cannot give what was asked. */
export class GitError extends Error {
  readonly fix: string

  constructor(what: string, fix: string) {
    super(what)
    this.name = 'GitError'
    this.fix = fix
  }
}

/** A repository and where in it the work goes on. */
export interface Repository {
  readonly top: string
  /** The working folder within it, with slashes and a closing one; empty at the top. */
  readonly prefix: string
}

/** The descriptions of one commit as files in a folder of their own. */
export interface CommitFiles {
  /** Stands for the top of the repository. */
  readonly folder: string
  /** Paths from the top of the repository. */
  readonly paths: readonly string[]
  readonly dispose: () => Promise<void>
}

/** One commit that touched the descriptions. */
export interface CommitInfo {
  readonly commit: string
  /** As `YYYY-MM-DD`. */
  readonly date: string
  readonly author: string
  readonly subject: string
}

const MOST_FILES = 5000
const MOST_BYTES = 200_000_000
const COMMIT = /^[0-9a-f]{40}([0-9a-f]{24})?$/
/** What git calls a revision, without anything that could be taken for an option, a range or a command. */
const REVISION = /^[A-Za-z0-9_@][A-Za-z0-9_./@{}^~+-]{0,199}$/

/** Nothing a repository configures is run, nothing is fetched, and git never stops to ask. */
const SAFE = [
  '--no-pager',
  '--no-replace-objects',
  '-c',
  'core.fsmonitor=false',
  '-c',
  'protocol.allow=never',
]
const environment = (): NodeJS.ProcessEnv => ({
  ...process.env,
  GIT_TERMINAL_PROMPT: '0',
  GIT_OPTIONAL_LOCKS: '0',
  GIT_NO_LAZY_FETCH: '1',
  LC_ALL: 'C',
})

interface Answer {
  readonly code: number
  readonly out: string
  readonly err: string
}

/** Runs git with arguments as they are: there is no shell that could read more into them. */
function git(cwd: string, args: readonly string[]): Promise<Answer> {
  return new Promise((answer, fail) => {
    execFile(
      'git',
      [...SAFE, ...args],
      { cwd, env: environment(), maxBuffer: MOST_BYTES, encoding: 'utf8' },
      (error, out, err) => {
        if (error && error.code === 'ENOENT')
          fail(
            new GitError('git is not installed, or not on the path', 'Install git, or compare two folders.'),
          )
        else answer({ code: error ? (typeof error.code === 'number' ? error.code : 1) : 0, out, err })
      },
    )
  })
}

/** The repository a folder is in, or undefined. */
export async function findRepository(cwd: string): Promise<Repository | undefined> {
  const { code, out } = await git(cwd, ['rev-parse', '--show-toplevel', '--show-prefix'])
  const [top, prefix = ''] = out.split('\n')
  return code === 0 && top ? { top, prefix } : undefined
}

/** Whether a text can be a revision at all. */
/**
 * The files that change whenever the history seen from here does: the head, the branch it is on, packed names and the depth of the clone.
 * Absolute; some may not exist. Empty outside a repository.
 */
export async function repositoryFiles(cwd: string): Promise<string[]> {
  const names = ['HEAD', 'packed-refs', 'shallow', 'reftable/tables.list']
  const head = (await git(cwd, ['symbolic-ref', '-q', 'HEAD'])).out.toString().trim()
  const asked = [...names, ...(head === '' ? [] : [head])].flatMap((name) => ['--git-path', name])
  const { code, out } = await git(cwd, ['rev-parse', ...asked])
  if (code !== 0) return []
  return out
    .toString()
    .trim()
    .split('\n')
    .map((path) => resolve(cwd, path))
}

export const looksLikeRevision = (text: string): boolean => REVISION.test(text) && !text.includes('..')

/** The commit a revision names. Throws {@link GitError}. */
export async function resolveCommit({ top }: Repository, revision: string): Promise<string> {
  const unknown = new GitError(
    `${quote(revision)} is neither a file or folder nor a revision git knows`,
    'Name a folder, a branch, a tag or a commit; “git log --oneline” lists commits. A shallow clone lacks older ones: fetch them first.',
  )
  if (!looksLikeRevision(revision)) throw unknown
  const { code, out } = await git(top, [
    'rev-parse',
    '--verify',
    '--quiet',
    '--end-of-options',
    `${revision}^{commit}`,
  ])
  const commit = out.trim()
  if (code !== 0 || !COMMIT.test(commit)) throw unknown
  return commit
}

/** Where two histories part, as `main...branch` asks. Throws {@link GitError}. */
export async function mergeBase({ top }: Repository, one: string, two: string): Promise<string> {
  const { code, out } = await git(top, ['merge-base', one, two])
  const commit = out.trim()
  if (code === 0 && COMMIT.test(commit)) return commit
  throw new GitError(
    'the two revisions have no common history here',
    'Fetch the whole history (a shallow clone lacks it), or write two dots instead of three.',
  )
}

/** Whether a commit is part of what is checked out. */
export async function isCheckedOut({ top }: Repository, commit: string): Promise<boolean> {
  return (await git(top, ['merge-base', '--is-ancestor', commit, 'HEAD'])).code === 0
}

interface Entry {
  readonly oid: string
  readonly path: string
}

const WANTED = /\.(ts|mts|js|mjs|json|md)$/i

/** Paths that stay below the folder they are written to, on every system. */
function isSafe(path: string): boolean {
  return path
    .split('/')
    .every(
      (part) =>
        part !== '' && !part.startsWith('.') && part !== 'node_modules' && !/[\\:\0-\u001f]|[. ]$/.test(part),
    )
}

async function listFiles({ top }: Repository, commit: string): Promise<Entry[]> {
  const { code, out, err } = await git(top, ['ls-tree', '-r', '-z', '-l', '--full-tree', commit])
  if (code !== 0)
    throw new GitError(
      `git cannot list ${commit.slice(0, 10)}: ${err.trim().slice(0, 200)}`,
      'Run “git fsck”.',
    )
  const entries: Entry[] = []
  let bytes = 0
  for (const line of out.split('\0')) {
    // Links, which have mode 120000, and submodules are left out: they could lead out of the tree.
    const found = /^100(?:644|755) blob ([0-9a-f]+) +(\d+)\t([\s\S]+)$/.exec(line)
    const [, oid, size, path] = found ?? []
    if (oid === undefined || path === undefined || !WANTED.test(path) || !isSafe(path)) continue
    // Left out like any file that is too large to be a description; what names it will say so.
    if (Number(size) > LIMITS.fileBytes) continue
    bytes += Number(size)
    entries.push({ oid, path })
  }
  if (entries.length > MOST_FILES || bytes > MOST_BYTES)
    throw new GitError(
      `commit ${commit.slice(0, 10)} holds ${entries.length} files that could be descriptions, ${Math.round(bytes / 1e6)} MB`,
      `At most ${MOST_FILES} files and ${MOST_BYTES / 1e6} MB are read: compare two folders instead.`,
    )
  return entries
}

/** Contents of objects in the order asked for. */
function readObjects({ top }: Repository, entries: readonly Entry[]): Promise<Buffer[]> {
  return new Promise((answer, fail) => {
    const child = spawn('git', [...SAFE, 'cat-file', '--batch'], {
      cwd: top,
      env: environment(),
      stdio: ['pipe', 'pipe', 'ignore'],
    })
    const chunks: Buffer[] = []
    child.on('error', fail)
    child.stdin.on('error', () => undefined)
    child.stdout.on('data', (chunk: Buffer) => chunks.push(chunk))
    child.on('close', () => {
      try {
        answer(parseObjects(Buffer.concat(chunks), entries))
      } catch (error) {
        fail(error)
      }
    })
    child.stdin.end(entries.map(({ oid }) => `${oid}\n`).join(''))
  })
}

function parseObjects(all: Buffer, entries: readonly Entry[]): Buffer[] {
  let at = 0
  return entries.map(({ path }) => {
    const end = all.indexOf(10, at)
    const size = Number(/^[0-9a-f]+ blob (\d+)$/.exec(all.toString('latin1', at, Math.max(at, end)))?.[1])
    if (end < 0 || !Number.isFinite(size))
      throw new GitError(
        `git cannot read ${quote(path)} of that commit`,
        'Fetch the whole history: a partial clone lacks older files.',
      )
    at = end + 1 + size + 1
    return all.subarray(end + 1, end + 1 + size)
  })
}

/** Puts the descriptions of a commit into a new folder for the time of a run. Throws {@link GitError}. */
export async function commitFiles(repository: Repository, commit: string): Promise<CommitFiles> {
  const entries = await listFiles(repository, commit)
  const contents = await readObjects(repository, entries)
  const folder = await realpath(await mkdtemp(join(tmpdir(), 'loomwright-revision-')))
  const dispose = () => rm(folder, { recursive: true, force: true })
  try {
    for (const [i, { path }] of entries.entries()) {
      const file = join(folder, path)
      await mkdir(dirname(file), { recursive: true })
      // `wx`: two names that one file system takes for the same must not pass for one.
      await writeFile(file, contents[i] ?? '', { flag: 'wx' })
    }
  } catch (error) {
    await dispose()
    throw error
  }
  return { folder, paths: entries.map(({ path }) => path), dispose }
}

/** The last commits that touched some folders or files, newest first. */
export async function commitsOf(
  { top }: Repository,
  paths: readonly string[],
  most: number,
): Promise<CommitInfo[]> {
  const format = '--format=%H%x1f%cs%x1f%an%x1f%s'
  const { code, out } = await git(top, ['log', '-z', `--max-count=${most}`, format, 'HEAD', '--', ...paths])
  if (code !== 0) return []
  return out.split('\0').flatMap((line) => {
    const [commit, date, author, subject] = line.trim().split('\u001f')
    return commit && COMMIT.test(commit)
      ? [{ commit, date: date ?? '', author: author ?? '', subject: subject ?? '' }]
      : []
  })
}
