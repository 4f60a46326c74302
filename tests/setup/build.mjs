// Builds dist: one bundle with shared chunks for the library and the command, then the type declarations.
import { spawnSync } from 'node:child_process'
import { chmodSync, existsSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = fileURLToPath(new URL('../..', import.meta.url))
const dist = join(root, 'dist')
const main = join(dist, 'cli/main.js')

async function bundle() {
  const { build } = await import('esbuild')
  await build({
    absWorkingDir: root,
    // The last three are bundled once more when they are needed, to stand alone in a process or an interpreter.
    entryPoints: [
      'src/index.ts',
      'src/cli/main.ts',
      'src/read/sandbox/bundler.ts',
      'src/read/sandbox/inside.ts',
      'src/read/sandbox/interpreter.ts',
    ],
    outdir: dist,
    outbase: 'src',
    chunkNames: 'chunks/[name]-[hash]',
    bundle: true,
    splitting: true,
    packages: 'external',
    format: 'esm',
    platform: 'node',
    target: 'node20.19',
    sourcemap: true,
    logLevel: 'warning',
  })
  chmodSync(main, 0o755)
}

function declare() {
  const manifest = createRequire(import.meta.url).resolve('typescript/package.json')
  const tsc = join(dirname(manifest), 'bin/tsc')
  const ran = spawnSync(process.execPath, [tsc, '-p', join(root, 'src/tsconfig.json')], { stdio: 'inherit' })
  if (ran.status !== 0)
    throw new Error('the type declarations could not be written: see the errors of tsc above')
}

if (!(process.argv.includes('--if-missing') && existsSync(main))) {
  rmSync(dist, { recursive: true, force: true })
  await bundle()
  declare()
}
