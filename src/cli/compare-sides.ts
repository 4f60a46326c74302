import { existsSync } from 'node:fs'
import { relative, resolve } from 'node:path'
import type { Locate } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import type { Revision } from '../compare/revision.ts'
import {
  type CommitFiles,
  commitFiles,
  findRepository,
  GitError,
  isCheckedOut,
  mergeBase,
  type Repository,
  resolveCommit,
} from '../read/git-revision.ts'
import type { Trust } from '../read/trust.ts'
import { UsageError } from './command.ts'
import type { Io } from './io.ts'
import { type Judged, judge } from './pipeline.ts'
import { Unreadable } from './unreadable.ts'

/** One side of a comparison: files as they lie, or a commit. */
type Side = { readonly kind: 'path'; readonly name: string; readonly path: string } | CommitSide

interface CommitSide {
  readonly kind: 'commit'
  readonly name: string
  readonly commit: string
  readonly repository: Repository
}

/** A side that was read and judged. */
export interface ReadSide {
  readonly name: string
  readonly revision: Revision
  readonly locate: Locate
  /** Files that were read, for what must not be written over. */
  readonly inputs: readonly string[]
  /** All that was worked out; nothing where nothing was described. */
  readonly judged?: Judged
}

export interface SideOptions {
  /** Folder or file within each commit; the working folder when left out. */
  readonly within: string | undefined
  /** Whose TypeScript it is, as typed; when nothing was, that of commits which are not checked out is not run. */
  readonly trust: Trust
  /** Run that too, in this process. */
  readonly runCode: boolean
}

const USAGE = 'loomwright compare main..HEAD, or loomwright compare OLD NEW'

async function repositoryAt(cwd: string, revision: string): Promise<Repository> {
  const found = await findRepository(cwd)
  if (found) return found
  throw new GitError(
    `there is no file or folder ${quote(revision)}, and this folder is not in a git repository`,
    'Name two files or folders, or run this inside the repository.',
  )
}

async function commitSide(revision: string, cwd: string): Promise<CommitSide> {
  const repository = await repositoryAt(cwd, revision)
  return { kind: 'commit', name: revision, commit: await resolveCommit(repository, revision), repository }
}

/** `main..HEAD`, `main...HEAD`, or two names that are each a path or a revision. */
async function sidesOf(positionals: readonly string[], cwd: string): Promise<readonly [Side, Side]> {
  const [first = '', second] = positionals
  const one = (text: string): Promise<Side> =>
    existsSync(resolve(cwd, text))
      ? Promise.resolve({ kind: 'path', name: text, path: text })
      : commitSide(text, cwd)
  if (second !== undefined) return [await one(first), await one(second)]
  const range = /^(.+?)(\.{2,3})(.*)$/.exec(first)
  if (!range || existsSync(resolve(cwd, first)))
    throw new UsageError(`compare needs two sides, and ${quote(first)} is one`, USAGE)
  const [, from = '', dots = '', to = ''] = range
  const after = await commitSide(to === '' ? 'HEAD' : to, cwd)
  const before = await commitSide(from, cwd)
  if (dots === '..') return [before, after]
  const commit = await mergeBase(before.repository, before.commit, after.commit)
  return [{ ...before, commit, name: `${from} (where the two part)` }, after]
}

/** Reads one side; what keeps it from being read says of which revision it speaks. */
async function judgeSide(name: string, path: string, io: Io, trust: Trust): Promise<ReadSide> {
  try {
    return asSide(name, await judge([path], io, trust))
  } catch (error) {
    if (!(error instanceof Unreadable)) throw error
    const troubles = error.troubles.map((trouble) => ({
      ...trouble,
      what: `in ${quote(name)}: ${trouble.what}`,
    }))
    throw new Unreadable(troubles, error)
  }
}

const asSide = (name: string, judged: Judged): ReadSide => ({
  name,
  revision: { shop: judged.shop, looms: judged.looms, result: judged.result },
  locate: judged.locate,
  inputs: judged.source.watch,
  judged,
})

