import type { BuildFailure, Message } from 'esbuild'
import { ENTRY, guard, STRANGER } from './guard.ts'
import { SCRIPT_NAME } from './limits.ts'

/*
 * This file runs in a process of its own: text made to be nested without end takes the bundler a long time or ends it, and that
 * must neither hold up nor end the process that asked.
 */

export interface BundleTask {
  readonly files: readonly string[]
  readonly root: string
}

/** What is wrong, before it is put into words for people. Lines from 1, columns in characters from 1. */
export interface BundleFault {
  readonly text: string
  readonly fix?: string
  readonly file?: string
  readonly line?: number
  readonly column?: number
}

export type Bundled =
  | {
      readonly code: string
      readonly map: string
      readonly inputs: readonly string[]
      readonly describing: readonly string[]
    }
  | { readonly faults: readonly BundleFault[] }

const bare = (name: string): string => name.replace(/^stranger:/, '')

/** Messages of the bundler name files with our namespace before their path. */
const plain = (text: string): string => text.replaceAll(`${STRANGER}:`, '')

function faultOf({ text: written, detail, location }: Message): BundleFault {
  const text = plain(written)
  const fix = typeof detail === 'string' ? { fix: detail } : {}
  if (!location || !location.file.startsWith(`${STRANGER}:`)) return { text, ...fix }
  const before = Buffer.from(location.lineText).subarray(0, location.column).toString('utf8')
  return { text, ...fix, file: bare(location.file), line: location.line, column: before.length + 1 }
}

const isBuildFailure = (error: unknown): error is BuildFailure =>
  typeof error === 'object' && error !== null && 'errors' in error && Array.isArray(error.errors)

const OPTIONS = {
  outfile: '/out/descriptions.js',
  absWorkingDir: '/',
  bundle: true,
  write: false,
  metafile: true,
  format: 'cjs',
  platform: 'neutral',
  target: 'es2022',
  charset: 'utf8',
  sourcemap: 'external',
  sourcesContent: false,
  tsconfigRaw: '{}',
  logLevel: 'silent',
  legalComments: 'none',
} as const

/** Bundles files under the guard. */
export async function bundleGuarded({ files, root }: BundleTask): Promise<Bundled> {
  const { build } = await import('esbuild')
  const absWorkingDir = process.cwd()
  const outfile = `${absWorkingDir}/${SCRIPT_NAME}`
  try {
    const result = await build({
      ...OPTIONS,
      absWorkingDir,
      outfile,
      entryPoints: [ENTRY],
      plugins: [guard(root, files)],
    })
    const meta = result.warnings.filter(({ id }) => id === 'empty-import-meta')
    if (meta.length > 0) return { faults: meta.map(faultOf) }
    const text = (map: boolean): string =>
      result.outputFiles.find((file) => file.path.endsWith('.map') === map)?.text ?? ''
    const map = JSON.parse(text(true)) as { sources: string[] }
    const inputs = Object.entries(result.metafile.inputs).filter(([name]) => name.startsWith(`${STRANGER}:`))
    return {
      code: text(false),
      map: JSON.stringify({ ...map, sources: map.sources.map(bare) }),
      inputs: inputs.map(([name]) => bare(name)),
      describing: inputs
        .filter(([, { imports }]) => imports.some(({ path }) => path === 'loomwright'))
        .map(([name]) => bare(name)),
    }
  } catch (error) {
    if (isBuildFailure(error)) return { faults: error.errors.map(faultOf) }
    throw error
  }
}
