import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { simulator } from './ngspice.ts'

/** A circuit for the simulator: its lines, and the pairs of nodes whose voltage is asked for. */
export interface AcCircuit {
  readonly lines: readonly string[]
  readonly between: readonly (readonly [string, string])[]
  readonly hertz: number
}

export interface Phasor {
  readonly re: number
  readonly im: number
}

/** Puts a circuit under a name of its own, so that many can stand in one netlist. Node 0 is common. */
const apart = (line: string, number: number): string => {
  const [name = '', ...rest] = line.split(' ')
  return [
    `${name}x${number}`,
    ...rest.map((word) => word.replaceAll(/\b(n\w+|V\w+s)\b/g, `$1x${number}`)),
  ].join(' ')
}

/**
 * Solves circuits of one frequency in one run: they share node 0 and nothing else. Names of nodes begin with n; current
 * sensing sources begin with V and end with s.
 */
function simulateTogether(circuits: readonly AcCircuit[], hertz: number, folder: string): Phasor[][] {
  if (!simulator) throw new Error('no simulator')
  const out = join(folder, 'out.txt')
  const node = (name: string, number: number): string => (name === '0' ? '0' : `v(${name}x${number})`)
  const wanted = circuits.flatMap(({ between }, number) =>
    between.map(([a, b]) => `${node(a, number)}-${node(b, number)}`),
  )
  const control = ['.control', 'set numdgt=15', `ac lin 1 ${hertz} ${hertz}`]
  wanted.forEach((expression, index) => {
    control.push(`let r${index}=${expression}`, `print r${index} >> ${out}`)
  })
  const text = [
    '* random circuits',
    ...circuits.flatMap(({ lines }, number) => lines.map((line) => apart(line, number))),
    // Everything is linear and at rest, so no working point is looked for. A leak this small ties what floats.
    '.options noopac gmin=1e-20 rshunt=1e15',
    ...control,
    'quit 0',
    '.endc',
    '.end',
  ]
  const file = join(folder, 'job.cir')
  writeFileSync(file, `${text.join('\n')}\n`)
  writeFileSync(out, '')
  execFileSync(simulator, ['-b', file], { stdio: 'pipe', timeout: 30_000 })
  const found = new Map<number, Phasor>()
  for (const [, index, re, im] of readFileSync(out, 'utf8').matchAll(/r(\d+) = ([^,\s]+)(?:,(\S+))?/g))
    found.set(Number(index), { re: Number(re), im: Number(im ?? 0) })
  let next = 0
  return circuits.map(({ between }) =>
    between.map(() => found.get(next++) ?? { re: Number.NaN, im: Number.NaN }),
  )
}

/** Voltages of many circuits, one run of the simulator for each frequency. */
export function simulateAc(circuits: readonly AcCircuit[]): readonly (readonly Phasor[])[] {
  const folder = mkdtempSync(join(tmpdir(), 'loom-ac-'))
  try {
    const results = new Map<AcCircuit, Phasor[]>()
    for (const hertz of new Set(circuits.map((circuit) => circuit.hertz))) {
      const own = circuits.filter((circuit) => circuit.hertz === hertz)
      simulateTogether(own, hertz, folder).forEach((volts, index) => {
        const circuit = own[index]
        if (circuit) results.set(circuit, volts)
      })
    }
    return circuits.map((circuit) => results.get(circuit) ?? [])
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