/** A shop before anything was described. */
const emptySide = (name: string): ReadSide => ({
  name,
  revision: {
    shop: { parts: [], equipment: [], harnesses: [], installations: [], policy: undefined, procedures: [] },
    looms: [],
    result: { findings: [], notChecked: [], waived: [], heldBack: [], questions: [], rulesRun: [] },
  },
  locate: ({ doc }) => ({ file: doc, line: 1, column: 1 }),
  inputs: [],
})

/** Where in a commit the descriptions are, from its top. */
function folderWithin({ prefix, top }: Repository, within: string | undefined, cwd: string): string {
  const path = within === undefined ? prefix : relative(top, resolve(cwd, within)).replaceAll('\\', '/')
  const clean = path.replace(/\/+$/, '')
  if (clean === '..' || clean.startsWith('../'))
    throw new UsageError(
      `${quote(within ?? '')} lies outside the repository`,
      '--in FOLDER, a folder of the repository',
    )
  return clean
}

const isCode = (path: string): boolean => /\.m?ts$/i.test(path)

async function readCommit(
  side: Extract<Side, { kind: 'commit' }>,
  options: SideOptions,
  io: Io,
  made: CommitFiles[],
): Promise<ReadSide> {
  const { repository, commit, name } = side
  const folder = folderWithin(repository, options.within, io.cwd)
  const files = await commitFiles(repository, commit)
  made.push(files)
  const inside = files.paths.filter(
    (path) => folder === '' || path === folder || path.startsWith(`${folder}/`),
  )
  if (!inside.some((path) => /\.(m?ts|json)$/i.test(path))) return emptySide(name)
  const strange = options.trust === 'own' && !options.runCode && !(await isCheckedOut(repository, commit))
  if (strange && inside.some(isCode))
    throw new GitError(
      `${quote(name)} holds TypeScript and is no part of what is checked out: reading it would run it`,
      'Add --apart, which runs it in an interpreter without files, processes and network; or read it first, then add --run-code.',
    )
  // Places are shown as from the working folder, so that they can be clicked on in both revisions.
  const cwd = resolve(files.folder, repository.prefix)
  const base = existsSync(cwd) ? cwd : files.folder
  return judgeSide(name, resolve(files.folder, folder), { ...io, cwd: base }, options.trust)
}

/** Reads and judges one former state of the folder or file `beside`, hands it on, and takes away what was written for it. */
export async function withSide<T>(
  name: string,
  beside: string,
  options: Omit<SideOptions, 'within'>,
  io: Io,
  use: (side: ReadSide) => T | Promise<T>,
): Promise<T> {
  const made: CommitFiles[] = []
  try {
    const side = existsSync(resolve(io.cwd, name))
      ? await judgeSide(name, name, io, options.trust)
      : await readCommit(await commitSide(name, io.cwd), { ...options, within: beside }, io, made)
    return await use(side)
  } finally {
    await Promise.all(made.map(({ dispose }) => dispose()))
  }
}

/** Reads and judges both sides, hands them on, and takes away whatever was written for it. */
export async function withBothSides<T>(
  positionals: readonly string[],
  options: SideOptions,
  io: Io,
  use: (before: ReadSide, after: ReadSide) => Promise<T>,
): Promise<T> {
  const made: CommitFiles[] = []
  try {
    const [before, after] = await sidesOf(positionals, io.cwd)
    const other = (side: Side, one: Side): SideOptions =>
      // A revision against a folder is about that folder.
      side.kind === 'commit' && one.kind === 'path' && options.within === undefined
        ? { ...options, within: one.path }
        : options
    const read = (side: Side, one: Side) =>
      side.kind === 'commit'
        ? readCommit(side, other(side, one), io, made)
        : judgeSide(side.name, side.path, io, options.trust)
    const old = await read(before, after)
    return await use(old, await read(after, before))
  } finally {
    await Promise.all(made.map(({ dispose }) => dispose()))
  }
}
