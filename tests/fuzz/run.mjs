// The longer fuzz run: npm run fuzz -- --cases 100000 [--draw 500] [--seed 1] [--workers 2] [--seconds 60]
import { fork } from 'node:child_process'
import { cpSync, existsSync, mkdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { build } from 'esbuild'

const top = fileURLToPath(new URL('../..', import.meta.url))
const text = (value) => ({ type: 'string', default: value })
const { values } = parseArgs({
  options: {
    cases: text('10000'),
    draw: text('100'),
    seed: text('1'),
    workers: text('2'),
    seconds: text('60'),
  },
})
const out = join(top, `node_modules/.cache/loomwright-fuzz-${process.pid}`)

async function bundle() {
  mkdirSync(out, { recursive: true })
  for (const name of ['package.json', 'templates', 'site'])
    if (existsSync(join(top, name))) cpSync(join(top, name), join(out, name), { recursive: true })
  await build({
    absWorkingDir: top,
    entryPoints: ['tests/fuzz/worker.ts'],
    outdir: join(out, 'dist/cli'),
    bundle: true,
    packages: 'external',
    format: 'esm',
    platform: 'node',
    target: 'node20.19',
    sourcemap: 'inline',
    logLevel: 'warning',
  })
}

const count = { cases: 0, refused: 0, misshapen: 0, judged: 0, published: 0 }
const faults = new Map()
const slowest = []

function note(message) {
  if (message.begun !== undefined) return
  count.cases += 1
  if (message.reached) count[message.reached] += 1
  if (message.fault) {
    const kind = message.fault
      .split('\n')
      .slice(0, 2)
      .join(' ')
      .replace(/…[\s\S]*…/, '')
    const known = faults.get(kind)
    if (known) known.count += 1
    else faults.set(kind, { count: 1, seed: message.seed, fault: message.fault })
  }
  slowest.push([message.ms, message.seed, message.reached ?? 'fault'])
  slowest.sort((a, b) => b[0] - a[0])
  slowest.length = Math.min(slowest.length, 5)
}

/** Runs cases from, from + step … in a process; one that hangs or dies is a fault, and the rest goes on in a new one. */
function runFrom(from, to, step, draw) {
  return new Promise((done) => {
    let current = from
    let timer
    const child = fork(join(out, 'dist/cli/worker.js'), [top, `${from}`, `${to}`, `${step}`, draw], {
      execArgv: ['--enable-source-maps', '--max-old-space-size=2048'],
    })
    const watch = () => {
      clearTimeout(timer)
      timer = setTimeout(() => child.kill('SIGKILL'), Number(values.seconds) * 1000)
    }
    watch()
    let ready = true
    child.on('message', (message) => {
      watch()
      if (message.begun !== undefined) [current, ready] = [message.begun, false]
      else ready = true
      note(message)
    })
    child.on('close', (code) => {
      clearTimeout(timer)
      if (code === 0) return done()
      if (!ready) note({ seed: current, fault: `ended by ${code ?? 'the clock'}`, ms: 0 })
      done(current + step < to && !ready ? runFrom(current + step, to, step, draw) : undefined)
    })
  })
}

async function stage(name, cases, draw) {
  const first = Number(values.seed)
  const workers = Number(values.workers)
  const start = performance.now()
  await Promise.all([...Array(workers).keys()].map((i) => runFrom(first + i, first + cases, workers, draw)))
  console.log(`${name}: ${cases} cases in ${Math.round((performance.now() - start) / 1000)} s`)
}

await bundle()
if (Number(values.cases) > 0) await stage('read to report', Number(values.cases), 'no')
if (Number(values.draw) > 0) await stage('drawn and published', Number(values.draw), 'yes')
rmSync(out, { recursive: true, force: true })
console.log(JSON.stringify(count))
for (const [ms, seed, reached] of slowest) console.log(`slow: ${Math.round(ms)} ms, seed ${seed}, ${reached}`)
for (const { count: times, seed, fault } of faults.values())
  console.log(`\nFAULT ×${times}, seed ${seed}\n${fault}`)
console.log(`\n${faults.size} kinds of fault in ${count.cases} cases`)
process.exitCode = faults.size > 0 ? 1 : 0
