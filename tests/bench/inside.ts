// Runs in a process of its own: measures what needs the library's insides. Prints JSON.
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { ElkNode } from 'elkjs/lib/elk-api.js'
import { checkShop } from '../../src/check/check.ts'
import { wiringModel } from '../../src/cli/draw-looms.ts'
import { describeShop } from '../../src/describe/validate.ts'
import { layOutAnew } from '../../src/draw/layout-engine.ts'
import { drawPicture, type Picture } from '../../src/draw/picture.ts'
import { jsonLocator, parseJson } from '../../src/read/parse-json.ts'
import { printText } from '../../src/report/text.ts'
import { resolveShop } from '../../src/resolve/resolve.ts'
import { prepareNodal } from '../../src/solve/nodal.ts'
import { solve } from '../../src/solve/solve.ts'
import { hall, shopFiles } from './make-shop.mjs'
import { alternate, type Series, wall } from './measure.ts'
import { parseAndValidate } from './validate.ts'

/** Everything `check` does with a file once its text is there. */
function checkText(text: string): number {
  const data = parseJson(text, 'hall.json')
  const { shop } = describeShop([{ name: 'hall.json', data }])
  const { looms, index } = resolveShop(shop)
  const result = checkShop({
    looms: looms.map((loom) => ({ loom, solution: solve(loom) })),
    findings: index.findings,
  })
  const locate = jsonLocator(text, 'hall.json')
  const places = ({ path }: { readonly path: readonly (string | number)[] }) => locate(path)
  return printText(result, { width: 110, colour: false, locate: places, sourceLine: () => '' }).length
}

function check(wires: number, runs: number): Promise<Series[]> {
  const text = JSON.stringify(hall(wires))
  return alternate(runs, [() => parseAndValidate(text), () => checkText(text)])
}

/** A tree with cross links between near nodes, as a loom with returns is; node 0 is held at 0 V, node 1 at 12 V. */
function network(nodes: number) {
  const a: number[] = []
  const b: number[] = []
  const siemens: number[] = []
  let state = 12345
  const any = (below: number): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return Math.floor((state / 2 ** 32) * below)
  }
  const add = (one: number, two: number): void => {
    if (one === two) return
    a.push(one)
    b.push(two)
    siemens.push(1 / (0.001 + any(1000) / 1000))
  }
  for (let node = 1; node < nodes; node++) add(node, Math.max(0, node - 1 - any(8)))
  for (let extra = 0; extra < nodes / 20; extra++) {
    const node = any(nodes)
    add(node, Math.min(nodes - 1, node + any(10)))
  }
  const inject = Float64Array.from({ length: nodes }, (_, node) => (node > 1 && node % 3 === 0 ? -0.001 : 0))
  return { a, b, siemens, inject }
}

function simulate(text: string, nodes: number): Float64Array {
  const folder = mkdtempSync(join(tmpdir(), 'loomwright-bench-'))
  try {
    const [file, out] = [join(folder, 'job.cir'), join(folder, 'out.txt')]
    const all = Array.from({ length: nodes - 1 }, (_, i) => `v(n${i + 1})`)
    const prints = Array.from(
      { length: Math.ceil(all.length / 200) },
      (_, i) => `print ${all.slice(i * 200, i * 200 + 200).join(' ')} >> ${out}`,
    )
    writeFileSync(out, '')
    writeFileSync(
      file,
      [text, '.control', 'set numdgt=15', 'op', ...prints, 'quit 0', '.endc', '.end', ''].join('\n'),
    )
    execFileSync('ngspice', ['-b', file], { stdio: 'pipe' })
    const volts = new Float64Array(nodes)
    for (const [, node, value] of readFileSync(out, 'utf8').matchAll(/v\(n(\d+)\) = (\S+)/g))
      volts[Number(node)] = Number(value)
    return volts
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

async function solver(nodes: number, runs: number) {
  const { a, b, siemens, inject } = network(nodes)
  const name = (node: number): string => (node === 0 ? '0' : `n${node}`)
  const lines = a.map((one, i) => `R${i} ${name(one)} ${name(b[i] ?? 0)} ${1 / (siemens[i] ?? 1)}`)
  const loads = [...inject].flatMap((amps, node) =>
    amps === 0 ? [] : [`I${node} ${name(node)} 0 DC ${-amps}`],
  )
  const options = '.options reltol=1e-9 gmin=1e-20 abstol=1e-14 vntol=1e-12'
  const text = ['* bench', 'VB n1 0 DC 12', ...lines, ...loads, options].join('\n')
  const isFixed = Uint8Array.from({ length: nodes }, (_, node) => (node < 2 ? 1 : 0))
  const fixed = Float64Array.from({ length: nodes }, (_, node) => (node === 1 ? 12 : 0))
  const own = (): Float64Array => prepareNodal(nodes, { a, b, siemens }, isFixed).solve(inject, fixed)
  const theirs = simulate(text, nodes)
  const worst = own().reduce((most, volts, node) => Math.max(most, Math.abs(volts - (theirs[node] ?? 0))), 0)
  const series = await alternate(runs, [() => simulate(text, nodes), own], wall)
  return { series, worst: worst / 12 }
}

/** The laid-out pictures of a small shop; `bare` only lays the same graphs out. */
async function drawing(looms: number, runs: number): Promise<Series[]> {
  const documents = [...shopFiles(looms)].map(([name, text]) => ({ name, data: JSON.parse(text) as unknown }))
  const { looms: resolved } = resolveShop(describeShop(documents).shop)
  const pictures: Picture[] = resolved.map((loom) => ({
    kind: 'wiring',
    model: wiringModel({ loom, use: undefined, findings: [], matchCode: '0000-0000' }),
    keep: [],
  }))
  const graphs: string[] = []
  for (const picture of pictures)
    await drawPicture(picture, (root) => {
      graphs.push(JSON.stringify(root))
      return layOutAnew(root)
    })
  const { default: Elk } = await import('elkjs/lib/elk.bundled.js')
  return alternate(runs, [
    async () => {
      for (const graph of graphs) await new Elk().layout(JSON.parse(graph) as ElkNode)
    },
    async () => {
      for (const picture of pictures) await drawPicture(picture)
    },
  ])
}

const [what = '', size = '', runs = ''] = process.argv.slice(2)
const asked = { check, solver, drawing }[what]
if (!asked) throw new Error(`there is no measurement ${what}`)
process.stdout.write(JSON.stringify(await asked(Number(size), Number(runs))))
