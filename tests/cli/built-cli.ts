import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { cpSync, existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll } from 'vitest'
import { bundle as buildPackage } from '../setup/build.mjs'

export const root = fileURLToPath(new URL('../..', import.meta.url))

export interface Ran {
  readonly code: number | null
  readonly out: string
  readonly err: string
}

export interface RunOptions {
  readonly cwd?: string
  readonly env?: NodeJS.ProcessEnv
  readonly input?: string
}

/** The command as users have it, built for one test file, and a scratch folder that is taken away afterwards. */
export interface BuiltCli {
  readonly main: string
  readonly scratch: string
  readonly run: (args: readonly string[], options?: RunOptions) => Promise<Ran>
}

/** Bundles as the package's own build does, into a copy of the package's layout, so that no test meets an old build. */
async function bundleInto(top: string): Promise<void> {
  for (const name of ['package.json', 'templates', 'site'])
    if (existsSync(join(root, name))) cpSync(join(root, name), join(top, name), { recursive: true })
  await buildPackage(join(top, 'dist'))
}

async function runOnce(main: string, args: readonly string[], options: RunOptions): Promise<Ran> {
  const { NO_COLOR: _, LOOMWRIGHT_DEBUG: __, ...env } = process.env
  const child = spawn(process.execPath, [main, ...args], {
    cwd: options.cwd ?? root,
    // How long a slow machine takes must not show in what is compared.
    env: { ...env, LOOMWRIGHT_QUIET: '1', ...options.env },
    stdio: ['pipe', 'pipe', 'pipe'],
  })
  const chunks = { out: '', err: '' }
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    chunks.out += text
  })
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    chunks.err += text
  })
  child.stdin.end(options.input ?? '')
  const [code] = (await once(child, 'close')) as [number | null]
  return { code, ...chunks }
}

/** Sets a built command up for the tests of one file. Its fields are ready once the tests run. */
export function builtCli(): BuiltCli {
  const cache = join(root, 'node_modules/.cache')
  const state = { top: '', scratch: '' }
  beforeAll(async () => {
    mkdirSync(cache, { recursive: true })
    state.top = mkdtempSync(join(cache, 'loomwright-test-'))
    state.scratch = mkdtempSync(join(tmpdir(), 'loomwright-cli-'))
    await bundleInto(state.top)
  })
  afterAll(() => {
    for (const folder of [state.top, state.scratch]) rmSync(folder, { recursive: true, force: true })
  })
  const main = () => join(state.top, 'dist/cli/main.js')
  return {
    get main() {
      return main()
    },
    get scratch() {
      return state.scratch
    },
    run: (args, options = {}) => runOnce(main(), args, options),
  }
}
