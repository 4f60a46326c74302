import { spawn } from 'node:child_process'
import { createRequire } from 'node:module'
import { dirname } from 'node:path'
import { fileURLToPath } from 'node:url'

/** One of our own scripts that run elsewhere than here, bundled to stand alone. */
export async function ownScript(name: 'bundler' | 'interpreter' | 'inside'): Promise<string> {
  const { build } = await import('esbuild')
  const result = await build({
    entryPoints: [ownFile(name)],
    bundle: true,
    write: false,
    logLevel: 'silent',
    tsconfigRaw: '{}',
    legalComments: 'none',
    ...(name === 'inside'
      ? { format: 'iife', globalName: '__apart', platform: 'neutral', target: 'es2022' }
      : { format: 'cjs', platform: 'node', target: 'node20', external: ['esbuild'] }),
    // The interpreter's loader asks where it is, though it is handed what it would look for there.
    define: { 'import.meta.url': '"file:///apart.js"' },
  } as const)
  return result.outputFiles[0]?.text ?? ''
}

/** Beside this file among the sources; in the package two folders below its top, as every entry is. */
function ownFile(name: string): string {
  const here = import.meta.url
  const path = here.endsWith('.ts') ? `./${name}.ts` : `../read/sandbox/${name}.js`
  return fileURLToPath(new URL(path, here))
}

/** Takes the script and its task from standard input, since an argument may not be as long, and writes the outcome. */
const BOOT = `
let text = ''
process.stdin.setEncoding('utf8').on('data', (more) => { text += more }).on('end', async () => {
  const { script, call, task } = JSON.parse(text)
  const module = { exports: {} }
  new Function('module', 'exports', 'require', '__filename', '__dirname', script)(module, module.exports, require, '', '')
  process.stdout.write(JSON.stringify(await module.exports[call](task)), () => process.exit(0))
})`

export interface ChildJob {
  readonly script: string
  readonly call: string
  readonly task: unknown
  /** Bars the process from opening files and starting processes, by Node's permission model. */
  readonly barred: boolean
  readonly seconds: number
  readonly most: number
}

/** What a process wrote, as parsed JSON that nobody has looked at yet, or how it ended instead. */
export type ChildResult = { readonly result: unknown } | { readonly ended: 'time' | 'length' | 'crash' }

function flags(barred: boolean): string[] {
  if (!barred) return []
  const known = process.allowedNodeEnvironmentFlags
  return [known.has('--permission') ? '--permission' : '--experimental-permission']
}

/** A process takes the processes it started with it: on POSIX they are one group. */
function endGroup(pid: number | undefined): void {
  if (pid === undefined) return
  try {
    process.kill(process.platform === 'win32' ? pid : -pid, 'SIGKILL')
  } catch {
    // It ended in the meantime.
  }
}

/** Runs a script in a process without environment, bounded in time and output. Never throws. */
export function runChild({ script, call, task, barred, seconds, most }: ChildJob): Promise<ChildResult> {
  const { SystemRoot } = process.env
  const child = spawn(
    process.execPath,
    [...flags(barred), '--no-warnings', '--max-old-space-size=1024', '-e', BOOT],
    {
      cwd: dirname(createRequire(import.meta.url).resolve('esbuild/package.json')),
      env: SystemRoot === undefined ? {} : { SystemRoot },
      stdio: ['pipe', 'pipe', 'ignore'],
      detached: process.platform !== 'win32',
      windowsHide: true,
    },
  )
  const chunks: Buffer[] = []
  return new Promise((done) => {
    let length = 0
    const end = (how: ChildResult): void => {
      clearTimeout(timer)
      endGroup(child.pid)
      done(how)
    }
    const timer = setTimeout(() => end({ ended: 'time' }), seconds * 1000)
    child.on('error', () => end({ ended: 'crash' }))
    child.stdout.on('data', (chunk: Buffer) => {
      length += chunk.length
      if (length > most) end({ ended: 'length' })
      else chunks.push(chunk)
    })
    child.on('close', (code) => {
      try {
        end(code === 0 ? { result: JSON.parse(Buffer.concat(chunks).toString('utf8')) } : { ended: 'crash' })
      } catch {
        end({ ended: 'crash' })
      }
    })
    child.stdin.on('error', () => undefined)
    child.stdin.end(JSON.stringify({ script, call, task }))
  })
}
