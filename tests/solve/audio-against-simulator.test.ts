import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { ComponentUse, Loom, Terminal } from '../../src/resolve/loom.ts'
import { solveAc } from '../../src/solve/ac-network.ts'
import { audioLine } from '../../src/solve/audio-line.ts'
import { solve } from '../../src/solve/solve.ts'
import { loomOf } from '../resolve/shop-of.ts'
import { simulator } from './ngspice.ts'
import { type AcCircuit, simulateAc } from './ngspice-ac.ts'
import { describeAudio, type RandomAudio, randomAudio } from './random-audio.ts'
import { type RandomNetwork, randomNetwork } from './random-network.ts'

const WANTED = 300
const jobs = fc.sample(randomAudio, { seed: 20260102, numRuns: WANTED })

if (!simulator)
  console.warn(
    'NOT CHECKED: ngspice is not installed, so audio lines were not compared with a circuit simulator',
  )

function pin(loom: Loom, address: string): Terminal {
  const terminal = loom.terminalAt.get(address)
  if (!terminal) throw new Error(`no ${address}`)
  return terminal
}

/** An ideal transformer as two controlled sources: what the secondary carries is drawn from the primary, divided by the ratio. */
function transformerLines(id: string, nodes: readonly string[], ratio: number, ohms: number): string[] {
  const [p1, p2, s1, s2] = nodes
  return [
    `E${id} n${id}e ${s2} ${p1} ${p2} ${1 / ratio}`,
    `V${id}s n${id}e n${id}r 0`,
    `RT${id} n${id}r ${s1} ${ohms}`,
    `F${id} ${p1} ${p2} V${id}s ${1 / ratio}`,
  ]
}

/** A circuit written from the loom's links alone, with the source's first pin driven at 1 V behind its impedance. */
function circuitOf(loom: Loom, job: RandomAudio, ohms: readonly ({ ohms: number } | undefined)[]): AcCircuit {
  const ground = loom.terminalAt.get('source.J.2')?.index
  const name = ({ index }: Terminal): string => (index === ground ? '0' : `n${index}`)
  const end = (use: ComponentUse, side: string): string => {
    const terminal = use.terminals.get(side)
    return terminal ? name(terminal) : '0'
  }
  const lines = ['V1 ngen 0 AC 1', `RS ngen ${name(pin(loom, 'source.J.1'))} ${job.sourceOhms}`]
  for (const link of loom.links) {
    const [a, b] = [name(link.a), name(link.b)]
    const source = link.component?.source
    if (link.kind === 'winding') continue
    if (link.kind === 'capacitor' && source?.kind === 'capacitor')
      lines.push(`C${link.index} ${a} ${b} ${source.farads}`)
    else lines.push(`R${link.index} ${a} ${b} ${Math.max(ohms[link.index]?.ohms ?? 0, 1e-3)}`)
  }
  for (const use of loom.components) {
    const { source } = use
    if (source.kind !== 'transformer' || source.ratio === undefined) continue
    const sides = ['p1', 'p2', 's1', 's2'].map((side) => end(use, side))
    lines.push(...transformerLines(`T${use.index}`, sides, source.ratio, 1e-3))
  }
  const between = job.inputs.map(({ ohms: load }, index) => {
    const [a, b] = [`input-${index}.J.1`, `input-${index}.J.2`].map((address) => name(pin(loom, address)))
    lines.push(`RI${index} ${a} ${b} ${load}`)
    return [a ?? '0', b ?? '0'] as const
  })
  return { lines, between, hertz: job.hertz }
}

function circuitOfNetwork({ nodes, hertz, elements, transformers }: RandomNetwork): AcCircuit {
  const name = (index: number): string => (index === 0 ? '0' : `n${index}`)
  const lines = ['V1 ngen 0 AC 1', 'RS ngen n1 600']
  elements.forEach(({ a, b, ohms, farads, henries }, index) => {
    const [kind, value] =
      ohms !== undefined ? ['R', ohms] : farads !== undefined ? ['C', farads] : ['L', henries]
    lines.push(`${kind}${index} ${name(a)} ${name(b)} ${value}`)
  })
  transformers.forEach(({ p1, p2, s1, s2, ratio, ohms }, index) => {
    lines.push(...transformerLines(`T${index}`, [p1, p2, s1, s2].map(name), ratio, ohms))
  })
  const between = Array.from({ length: nodes - 1 }, (_, index) => [name(index + 1), '0'] as const)
  return { lines, between, hertz }
}

describe.skipIf(!simulator)('the AC solver and a general circuit simulator', () => {
  test(`agree to a part in a million on ${WANTED} random lines, wire, pads, capacitors and transformers`, () => {
    const looms = jobs.map((job) => {
      const loom = loomOf(describeAudio(job))
      return { job, loom, solution: solve(loom) }
    })
    const simulated = simulateAc(
      looms.map(({ loom, job, solution }) => circuitOf(loom, job, solution.linkOhms)),
    )
    let worst = 0
    let compared = 0
    for (const [number, { job, loom, solution }] of looms.entries()) {
      const line = audioLine(loom, solution.paths.nets, solution.linkOhms, pin(loom, 'source.J.1'), job.hertz)
      expect(line?.inputs).toHaveLength(job.inputs.length)
      expect(line?.needs).toEqual([])
      for (const [index, { re, im }] of (simulated[number] ?? []).entries()) {
        const value = Math.hypot(re, im)
        const own = line?.inputs.find(({ input }) => input.address === `input-${index}.J.1`)
        const error = Math.abs((own?.ratio ?? Number.NaN) - value) / Math.max(value, 1e-9)
        expect(error, `input ${index} of ${JSON.stringify(job)}`).toBeLessThan(1e-6)
        worst = Math.max(worst, error)
        compared++
      }
    }
    expect(compared).toBeGreaterThan(WANTED)
    const isolated = jobs.filter(({ inputs }) => inputs.some(({ ratio }) => ratio !== undefined)).length
    expect(isolated).toBeGreaterThan(WANTED / 4)
    console.info(
      `compared ${compared} levels of ${WANTED} lines with ngspice, ${isolated} of them with transformers; largest relative difference ${worst.toExponential(1)}`,
    )
  }, 60_000)

  test('agree to a part in a million, phase included, on 100 networks of R, L, C and transformers', () => {
    const networks = fc.sample(randomNetwork, { seed: 20260103, numRuns: 100 })
    const simulated = simulateAc(networks.map(circuitOfNetwork))
    let worst = 0
    for (const [number, { nodes, hertz, elements, transformers }] of networks.entries()) {
      const own = solveAc(nodes, elements, [{ a: 1, b: 0, volts: 1, ohms: 600 }], hertz, transformers)
      const values = simulated[number] ?? []
      expect(values).toHaveLength(nodes - 1)
      const scale = Math.max(...values.map(({ re, im }) => Math.hypot(re, im)))
      for (const [index, { re, im }] of values.entries()) {
        const volts = own[index + 1]
        const error = Math.hypot((volts?.re ?? Number.NaN) - re, (volts?.im ?? Number.NaN) - im) / scale
        expect(error, JSON.stringify(networks[number])).toBeLessThan(1e-6)
        worst = Math.max(worst, error)
      }
    }
    console.info(`largest difference over 100 networks ${worst.toExponential(1)} of the largest voltage`)
  }, 60_000)
})
