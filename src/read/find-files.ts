import { existsSync } from 'node:fs'
import { readdir, realpath, stat } from 'node:fs/promises'
import { basename, dirname, extname, join, relative, resolve, sep } from 'node:path'
import type { Trouble } from '../base/finding.ts'
import { naturalOrder } from '../base/natural-order.ts'
import { OUTPUT_MARKER } from '../base/output-marker.ts'
import { quote } from '../base/quote.ts'
import { suggest } from '../base/suggest.ts'
import { LIMITS } from '../describe/limits.ts'
import { startOf } from './trouble-error.ts'

export type FileKind = 'typescript' | 'json' | 'markdown'

/** A file to read. */
export interface FoundFile {
  /** Absolute. */
  readonly path: string
  readonly kind: FileKind
  /** Named on the command line itself, so that it has to be a description. */
  readonly named: boolean
}

export interface FoundFiles {
  /** The folder that names of documents start from. */
  readonly root: string
  /** In a fixed order, whatever the file system's. */
  readonly files: readonly FoundFile[]
  readonly folders: readonly string[]
  readonly troubles: readonly Trouble[]
}

/** Folders that hold no descriptions: packages, results. */
const SKIPPED_FOLDERS: ReadonlySet<string> = new Set(['node_modules', 'dist', 'out', 'coverage'])
/** JSON files that other tools keep beside descriptions. */
const SKIPPED_FILES = /^(package|package-lock|tsconfig(\..*)?|biome|.*\.(schema|arranged))\.jsonc?$/

function kindOf(name: string): FileKind | undefined {
  if (/\.d\.m?ts$/.test(name) || /\.(test|spec)\.m?ts$/.test(name)) return undefined
  if (/\.m?ts$/.test(name)) return 'typescript'
  if (/\.jsonc?$/.test(name)) return SKIPPED_FILES.test(name) ? undefined : 'json'
  return /\.md$/.test(name) ? 'markdown' : undefined
}

interface Search {
  readonly root: string
  readonly display: (path: string) => string
  readonly files: FoundFile[]
  readonly folders: string[]
  readonly troubles: Trouble[]
}

const inside = (root: string, path: string): boolean =>
  path === root || path.startsWith(root.endsWith(sep) ? root : root + sep)

/** A link within the folder leads to something that is read anyway; one that leaves it could lead to anything. */
async function judgeLink(path: string, search: Search): Promise<void> {
  const place = startOf(search.display(path))
  const target = await realpath(path).catch(() => undefined)
  if (target === undefined)
    search.troubles.push({ what: 'this link leads nowhere', fix: 'Take it out, or mend it.', place })
  else if (!inside(search.root, target))
    search.troubles.push({
      what: 'this link leads out of the folder, so anything on this machine could get into the papers',
      fix: 'Put the file itself here, or name its folder as well.',
      place,
    })
}

async function searchFolder(folder: string, depth: number, search: Search): Promise<void> {
  const place = startOf(search.display(folder))
  // Papers published into the shop are Markdown too, and no procedures.
  if (existsSync(join(folder, OUTPUT_MARKER))) {
    if (depth === 0)
      search.troubles.push({
        what: 'this folder was published by loomwright: it holds papers, and no descriptions',
        fix: 'Name the folder the papers were made from.',
        place,
      })
    return
  }
  search.folders.push(folder)
  if (depth > LIMITS.folderDepth) {
    const what = `folders lie more than ${LIMITS.folderDepth} deep`
    search.troubles.push({ what, fix: 'Name the folders that hold descriptions.', place })
    return
  }
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => undefined)
  if (!entries) {
    search.troubles.push({
      what: 'the folder may not be read',
      fix: 'Allow reading it, or move it out of the shop.',
      place,
    })
    return
  }
  for (const entry of entries.sort((a, b) => naturalOrder(a.name, b.name))) {
    if (entry.name.startsWith('.')) continue
    if (search.files.length > LIMITS.files) return
    const path = join(folder, entry.name)
    const kind = kindOf(entry.name)
    if (entry.isDirectory() && !SKIPPED_FOLDERS.has(entry.name)) await searchFolder(path, depth + 1, search)
    else if (entry.isSymbolicLink() && !SKIPPED_FOLDERS.has(entry.name)) await judgeLink(path, search)
    else if (kind && !entry.isDirectory()) search.files.push({ path, kind, named: false })
  }
}

async function missing(path: string, display: (path: string) => string): Promise<Trouble> {
  const beside = await readdir(dirname(path)).catch(() => [])
  // Endings are alike in every name, so only what stands before them tells names apart.
  const ending = extname(path)
  const alike = beside.filter((name) => extname(name) === ending).map((name) => basename(name, ending))
  const near = suggest(basename(path, ending), alike).map((name) => quote(`${name}${ending}`))
  const hint = near.length > 0 ? `Did you mean ${near.join(' or ')}?` : ''
  return {
    what: `there is no file or folder ${quote(display(path))}`,
    fix: hint === '' ? 'Name a file, or the folder that holds the descriptions.' : hint,
  }
}

/** The folder that holds all of some folders. */
function commonFolder(folders: readonly string[]): string {
  return folders.reduce((common, folder) => {
    let up = common
    while (!inside(up, folder)) up = dirname(up)
    return up
  })
}

async function findOne(path: string, isFolder: boolean, search: Search): Promise<void> {
  if (isFolder) return searchFolder(path, 0, { ...search, root: path })
  const kind = kindOf(basename(path))
  if (kind) search.files.push({ path, kind, named: true })
  else
    search.troubles.push({
      what: `${quote(search.display(path))} is no description`,
      fix: 'A description ends in .ts or .json, a procedure in .md.',
    })
}

/**
 * Finds the description and procedure files of a shop: those named, and those in folders named, however deep.
 * Links are not followed.
 */
export async function findFiles(paths: readonly string[], cwd: string): Promise<FoundFiles> {
  const display = (path: string): string => displayPath(path, cwd)
  const troubles: Trouble[] = []
  const starts: { path: string; isFolder: boolean }[] = []
  for (const path of paths) {
    const absolute = resolve(cwd, path)
    const real = await realpath(absolute).catch(() => undefined)
    const facts = real === undefined ? undefined : await stat(real).catch(() => undefined)
    if (real === undefined || !facts) troubles.push(await missing(absolute, display))
    else starts.push({ path: real, isFolder: facts.isDirectory() })
  }
  const [first] = starts
  if (!first) return { root: resolve(cwd), files: [], folders: [], troubles }
  const root = commonFolder(starts.map(({ path, isFolder }) => (isFolder ? path : dirname(path))))
  const search: Search = { root, display, files: [], folders: [], troubles }
  for (const { path, isFolder } of starts) await findOne(path, isFolder, search)
  if (search.files.length > LIMITS.files)
    troubles.push({
      what: `there are more than ${LIMITS.files} files`,
      fix: 'Name the folders that hold descriptions.',
      place: startOf(display(root)),
    })
  const unique = new Map(search.files.map((file) => [file.path, file]))
  return { root, files: [...unique.values()], folders: [...new Set(search.folders)], troubles }
}

/** A path as people would type it: from the working folder where it lies within, whole otherwise. */
export function displayPath(path: string, cwd: string): string {
  const short = relative(cwd, path)
  return (short === '' ? '.' : short.startsWith('..') ? path : short).split(sep).join('/')
}
