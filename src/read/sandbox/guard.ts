import { realpath, stat } from 'node:fs/promises'
import { dirname, extname, join, resolve, sep } from 'node:path'
import type { Loader, OnLoadResult, OnResolveArgs, OnResolveResult, PartialMessage, Plugin } from 'esbuild'
import { LIMITS } from '../../describe/limits.ts'
import { readText } from '../read-text.ts'
import { TroubleError } from '../trouble-error.ts'
import { APART } from './limits.ts'

/** Files of the shop. The bundler opens nothing by itself in a namespace of ours: no package.json, no tsconfig, no source map. */
export const STRANGER = 'stranger'
export const ENTRY = 'entry'

const LOADERS: Readonly<Record<string, Loader>> = {
  '.ts': 'ts',
  '.mts': 'ts',
  '.js': 'js',
  '.mjs': 'js',
  '.json': 'json',
}
const ENDINGS = ['', '.ts', '.mts', '.js', '.mjs', '.json', '/index.ts', '/index.js']

const refused = (text: string, fix: string): { errors: PartialMessage[] } => ({
  errors: [{ text, detail: fix }],
})

const isFile = async (path: string): Promise<boolean> =>
  (await stat(path).catch(() => undefined))?.isFile() === true

/** The file an import means, links followed, or undefined. A name that ends in .js may mean the .ts it is made from. */
async function fileOf(path: string): Promise<string | undefined> {
  const names = ENDINGS.map((ending) => path + ending)
  if (/\.m?js$/.test(path)) names.push(path.replace(/js$/, 'ts'))
  for (const name of names) if (await isFile(name)) return realpath(name)
  return undefined
}

async function resolveImport(args: OnResolveArgs, root: string): Promise<OnResolveResult> {
  const { path, importer, namespace, with: attributes } = args
  if (path === 'loomwright') return { path, external: true }
  const odd = Object.entries(attributes).filter(([key, value]) => !(key === 'type' && value === 'json'))
  if (odd.length > 0) return refused('this import asks for text or raw bytes', 'Import TypeScript or JSON.')
  const relative = /^\.\.?(\/|$)/.test(path)
  if (namespace !== ENTRY && !relative)
    return refused(
      `“${path}” is imported, but what runs apart may import only files of its own folder, and loomwright`,
      'Take the import out; node:… and packages cannot be had.',
    )
  const file = await fileOf(namespace === ENTRY ? path : join(dirname(importer), path))
  if (file === undefined)
    return refused(
      `“${path}” is imported, but is not there`,
      'Check the path and its spelling; it is relative to this file.',
    )
  if (!file.startsWith(root.endsWith(sep) ? root : root + sep))
    return refused(
      `“${path}” leads out of the folder that was named`,
      'Name the folder that holds both; nothing outside it is opened.',
    )
  if (!LOADERS[extname(file)])
    return refused(`“${path}” is no TypeScript, JavaScript or JSON`, 'Import nothing else.')
  return { path: file, namespace: STRANGER }
}

/** A source map named in a comment would be one more file to open; the same length keeps all columns. */
const withoutMap = (text: string): string => text.replaceAll('sourceMappingURL=', 'sourceMappingURL_')

/** Lets the bundler see files inside `root` only, and only what the guard itself has read. */
export function guard(root: string, files: readonly string[]): Plugin {
  const spent = { bytes: 0, files: 0 }
  const load = async (path: string): Promise<OnLoadResult> => {
    try {
      const text = await readText(path, path)
      spent.bytes += Buffer.byteLength(text)
      spent.files += 1
      if (spent.bytes > APART.sourceBytes || spent.files > LIMITS.files)
        return refused('there is more code than may run apart', 'Name fewer files.')
      return { contents: withoutMap(text), loader: LOADERS[extname(path)] ?? 'ts' }
    } catch (error) {
      if (error instanceof TroubleError) return refused(error.trouble.what, error.trouble.fix)
      throw error
    }
  }
  return {
    name: 'guard',
    setup(build) {
      build.onResolve({ filter: /.*/ }, (args) =>
        args.kind === 'entry-point' ? { path: ENTRY, namespace: ENTRY } : resolveImport(args, root),
      )
      build.onLoad({ filter: /.*/, namespace: ENTRY }, () => ({
        contents: files.map((file, i) => `step(${i}, () => require(${JSON.stringify(file)}))`).join('\n'),
        loader: 'js',
      }))
      build.onLoad({ filter: /.*/, namespace: STRANGER }, ({ path }) => load(resolve(path)))
      // Nothing may reach the bundler's own reading.
      build.onLoad({ filter: /.*/ }, () => refused('this cannot be imported here', 'Take the import out.'))
    },
  }
}
