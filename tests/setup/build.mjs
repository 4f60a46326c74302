// Builds dist: one bundle with shared chunks for the library and the command, then the type declarations.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { chmodSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('../..', import.meta.url))

/** Left outside: what loads files of its own, a program of its own, or is too large to be taken in. */
const OUTSIDE = ['esbuild', 'quickjs-emscripten', 'elkjs', 'svgdom']

/** What checking a description written in JSON loads, which is what every other command begins with. */
const KERNEL = [
  'cli/check-command',
  'read/read-shop',
  'read/parse-json',
  'describe/validate',
  'resolve/resolve',
  'solve/solve',
  'check/check',
  'report/text',
]
/** Every file of ours that another loads when it gets to it. */
function lazyFiles() {
  const src = join(root, 'src')
  const files = readdirSync(src, { recursive: true }).filter((file) => file.endsWith('.ts'))
  return new Set(
    files.flatMap((file) => {
      const asked = readFileSync(join(src, file), 'utf8').matchAll(/\bimport\('(\.[^']*)'\)/g)
      return [...asked].map(([, path]) => join(src, dirname(file), path))
    }),
  )
}

/** Entries that do without the kernel: they must start at once, or stand alone. */
const APART = /[\\/]src[\\/]cli[\\/](main|init-command|build-command|picture-thread)\.ts$/

/**
 * Files reached from the same entries share a chunk, so that a command that is loaded in steps would read fifty small files. Here
 * each entry reaches all of the kernel, which thereby becomes one chunk.
 */
const oneKernel = {
  name: 'one-kernel',
  setup(build) {
    build.onResolve({ filter: /^one-kernel$/ }, () => ({
      path: 'kernel',
      namespace: 'kernel',
      sideEffects: true,
    }))
    build.onLoad({ filter: /.*/, namespace: 'kernel' }, () => ({
      contents: KERNEL.map((file) => `import ${JSON.stringify(join(root, 'src', `${file}.ts`))}`).join('\n'),
      resolveDir: root,
    }))
    const entries = lazyFiles().add(join(root, 'src/index.ts'))
    build.onLoad({ filter: /[\\/]src[\\/].*\.ts$/ }, ({ path }) =>
      entries.has(path) && !APART.test(path)
        ? { contents: `${readFileSync(path, 'utf8')}\nimport 'one-kernel'\n`, loader: 'ts' }
        : undefined,
    )
  },
}

/** The licences of what was taken in must go where the code goes. */
function writeLicences(dist, inputs) {
  const taken = Object.keys(inputs).map((file) => /^(.*node_modules\/((?:@[^/]+\/)?[^/]+))\//.exec(file))
  const packages = new Map(taken.flatMap((match) => (match ? [[match[2], join(root, match[1])]] : [])))
  const texts = [...packages].sort().map(([name, folder]) => {
    const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry))
    const { version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
    return `${name} ${version} (${license})\n\n${file ? readFileSync(join(folder, file), 'utf8').trim() : ''}\n`
  })
  writeFileSync(join(dist, 'LICENSES.txt'), texts.join(`\n${'-'.repeat(80)}\n\n`))
}

const SHARED = {
  absWorkingDir: root,
  outbase: 'src',
  chunkNames: 'chunks/[name]-[hash]',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  sourcemap: true,
  logLevel: 'warning',
}

/** What is kept from one build of the tool must not be taken for the work of another. */
function writeBuildId(dist, outputs) {
  const hash = createHash('sha256')
  for (const file of outputs.filter((name) => name.endsWith('.js')).sort())
    hash.update(readFileSync(join(root, file)))
  writeFileSync(
    join(dist, 'build-id'),
    `${hash.update(readFileSync(join(root, 'package.json'))).digest('hex')}\n`,
  )
}

/** Bundles the library and the command into a folder. */
export async function bundle(dist) {
  const { build } = await import('esbuild')
  // These are bundled once more when they are needed, to stand alone in a process or an interpreter.
  await build({
    ...SHARED,
    outdir: dist,
    entryPoints: [
      'src/read/sandbox/bundler.ts',
      'src/read/sandbox/inside.ts',
      'src/read/sandbox/interpreter.ts',
    ],
    packages: 'external',
  })
  const { metafile } = await build({
    ...SHARED,
    outdir: dist,
    entryPoints: ['src/index.ts', 'src/cli/main.ts', 'src/cli/picture-thread.ts'],
    external: OUTSIDE,
    plugins: [oneKernel],
    // One of the packages in its first form asks for its parts while it runs, which a bundle cannot give.
    mainFields: ['module', 'main'],
    alias: { handlebars: join(root, 'node_modules/handlebars/dist/cjs/handlebars.js') },
    // Names stay, so that a stack can be read; the rest only makes files larger.
    minifyWhitespace: true,
    minifySyntax: true,
    metafile: true,
  })
  writeLicences(dist, metafile.inputs)
  writeBuildId(dist, Object.keys(metafile.outputs))
  chmodSync(join(dist, 'cli/main.js'), 0o755)
}

function declare() {
  const manifest = createRequire(import.meta.url).resolve('typescript/package.json')
  const tsc = join(dirname(manifest), 'bin/tsc')
  const ran = spawnSync(process.execPath, [tsc, '-p', join(root, 'src/tsconfig.json')], { stdio: 'inherit' })
  if (ran.status !== 0)
    throw new Error('the type declarations could not be written: see the errors of tsc above')
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const dist = join(root, 'dist')
  if (!(process.argv.includes('--if-missing') && existsSync(join(dist, 'cli/main.js')))) {
    rmSync(dist, { recursive: true, force: true })
    await bundle(dist)
    declare()
  }
}
