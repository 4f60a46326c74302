import { builtinModules } from 'node:module'
import { posix } from 'node:path'
import { blankText, type ImportLine, importsOf } from './scan-source.ts'

/** Source files by path from the repository root, as `src/base/place.ts`. */
export type Sources = ReadonlyMap<string, string>

const TO_CHECK = ['base', 'describe', 'catalogue', 'resolve', 'solve', 'check']
const PURE = [...TO_CHECK, 'compare', 'author', 'report', 'draw', 'sheets', 'guide', 'commission', 'wiki']
const EDGE = ['read', 'write', 'cache', 'cli']

/** Which folders each folder may import, itself always included. The arrows run one way: base is at the bottom. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  base: [],
  describe: TO_CHECK.slice(0, 1),
  catalogue: TO_CHECK.slice(0, 2),
  author: TO_CHECK.slice(0, 3),
  resolve: TO_CHECK.slice(0, 3),
  solve: TO_CHECK.slice(0, 4),
  check: TO_CHECK.slice(0, 5),
  compare: TO_CHECK,
  report: TO_CHECK,
  draw: TO_CHECK,
  sheets: [...TO_CHECK, 'draw'],
  guide: [...TO_CHECK, 'draw', 'sheets'],
  commission: [...TO_CHECK, 'sheets', 'guide'],
  wiki: [...TO_CHECK, 'compare', 'draw', 'sheets', 'guide', 'commission', 'report'],
  // A description asks for the package by its name and has to get this very instance, so read hands it over.
  read: ['base', 'describe', 'author', 'check', 'index.ts'],
  write: ['base', 'describe', 'check', 'draw'],
  cache: ['base', 'draw'],
  cli: [...PURE, 'read', 'write', 'cache', 'index.ts'],
  'index.ts': PURE,
}

/** Folder pairs where only `import type` may cross. */
const TYPES_ONLY: ReadonlySet<string> = new Set(['read>check', 'write>check'])

interface Home {
  pattern: RegExp
  folders: readonly string[]
  why: string
}

/** Libraries that may be used in some folders only. */
const HOMES: readonly Home[] = [
  {
    pattern: /^elkjs(\/|$)/,
    folders: ['draw'],
    why: 'the layout engine is heavy and may be swapped, so only draw knows it',
  },
  {
    pattern: /^(svgdom|@svgdotjs\/.*)$/,
    folders: ['draw'],
    why: 'only draw builds SVG; other folders take its finished pictures',
  },
  {
    pattern: /^(handlebars|unified|remark-.*|rehype-.*|unist-.*|mdast.*|hast.*)(\/|$)/,
    folders: ['sheets', 'guide', 'wiki'],
    why: 'Markdown and templates belong to the pages, so that checks and drawings do not depend on them',
  },
  {
    pattern: /^(esbuild|@jridgewell\/.*)(\/|$)/,
    folders: EDGE,
    why: 'it needs the file system or a child process, and the core must run in a browser',
  },
]

interface Ban {
  pattern: RegExp
  what: string
  why: string
}

const RUNS_ANYWHERE =
  'the core must run in a browser too; take the value as an argument from read, write or cli'
const SAME_AGAIN = 'the same description must give the same bytes every time; take the value as an argument'

