// npm run bench [-- --quick] [--only check,solver,…]: all figures as ratios, each measured side by side with what it is held against.
import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { availableParallelism, cpus, tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { build } from 'esbuild'
import { hall, shopFiles } from './make-shop.mjs'
import { typedHall } from './typed-hall.mjs'

const top = fileURLToPath(new URL('../..', import.meta.url))
const main = join(top, 'dist/cli/main.js')
const { values } = parseArgs({
  options: { quick: { type: 'boolean', default: false }, only: { type: 'string', default: '' } },
})
const { quick } = values
const only = values.only.split(',').filter((word) => word !== '')
if (!existsSync(main)) throw new Error('there is no dist: npm run build')
const scratch = mkdtempSync(join(tmpdir(), 'loomwright-bench-'))
const inside = join(top, `node_modules/.cache/loomwright-bench-${process.pid}/dist/cli/inside.mjs`)

const median = (series) => [...series].sort((a, b) => a - b)[Math.floor(series.length / 2)]
/** Half the distance between the quarters, as a part of the median: what the middle half of the runs strays by. */
function spread(series) {
  const sorted = [...series].sort((a, b) => a - b)
  const at = (part) => sorted[Math.min(sorted.length - 1, Math.round((sorted.length - 1) * part))]
  return (at(0.75) - at(0.25)) / 2 / median(series)
}

const rows = []
function row(name, { base, own, target, unit = 'ms', note = '' }) {
  const ratio = median(own) / median(base)
  const hit = target === undefined ? undefined : target.least ? ratio >= target.least : ratio <= target.most
  const line = {
    name,
    base: median(base),
    own: median(own),
    ratio,
    spread: Math.hypot(spread(base), spread(own)),
    target,
    hit,
    unit,
    note,
  }
  rows.push(line)
  print(line)
}

const figure = (value) =>
  value >= 100 ? value.toFixed(0) : value >= 1 ? value.toFixed(1) : value.toPrecision(2)
function print({ name, base, own, ratio, spread: stray, target, hit, unit, note }) {
  const wanted = target === undefined ? '' : target.least ? `≥ ${target.least}` : `≤ ${target.most}`
  const verdict = hit === undefined ? '' : hit ? 'hit' : 'MISSED'
  process.stdout.write(
    `${name.padEnd(52)} ${figure(base).padStart(8)} ${figure(own).padStart(8)} ${unit.padEnd(2)} ${figure(ratio).padStart(7)} ±${(stray * 100).toFixed(0).padStart(3)} % ${wanted.padEnd(7)} ${verdict.padEnd(6)} ${note}\n`,
  )
}

/** Runs a command and gives its processor time, its time on the wall, both in ms, and its largest memory in MB. */
function timed(args, options = {}) {
  const begun = performance.now()
  const command = ['TIMEFORMAT="@@%3U %3S"; time "$@" >/dev/null 2>"$LOOM_BENCH_ERR"']
  const errors = join(scratch, 'stderr')
  const ran = spawnSync('bash', ['-c', command[0], 'bench', process.execPath, ...args], {
    encoding: 'utf8',
    cwd: options.cwd ?? scratch,
    env: { ...process.env, LOOM_BENCH_ERR: errors },
  })
  const wall = performance.now() - begun
  const [, user, system] = /@@([\d.]+) ([\d.]+)/.exec(ran.stderr) ?? []
  if (user === undefined || (ran.status !== 0 && ran.status !== (options.status ?? 0)))
    throw new Error(`${args.join(' ')} ended with ${ran.status}: ${ran.stderr}`)
  return { cpu: (Number(user) + Number(system)) * 1000, wall }
}

function alternate(runs, commands) {
  const series = commands.map(() => ({ cpu: [], wall: [] }))
  for (let round = 0; round <= runs; round++)
    for (const [index, command] of commands.entries()) {
      const { cpu, wall } = command()
      if (round === 0) continue
      series[index].cpu.push(cpu)
      series[index].wall.push(wall)
    }
  return series
}

const measured = (...args) =>
  JSON.parse(
    execFileSync(process.execPath, ['--max-old-space-size=8000', inside, ...args.map(String)], {
      encoding: 'utf8',
      maxBuffer: 1e8,
    }),
  )
const bare = () => timed(['-e', '0'])
const cli = (...args) => timed([main, ...args], { status: 1 })

function writeShop(folder, looms) {
  rmSync(folder, { recursive: true, force: true })
  mkdirSync(folder, { recursive: true })
  for (const [name, text] of shopFiles(looms)) writeFileSync(join(folder, name), text)
}

const parts = {
  start() {
    const file = join(scratch, 'small.json')
    writeFileSync(file, JSON.stringify(hall(30)))
    const [base, help, check] = alternate(quick ? 5 : 15, [
      bare,
      () => cli('--help'),
      () => cli('check', file),
    ])
    row('start: --help / bare Node', { base: base.cpu, own: help.cpu })
    row('start: check of 30 wires / bare Node', { base: base.cpu, own: check.cpu, target: { most: 4 } })
    row('start: the same on the wall', { base: base.wall, own: check.wall })
  },

  check() {
    const sizes = quick ? [30, 300, 3000] : [30, 300, 3000, 30_000]
    const validate = join(scratch, 'validate.mjs')
    writeFileSync(
      validate,
      `import { readFileSync } from 'node:fs'\nimport { parseAndValidate } from ${JSON.stringify(inside.replace('inside', 'validate'))}\nif (!parseAndValidate(readFileSync(process.argv[2], 'utf8'))) throw new Error('not valid')\n`,
    )
    const perWire = []
    for (const wires of sizes) {
      const file = join(scratch, `hall-${wires}.json`)
      writeFileSync(file, JSON.stringify(hall(wires)))
      const runs = wires > 3000 ? 3 : quick ? 3 : 9
      const [base, own] = alternate(runs, [() => timed([validate, file]), () => cli('check', file)])
      const target = wires === 3000 ? { most: 3 } : undefined
      row(`check, whole run / parse and validate: ${wires} wires`, { base: base.cpu, own: own.cpu, target })
      const [warmBase, warmOwn] = measured('check', wires, wires > 3000 ? 3 : 9)
      row(`check, warm / parse and validate, warm: ${wires} wires`, { base: warmBase, own: warmOwn, target })
      perWire.push([wires, warmOwn])
    }
    const [fewer, more] = perWire.slice(-2)
    const nLogN = ([n, series]) => series.map((ms) => ms / (n * Math.log2(n)))
    row(`check, per n log n: ${more[0]} / ${fewer[0]} wires`, {
      base: nLogN(fewer),
      own: nLogN(more),
      target: { most: 1.2 },
    })
  },

  solver() {
    for (const nodes of quick ? [100, 1000] : [100, 1000, 10_000]) {
      const { series, worst } = measured('solver', nodes, quick ? 3 : 7)
      const note = `largest difference ${worst.toExponential(1)} of the supply${worst <= 1e-6 ? '' : ': NOT EQUAL'}`
      row(`solver / ngspice, whole run, same netlist: ${nodes} nodes`, {
        base: series[0],
        own: series[1],
        target: { most: 1 },
        note,
      })
    }
  },

  drawing() {
    const [base, own] = measured('drawing', quick ? 10 : 40, quick ? 2 : 7)
    row('drawing / bare layout of the same graphs', { base, own, target: { most: 1.2 } })
  },

  rebuild() {
    const looms = quick ? 30 : 300
    const shop = join(scratch, 'shop')
    writeShop(shop, looms)
    const args = ['build', shop, '--to', join(scratch, 'out'), '--cache', join(scratch, 'cache')]
    const full = cli(...args)
    // The first build after the files were written may be too close to them to vouch for them.
    cli(...args)
    const [base, same] = alternate(quick ? 5 : 15, [bare, () => cli(...args)])
    row(`nothing changed, ${looms} looms / bare Node`, { base: base.cpu, own: same.cpu, target: { most: 4 } })
    row('the same on the wall', { base: base.wall, own: same.wall })
    let metres = 10
    const one = shopFiles(looms).get('loom-0007.json')
    const change = () => {
      writeFileSync(
        join(shop, 'loom-0007.json'),
        one.replace('"length": "0.2 m"', `"length": "0.${metres++} m"`),
      )
      return cli(...args)
    }
    const changes = [change(), change(), change()].slice(1)
    row(`one file changed of ${looms} / all built anew`, {
      base: [full.cpu],
      own: changes.map(({ cpu }) => cpu),
    })
    row('the same on the wall', { base: [full.wall], own: changes.map(({ wall }) => wall) })
  },

  cores() {
    const looms = quick ? 60 : 500
    const shop = join(scratch, 'many')
    writeShop(shop, looms)
    const draw = (jobs) => {
      const begun = ['build', shop, '--shard', '1/1', '--jobs', String(jobs)]
      rmSync(join(scratch, 'drawn'), { recursive: true, force: true })
      return cli(...begun, '--cache', join(scratch, 'drawn'))
    }
    const cores = Math.min(availableParallelism(), 8)
    const one = [draw(1)]
    const all = [draw(cores)]
    row(`one core / ${cores} cores on the wall: ${looms * 3} drawings`, {
      base: all.map(({ wall }) => wall),
      own: one.map(({ wall }) => wall),
      target: quick ? undefined : { least: 1.5 },
    })
  },

  memory() {
    const most = (...args) => {
      const preload = `data:text/javascript,process.on("exit",()=>process.stderr.write("@@"+process.resourceUsage().maxRSS))`
      const ran = spawnSync(process.execPath, ['--import', preload, ...args], {
        encoding: 'utf8',
        cwd: scratch,
        maxBuffer: 1e9,
      })
      return Number(/@@(\d+)/.exec(ran.stderr)?.[1]) / 1024
    }
    const base = most('-e', '0')
    for (const wires of quick ? [3000] : [3000, 30_000]) {
      const file = join(scratch, `memory-${wires}.json`)
      writeFileSync(file, JSON.stringify(hall(wires)))
      row(`largest memory, check of ${wires} wires / bare Node`, {
        base: [base],
        own: [most(main, 'check', file)],
        unit: 'MB',
      })
    }
    const shop = join(scratch, 'memory-shop')
    const looms = quick ? 10 : 100
    writeShop(shop, looms)
    row(`largest memory, build of ${looms} looms / bare Node`, {
      base: [base],
      own: [most(main, 'build', shop, '--no-cache')],
      unit: 'MB',
    })
  },

  types() {
    const folder = join(scratch, 'types')
    mkdirSync(folder, { recursive: true })
    const settings = {
      compilerOptions: {
        strict: true,
        noEmit: true,
        module: 'nodenext',
        moduleResolution: 'nodenext',
        target: 'es2022',
        skipLibCheck: true,
        types: [],
        paths: {
          loomwright: [join(top, 'dist/types/index.d.ts')],
          zod: [join(top, 'node_modules/zod/index.d.cts')],
        },
      },
    }
    const project = (name, text) => {
      mkdirSync(join(folder, name))
      writeFileSync(join(folder, name, 'hall.mts'), text)
      writeFileSync(join(folder, name, 'tsconfig.json'), JSON.stringify({ ...settings, files: ['hall.mts'] }))
      return () => timed([join(top, 'node_modules/typescript/bin/tsc'), '-p', join(folder, name)])
    }
    const wires = quick ? 300 : 3000
    const [base, own] = alternate(quick ? 2 : 5, [
      project('one', typedHall(3)),
      project('many', typedHall(wires)),
    ])
    row(`type-checking ${wires} wires / 3 wires`, { base: base.cpu, own: own.cpu })
    row('the same on the wall', { base: base.wall, own: own.wall })
  },
}

async function bundleInside() {
  await build({
    absWorkingDir: top,
    entryPoints: { inside: 'tests/bench/inside.ts', validate: 'tests/bench/validate.ts' },
    outdir: join(inside, '..'),
    outExtension: { '.js': '.mjs' },
    bundle: true,
    external: ['esbuild', 'elkjs', 'svgdom', 'quickjs-emscripten'],
    mainFields: ['module', 'main'],
    alias: { handlebars: join(top, 'node_modules/handlebars/dist/cjs/handlebars.js') },
    format: 'esm',
    platform: 'node',
    target: 'node20.19',
    logLevel: 'warning',
  })
}

try {
  await bundleInside()
  process.stdout.write(
    `${'medians; ± is what the middle half of the runs strays by'.padEnd(52)} ${'against'.padStart(8)} ${'own'.padStart(8)}    ${'ratio'.padStart(7)}        target\n`,
  )
  for (const [name, part] of Object.entries(parts)) if (only.length === 0 || only.includes(name)) part()
  const folder = join(top, 'out/bench')
  mkdirSync(folder, { recursive: true })
  const machine = { node: process.version, processor: cpus()[0]?.model, cores: availableParallelism() }
  const file = join(folder, `${quick ? 'quick' : 'bench'}.json`)
  writeFileSync(file, `${JSON.stringify({ machine, rows }, null, 2)}\n`)
  const missed = rows.filter(({ hit }) => hit === false)
  process.stdout.write(
    `${rows.filter(({ hit }) => hit).length} targets hit, ${missed.length} missed; as JSON: ${file}\n`,
  )
} finally {
  for (const folder of [scratch, join(inside, '../../..')]) rmSync(folder, { recursive: true, force: true })
}
