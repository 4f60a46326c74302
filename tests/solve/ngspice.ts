import { execFileSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Loom } from '../../src/resolve/loom.ts'
import type { Solution } from '../../src/solve/solution.ts'

/** The general circuit simulator, where it is installed. */
export const simulator = ['/usr/bin/ngspice', '/usr/local/bin/ngspice'].find((path) => existsSync(path))

/** A netlist of what is joined to the battery, written from the loom alone: each link a resistor, each load a source. */
export function netlist(loom: Loom, solution: Solution, volts: number): { text: string; nodes: number[] } {
  const [plus, minus] = [loom.terminalAt.get('cell.P.1'), loom.terminalAt.get('cell.N.1')]
  if (!plus || !minus) throw new Error('no battery')
  const met = new Set([plus.index, minus.index])
  for (const index of met)
    for (const link of loom.linksAt[index] ?? [])
      met.add(link.a.index === index ? link.b.index : link.a.index)
  const name = (index: number): string => (index === minus.index ? '0' : `n${index}`)
  const lines = ['* random job', `VB ${name(plus.index)} 0 DC ${volts}`]
  for (const link of loom.links)
    if (met.has(link.a.index))
      lines.push(
        `R${link.index} ${name(link.a.index)} ${name(link.b.index)} ${solution.linkOhms[link.index]?.ohms}`,
      )
  for (const unit of loom.units) {
    const pins = [...(unit.halves[0]?.pins.values() ?? [])]
    const [feed, back] = pins
    if (feed?.does.kind !== 'supply-in' || !back) continue
    const { amps, watts } = feed.does
    const [a, b] = [name(feed.index), name(back.index)]
    if (typeof amps === 'number') lines.push(`I${feed.index} ${a} ${b} DC ${amps}`)
    // Without a first guess the simulator divides by nothing and may end on the lower working point.
    if (typeof watts === 'number') lines.push(`.nodeset v(${a})=${volts} v(${b})=0`)
    if (typeof watts === 'number') lines.push(`B${feed.index} ${a} ${b} I=${watts}/(V(${a},${b}))`)
  }
  const nodes = [...met].filter((index) => index !== minus.index)
  lines.push('.options reltol=1e-9 gmin=1e-20 abstol=1e-14 vntol=1e-12 itl1=1000')
  return { text: lines.join('\n'), nodes }
}

/** Volts by node as the simulator finds them. */
export function simulate(text: string, nodes: readonly number[]): Map<number, number> {
  if (!simulator) throw new Error('no simulator')
  const folder = mkdtempSync(join(tmpdir(), 'loom-spice-'))
  try {
    const out = join(folder, 'out.txt')
    const control = [
      '.control',
      'set numdgt=15',
      'op',
      `print ${nodes.map((n) => `v(n${n})`).join(' ')} > ${out}`,
      'quit 0',
      '.endc',
      '.end',
    ]
    const file = join(folder, 'job.cir')
    writeFileSync(file, `${text}\n${control.join('\n')}\n`)
    execFileSync(simulator, ['-b', file], { stdio: 'pipe' })
    const volts = new Map<number, number>()
    for (const [, node, value] of readFileSync(out, 'utf8').matchAll(/v\(n(\d+)\) = (\S+)/g))
      volts.set(Number(node), Number(value))
    return volts
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
