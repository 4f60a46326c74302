import { jsonForScript } from '../base/escape.ts'
import type { Circuit, Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import { type Markup, markup } from '../sheets/templates.ts'
import { linkTo, type Site } from './page.ts'
import { type PathStep, pathSteps } from './path-steps.ts'
import { pathWords } from './path-words.ts'

/**
 * One step as the page's script reads it: the step it is reached from (−1 for the start), what it is (0 contacts,
 * 1 conductor, 2 something gone through), what it is called, its net, the addresses of the things on the page that stand
 * for it, and where it is shown when that is another page.
 */
export type StepData = readonly [
  parent: number,
  kind: 0 | 1 | 2,
  words: string,
  net: number,
  addresses: readonly string[],
  href: string,
]

/** Every way that touches a page. */
export interface PathData {
  /** Put before an address that is not known as it stands: `P1.3` on the page of a harness. */
  readonly own: string
  readonly nets: readonly string[]
  readonly circuits: readonly (readonly StepData[])[]
  /** The page that shows the whole job, and its name. */
  readonly whole: readonly [href: string, name: string] | null
}

const KINDS = { pins: 0, conductor: 1, through: 2 } as const

/** What stands for a terminal on drawings and tables: itself, and the block it is all of. */
function addressesOf(loom: Loom, terminal: Terminal): string[] {
  const { half, component, address } = terminal
  const all = [address]
  if (half && half.pins.size === 1) all.push(half.address)
  const { unit } = half ?? {}
  if (unit && unit.halves.length === 1 && half?.pins.size === 1) all.push(unit.id)
  if (component && !loom.terminalAt.has(component.address)) all.push(component.address)
  return all
}

function stepAddresses(loom: Loom, step: PathStep): string[] {
  if (step.kind === 'conductor') return [step.conductor.address]
  if (step.kind === 'through') return step.component ? [step.component.address] : []
  return [...new Set(step.terminals.flatMap((terminal) => addressesOf(loom, terminal)))]
}

/** The page that shows a step, with the way lit on it; empty for the page at hand. */
function hrefOf(site: Site, path: string, loom: Loom, step: PathStep): string {
  if (step.kind === 'through') return ''
  if (step.kind === 'conductor')
    return harnessHref(site, path, step.conductor.loom, 'wire', step.conductor.id)
  const terminal = step.terminals.find((t) => t.on === 'equipment') ?? step.terminals[0]
  if (!terminal) return ''
  const use = terminal.half?.loom
  if (use) return harnessHref(site, path, use, 'pin', terminal.address.slice(use.id.length + 1))
  const target = site.map.place(loom, terminal.address)
  return target === undefined || target.path === path ? '' : linkTo(path, target)
}

function harnessHref(site: Site, path: string, use: LoomUse, key: 'wire' | 'pin', name: string): string {
  const page = site.map.harness(use.harness.id)
  return page === undefined || page === path ? '' : `${linkTo(path, page)}#${key}=${encodeURIComponent(name)}`
}

/** The ways of every circuit that has a conductor or pin of the harness, or of all; links are as seen from the page. */
export function pathData(site: Site, path: string, loom: Loom, own: LoomUse | undefined): PathData {
  const touches = (circuit: Circuit) =>
    own === undefined ||
    circuit.terminals.some((terminal) => terminal.half?.loom === own) ||
    circuit.nets.some((net) => net.conductors.some((conductor) => conductor.loom === own))
  const nets = new Map<number, number>()
  const names: string[] = []
  const netOf = (index: number) => {
    const known = nets.get(index)
    if (known !== undefined) return known
    nets.set(index, names.length)
    return names.push(loom.nets[index]?.name ?? '') - 1
  }
  const circuits = loom.circuits.filter(touches).flatMap((circuit) => {
    const steps = pathSteps(loom, circuit)
    if (!steps.some(({ kind }) => kind === 'conductor')) return []
    const parents = new Set(steps.map(({ parent }) => parent))
    return [
      steps.map(
        (step, index): StepData => [
          step.parent,
          KINDS[step.kind],
          pathWords(loom, step, own, parents.has(index)),
          netOf(step.net),
          stepAddresses(loom, step),
          hrefOf(site, path, loom, step),
        ],
      ),
    ]
  })
  const job = loom.kind === 'installation' ? site.map.installation(loom.id) : undefined
  return {
    own: own ? `${own.id}.` : '',
    nets: names,
    circuits,
    whole: job === undefined || job === path ? null : [linkTo(path, job), loom.title],
  }
}

/** The same as JSON for the inside of a `<script>` element. */
export const pathMarkup = (data: PathData): Markup => markup(jsonForScript(data))
