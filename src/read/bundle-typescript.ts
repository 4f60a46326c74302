import { dirname, join, resolve } from 'node:path'
import type { BuildFailure, BuildResult, Message, Metafile } from 'esbuild'
import type { Trouble } from '../base/finding.ts'
import type { Place } from '../base/place.ts'

/** Code of several description files in one script, each file in a function of its own. */
export interface Bundle {
  readonly code: string
  readonly map: string
  /** The name under which the script runs; the map's paths start from its folder. */
  readonly path: string
  /** Absolute paths of everything that went in. */
  readonly inputs: readonly string[]
  /** Files of `inputs` that others of them import; all where that is not known. */
  readonly imported: ReadonlySet<string>
  /** Files of `inputs` that ask for the builders. */
  readonly describing: ReadonlySet<string>
}

/** How a message tells a file: from an absolute path, as people would type it. */
export type Display = (path: string) => string

const KNOWN: readonly (readonly [RegExp, string, string])[] = [
  [
    /^Top-level await/,
    '“await” outside a function is not possible in a description',
    'Take the “await” out; a description has all its data at hand, or imports it from a JSON file.',
  ],
  [
    /^"?import\.meta/,
    '“import.meta” is not possible in a description',
    'Name files relative to this one, with import.',
  ],
]

/** esbuild counts columns in bytes from 0, editors in characters from 1. */
function placeOf(message: Message, root: string, display: Display): Place | undefined {
  const { location } = message
  if (!location) return undefined
  const before = Buffer.from(location.lineText).subarray(0, location.column).toString('utf8')
  return { file: display(resolve(root, location.file)), line: location.line, column: before.length + 1 }
}

function troubleOf(message: Message, root: string, display: Display): Trouble {
  const place = placeOf(message, root, display)
  const [what, fix] = inWords(message.text)
  return { what, fix, ...(place ? { place } : {}) }
}

/** A message of the bundler in words of ours where there are any, and what to do. */
export function inWords(text: string): readonly [what: string, fix: string] {
  const known = KNOWN.find(([pattern]) => pattern.test(text))
  if (known) return [known[1], known[2]]
  const missing = /^Could not resolve "(.*)"/.exec(text)?.[1]
  if (missing === undefined) return [text, 'Mend the text here.']
  return [
    `“${missing}” is imported, but is not there`,
    'Check the path and its spelling; it is relative to this file.',
  ]
}

const isBuildFailure = (error: unknown): error is BuildFailure =>
  typeof error === 'object' && error !== null && 'errors' in error && Array.isArray(error.errors)

/** A second message about one place says nothing new. */
export function once(troubles: readonly Trouble[]): Trouble[] {
  const seen = new Set<string>()
  return troubles.filter((trouble) => {
    const key = JSON.stringify(trouble)
    return !seen.has(key) && Boolean(seen.add(key))
  })
}

function describing(inputs: Metafile['inputs'], root: string): Set<string> {
  const asks = Object.entries(inputs).filter(([, { imports }]) =>
    imports.some(({ path }) => path === 'loomwright'),
  )
  return new Set(asks.map(([file]) => resolve(root, file)))
}

/** What the script itself asks for is no import by another file. */
function importedFiles(inputs: Metafile['inputs'], root: string): Set<string> {
  const files = Object.entries(inputs).filter(([file]) => file !== '<stdin>')
  const within = files.flatMap(([, { imports }]) => imports.filter(({ external }) => !external))
  return new Set(within.map(({ path }) => resolve(root, path)))
}

/**
 * Bundles description files. A file given in `files` is run as step i of the script: `step(i, load)`.
 * In one flat script V8 takes longer to tell a call's place the longer the script is; in functions of their own it does not.
 * @returns the bundle, or what is wrong with the sources
 */
export async function bundleTypescript(
  files: readonly string[],
  root: string,
  display: Display,
): Promise<Bundle | { readonly troubles: readonly Trouble[] }> {
  // Loading esbuild costs more than reading a small shop, so a shop written in JSON never does.
  const { build } = await import('esbuild')
  const path = join(root, '__descriptions.cjs')
  try {
    const result = await build({
      stdin: {
        contents: files.map((file, i) => `step(${i}, () => require(${JSON.stringify(file)}))`).join('\n'),
        resolveDir: root,
      },
      absWorkingDir: root,
      outfile: path,
      bundle: true,
      write: false,
      metafile: true,
      format: 'cjs',
      platform: 'node',
      packages: 'external',
      target: 'node20',
      charset: 'utf8',
      sourcemap: 'external',
      sourcesContent: false,
      // What a description means must not hang on a configuration lying about.
      tsconfigRaw: '{}',
      logLevel: 'silent',
      legalComments: 'none',
    } as const)
    return bundleOf(result, path, root, display)
  } catch (error) {
    if (!isBuildFailure(error)) throw error
    return { troubles: once(error.errors.map((message) => troubleOf(message, root, display))) }
  }
}

function bundleOf(
  result: BuildResult<{ metafile: true; write: false }>,
  path: string,
  root: string,
  display: Display,
): Bundle | { readonly troubles: readonly Trouble[] } {
  const meta = result.warnings.filter(({ id }) => id === 'empty-import-meta')
  if (meta.length > 0) return { troubles: once(meta.map((message) => troubleOf(message, root, display))) }
  const text = (ending: string): string =>
    result.outputFiles.find((file) => file.path.endsWith(ending))?.text ?? ''
  const inputs = Object.keys(result.metafile.inputs).filter((file) => file !== '<stdin>')
  return {
    code: text('.cjs'),
    map: text('.map'),
    path,
    inputs: inputs.map((file) => resolve(root, file)),
    imported: importedFiles(result.metafile.inputs, root),
    describing: describing(result.metafile.inputs, root),
  }
}

/** The folder a bundle's map counts its paths from. */
export const mapRoot = (bundle: Bundle): string => dirname(bundle.path)
