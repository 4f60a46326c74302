import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Loom, Terminal } from '../../src/resolve/loom.ts'
import { audioLine } from '../../src/solve/audio-line.ts'
import { solve } from '../../src/solve/solve.ts'
import { loomOf } from '../resolve/shop-of.ts'
import { simulator } from './ngspice.ts'
import { describeAudio, type RandomAudio, randomAudio } from './random-audio.ts'

const WANTED = 60
const jobs = fc.sample(randomAudio, { seed: 20260102, numRuns: WANTED })

/** A netlist written from the loom's links alone, with the source's first pin driven at 1 V behind its impedance. */
function netlist(loom: Loom, job: RandomAudio, ohms: readonly ({ ohms: number } | undefined)[]): string {
  const ground = loom.terminalAt.get('source.J.2')?.index
  const name = ({ index }: Terminal): string => (index === ground ? '0' : `n${index}`)
  const lines = [
    '* random line',
    'V1 gen 0 AC 1',
    `RS gen ${name(pin(loom, 'source.J.1'))} ${job.sourceOhms}`,
  ]
  for (const link of loom.links) {
    const [a, b] = [name(link.a), name(link.b)]
    const source = link.component?.source
    if (link.kind === 'capacitor' && source?.kind === 'capacitor')
      lines.push(`C${link.index} ${a} ${b} ${source.farads}`)
    else lines.push(`R${link.index} ${a} ${b} ${Math.max(ohms[link.index]?.ohms ?? 0, 1e-3)}`)
  }
  for (const [index, { ohms: load }] of job.inputs.entries())
    lines.push(
      `RI${index} ${name(pin(loom, `input-${index}.J.1`))} ${name(pin(loom, `input-${index}.J.2`))} ${load}`,
    )
  return lines.join('\n')
}

function pin(loom: Loom, address: string): Terminal {
  const terminal = loom.terminalAt.get(address)
  if (!terminal) throw new Error(`no ${address}`)
  return terminal
}

/** Magnitude of the voltage of each input as the simulator finds it. */
function simulate(loom: Loom, job: RandomAudio, text: string): number[] {
  if (!simulator) throw new Error('no simulator')
  const folder = mkdtempSync(join(tmpdir(), 'loom-ac-'))
  try {
    const out = join(folder, 'out.txt')
    const wanted = job.inputs.map((_, index) => {
      const [a, b] = [pin(loom, `input-${index}.J.1`), pin(loom, `input-${index}.J.2`)]
      return `mag(v(n${a.index})-v(n${b.index}))`
    })
    const control = ['.control', 'set numdgt=15', `ac lin 1 ${job.hertz} ${job.hertz}`]
    wanted.forEach((expression, index) => {
      control.push(`let r${index}=${expression}`)
    })
    control.push(
      `print ${wanted.map((_, index) => `r${index}`).join(' ')} > ${out}`,
      'quit 0',
      '.endc',
      '.end',
    )
    const file = join(folder, 'job.cir')
    writeFileSync(file, `${text}\n${control.join('\n')}\n`)
    execFileSync(simulator, ['-b', file], { stdio: 'pipe' })
    const found = [...readFileSync(out, 'utf8').matchAll(/r(\d+) = (\S+)/g)]
    return found.map(([, , value]) => Number(value))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

describe.skipIf(!simulator)('audio lines and a general circuit simulator', () => {
  test(`agree to a part in a million on ${WANTED} random lines`, () => {
    let worst = 0
    let compared = 0
    for (const job of jobs) {
      const loom = loomOf(describeAudio(job))
      const solution = solve(loom)
      const line = audioLine(loom, solution.paths.nets, solution.linkOhms, pin(loom, 'source.J.1'), job.hertz)
      const simulated = simulate(loom, job, netlist(loom, job, solution.linkOhms))
      expect(simulated.length).toBe(job.inputs.length)
      for (const [index, value] of simulated.entries()) {
        const own = line?.inputs.find(({ input }) => input.address === `input-${index}.J.1`)
        const error = Math.abs((own?.ratio ?? Number.NaN) - value) / Math.max(value, 1e-9)
        expect(error, `input ${index} of ${JSON.stringify(job)}`).toBeLessThan(1e-6)
        worst = Math.max(worst, error)
        compared++
      }
    }
    expect(compared).toBeGreaterThan(WANTED)
    console.info(
      `compared ${compared} audio levels with ngspice; largest relative difference ${worst.toExponential(1)}`,
    )
  })
})
