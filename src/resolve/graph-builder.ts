import type { Finding } from '../base/finding.ts'
import type { Pointer } from '../base/place.ts'
import { didYouMean } from '../base/suggest.ts'
import type { PinFunction } from '../describe/function.ts'
import { LIMITS } from '../describe/limits.ts'
import type {
  CableUse,
  ComponentUse,
  Conductor,
  Half,
  Link,
  LoomUse,
  PartIndex,
  State,
  Terminal,
  Unit,
} from './loom.ts'
import { asFinding, type Problem } from './problem.ts'

/** A shape of the loom while it is still being put together. */
export type Draft<T> = { -readonly [K in keyof T]: T[K] }
export type DraftHalf = Omit<Draft<Half>, 'pins' | 'mates'> & { pins: Map<string, Terminal>; mates: Half[] }

const unstated: PinFunction = { kind: 'unstated' }

/** Collects the parts of one loom. Everything gets its index and its address here and nowhere else. */
export class GraphBuilder {
  readonly terminals: Draft<Terminal>[] = []
  readonly links: Link[] = []
  readonly conductors: Conductor[] = []
  readonly components: ComponentUse[] = []
  readonly halves: DraftHalf[] = []
  readonly units: Unit[] = []
  readonly looms: LoomUse[] = []
  readonly findings: Finding[] = []
  readonly terminalAt = new Map<string, Terminal>()
  readonly halfAt = new Map<string, DraftHalf>()
  readonly conductorAt = new Map<string, Conductor>()
  /** Names of units and looms that are described but broken; what refers to them is not reported again. */
  readonly broken = new Set<string>()
  private hinted = 0
  readonly loomId: string
  readonly parts: PartIndex
  readonly states: readonly State[]

  constructor(loomId: string, parts: PartIndex, states: readonly State[]) {
    this.loomId = loomId
    this.parts = parts
    this.states = states
  }

  readonly report = (problem: Problem): void => {
    this.findings.push(asFinding(problem))
  }

  /** What a wrong name might have meant, as `didYouMean` says it; nothing once so many were asked that a list of them helps nobody. */
  hint(word: string, names: () => Iterable<string>): string {
    this.hinted += 1
    return this.hinted > LIMITS.hints ? '' : didYouMean(word, names())
  }

  terminal(made: {
    address: string
    name: string
    on: Terminal['on']
    at: Pointer
    does?: PinFunction
    half?: Half
    component?: ComponentUse
  }): Draft<Terminal> {
    const terminal: Draft<Terminal> = {
      index: this.terminals.length,
      address: made.address,
      name: made.name,
      on: made.on,
      does: made.does ?? unstated,
      at: made.at,
      ...(made.half ? { half: made.half } : {}),
      ...(made.component ? { component: made.component } : {}),
    }
    this.terminals.push(terminal)
    if (!this.terminalAt.has(made.address)) this.terminalAt.set(made.address, terminal)
    return terminal
  }

  half(made: Omit<DraftHalf, 'index' | 'pins' | 'mates'>): DraftHalf {
    const half: DraftHalf = { ...made, index: this.halves.length, pins: new Map(), mates: [] }
    this.halves.push(half)
    if (!this.halfAt.has(half.address)) this.halfAt.set(half.address, half)
    return half
  }

  component(made: Omit<ComponentUse, 'index' | 'terminals'>, names: readonly string[]): ComponentUse {
    const terminals = new Map<string, Terminal>()
    const component: ComponentUse = { ...made, index: this.components.length, terminals }
    for (const name of names)
      terminals.set(
        name,
        this.terminal({ address: `${made.address}.${name}`, name, on: 'component', at: made.at, component }),
      )
    this.components.push(component)
    return component
  }

  conductor(made: Omit<Draft<Conductor>, 'index'>): Conductor {
    const address = this.freeAddress(made.address)
    const conductor: Conductor = { ...made, address, index: this.conductors.length }
    this.conductors.push(conductor)
    this.conductorAt.set(address, conductor)
    if (conductor.from && conductor.to && conductor.from !== conductor.to)
      this.link({ kind: 'conductor', a: conductor.from, b: conductor.to, conductor })
    return conductor
  }

  /** A second wire of one number still exists; it gets an address of its own so that nothing overwrites the first. */
  private freeAddress(wanted: string): string {
    let address = wanted
    for (let count = 2; this.conductorAt.has(address); count++) address = `${wanted}~${count}`
    return address
  }

  link(made: Omit<Link, 'index'>): void {
    this.links.push({ ...made, index: this.links.length })
  }
}

export type DraftLoomUse = Omit<Draft<LoomUse>, 'halves' | 'cables'> & {
  halves: Half[]
  cables: CableUse[]
}