/** Names the pure core may not use. They are looked for in code only, never inside strings or comments. */
const BANS: readonly Ban[] = [
  { pattern: /(?<![.\w$])process\s*[.[]/, what: 'process', why: RUNS_ANYWHERE },
  { pattern: /(?<![.\w$])Buffer\s*[.(]/, what: 'Buffer', why: RUNS_ANYWHERE },
  { pattern: /(?<![.\w$])(?:require\s*\(|__dirname\b|__filename\b)/, what: 'require', why: RUNS_ANYWHERE },
  { pattern: /(?<![.\w$])import\.meta\b/, what: 'import.meta', why: RUNS_ANYWHERE },
  { pattern: /(?<![.\w$])fetch\s*\(/, what: 'fetch', why: 'a build must never need the network' },
  {
    pattern: /(?<![.\w$])console\s*\./,
    what: 'console',
    why: 'the core reports by returning findings, so that every caller can show them its own way',
  },
  { pattern: /(?<![.\w$])Date\.now\b|(?<![.\w$])performance\.now\b/, what: 'Date.now', why: SAME_AGAIN },
  { pattern: /(?<![.\w$])new\s+Date\s*\(/, what: 'new Date(', why: SAME_AGAIN },
  { pattern: /(?<![.\w$])Math\.random\b|(?<![.\w$])crypto\.random/, what: 'Math.random', why: SAME_AGAIN },
  {
    pattern: /\.toLocale\w*String\s*\(\s*\)|\.localeCompare\s*\((?:[^,()]|\([^()]*\))*\)/,
    what: 'a locale left to the machine',
    why: "the order and the numbers would change with the machine's language; name the locale",
  },
  {
    pattern: /(?<![.\w$])set(?:Timeout|Interval|Immediate)\s*\(/,
    what: 'setTimeout',
    why: 'data flows once through the core; waiting is for the edge',
  },
]

const NODE_MODULES: ReadonlySet<string> = new Set(builtinModules)
const MAX_LINES = 500

function folderOf(path: string): string {
  return path.split('/')[1] ?? ''
}

function isPure(folder: string): boolean {
  return folder === 'index.ts' || PURE.includes(folder)
}

/** The repository path a relative import points to, or undefined for a package. */
function target(path: string, from: string): string | undefined {
  return from.startsWith('.') ? posix.join(posix.dirname(path), from) : undefined
}

function checkRelative(path: string, line: ImportLine, to: string, sources: Sources): string[] {
  const at = `${path}:${line.line}`
  if (!to.startsWith('src/')) return [`${at} imports ${to}: src may only import from src`]
  if (to.endsWith('.ts') && !sources.has(to)) return [`${at} imports ${to}, which is not there`]
  if (!/\.(ts|json)$/.test(to)) return [`${at} imports '${line.from}': write the file's ending, .ts or .json`]
  const here = folderOf(path)
  const there = folderOf(to)
  if (here === there) return []
  if (!(MAY_IMPORT[here] ?? []).includes(there))
    return [`${at} imports ${to}: ${here} may not see ${there}; imports run one way, base first and cli last`]
  if (TYPES_ONLY.has(`${here}>${there}`) && !line.typeOnly)
    return [`${at} imports ${to}: ${here} may take only types from ${there}; write 'import type'`]
  return []
}

function checkPackage(path: string, line: ImportLine, dependencies: ReadonlySet<string>): string[] {
  const at = `${path}:${line.line}`
  const here = folderOf(path)
  const bare = line.from.replace(/^node:/, '')
  if (line.from.startsWith('node:') || NODE_MODULES.has(bare.split('/')[0] ?? '')) {
    return isPure(here) ? [`${at} imports '${line.from}': ${RUNS_ANYWHERE}`] : []
  }
  const errors: string[] = []
  const name = line.from
    .split('/')
    .slice(0, line.from.startsWith('@') ? 2 : 1)
    .join('/')
  if (name === 'loomwright')
    errors.push(`${at} imports its own package name: inside src import the file itself, or it is a circle`)
  else if (!dependencies.has(name) && !(line.typeOnly && dependencies.has(`@types/${name}`)))
    errors.push(`${at} imports '${name}', which is not in "dependencies": it would be missing once installed`)
  for (const home of HOMES) {
    if (home.pattern.test(line.from) && !home.folders.includes(here))
      errors.push(`${at} imports '${line.from}', allowed in ${home.folders.join(', ')} only: ${home.why}`)
  }
  return errors
}

/** Breaches of the folder table, of the libraries' homes and of the pure core's import rules. */
export function checkImports(sources: Sources, dependencies: ReadonlySet<string>): string[] {
  const errors: string[] = []
  for (const [path, text] of sources) {
    const here = folderOf(path)
    if (!(here in MAY_IMPORT)) errors.push(`${path}: src has no folder or file '${here}' in its table`)
    if (path !== 'src/index.ts' && path.endsWith('/index.ts'))
      errors.push(`${path}: only src/index.ts may be an index; name the file after its concept`)
    for (const line of importsOf(text)) {
      if (line.star && path !== 'src/index.ts')
        errors.push(
          `${path}:${line.line} re-exports everything of '${line.from}': import from the file that owns it`,
        )
      const to = target(path, line.from)
      if (to === undefined) errors.push(...checkPackage(path, line, dependencies))
      else errors.push(...checkRelative(path, line, to, sources))
    }
  }
  return errors
}

/** Uses of clocks, chance, consoles and the like in the pure core, and module-level variables anywhere. */
export function checkBans(sources: Sources): string[] {
  const errors: string[] = []
  for (const [path, text] of sources) {
    const lineOf = (offset: number) => text.slice(0, offset).split('\n').length
    const code = blankText(text)
    const state = /^(?:export\s+)?(?:let|var)\s/m.exec(code)
    if (state)
      errors.push(
        `${path}:${lineOf(state.index)} keeps changeable state in the module: two builds in one process would share it`,
      )
    if (!isPure(folderOf(path))) continue
    for (const ban of BANS) {
      for (const hit of code.matchAll(new RegExp(ban.pattern, 'g')))
        errors.push(`${path}:${lineOf(hit.index)} uses ${ban.what}: ${ban.why}`)
    }
  }
  return errors
}

/** Circles of imports between files, each as the list of its files; imports of types count too. */
export function findCycles(sources: Sources): string[][] {
  const edges = new Map<string, string[]>()
  for (const [path, text] of sources) {
    const targets = importsOf(text).map((line) => target(path, line.from))
    edges.set(
      path,
      targets.filter((to) => to !== undefined && sources.has(to)).map((to) => to ?? ''),
    )
  }
  const done = new Set<string>()
  const cycles: string[][] = []
  const visit = (path: string, trail: string[]) => {
    const seen = trail.indexOf(path)
    if (seen >= 0) cycles.push([...trail.slice(seen), path])
    if (seen >= 0 || done.has(path)) return
    for (const next of edges.get(path) ?? []) visit(next, [...trail, path])
    done.add(path)
  }
  for (const path of edges.keys()) visit(path, [])
  return cycles
}

/** Files too long to be about one thing. */
export function checkSizes(sources: Sources): string[] {
  const errors: string[] = []
  for (const [path, text] of sources) {
    const lines = text.trimEnd().split('\n').length
    if (lines > MAX_LINES)
      errors.push(
        `${path} has ${lines} lines, more than ${MAX_LINES}: it holds more than one concept; split it`,
      )
  }
  return errors
}

const TOP_LEVEL: ReadonlySet<string> = new Set([
  'DEVELOPERS.md',
  'LICENSE',
  'README.md',
  'harnesses',
  'package-lock.json',
  'package.json',
  'site',
  'src',
  'templates',
  'tests',
  'tsconfig.json',
])

/** Tracked names at the top of the repository that are not on the agreed list; dotfiles may always be there. */
export function strayTopLevel(tracked: readonly string[]): string[] {
  const names = new Set(tracked.map((path) => path.split('/')[0] ?? ''))
  return [...names].filter((name) => !name.startsWith('.') && !TOP_LEVEL.has(name)).sort()
}

// Put together from pieces, or this very line would be found.
const MACHINE_PATH = new RegExp(`(^|[^A-Za-z0-9._-])/(${['work', 'farm', 'tmp'].join('|')})/[a-z.]`)

/** Lines of a file that name a folder of somebody's machine, as `path:line`. */
export function machinePaths(path: string, text: string): string[] {
  return text
    .split('\n')
    .flatMap((line, i) => (MACHINE_PATH.test(line) ? [`${path}:${i + 1} ${line.trim()}`] : []))
}
