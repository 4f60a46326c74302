import { formatLength } from '../../base/format-quantity.ts'
import type { Conductor, Half, Loom, Terminal } from '../../resolve/loom.ts'
import { flagsBelow } from '../flags-below.ts'
import { componentBlock } from '../part-blocks.ts'
import type { Flag, SymbolName } from '../sheet-model.ts'
import { ROLE_SYMBOLS } from '../unit-blocks.ts'

/** How a comparison tells a block or line from its fellows. */
export type DiagramMark = 'new' | 'changed' | 'was'

export interface DiagramBlock {
  /** Address of the unit, ground point or component. */
  readonly id: string
  readonly mark?: DiagramMark
  readonly flags?: readonly Flag[]
  readonly title: string
  readonly subtitle: string
  readonly symbol?: SymbolName | 'chassis'
  /** Zone it sits in; outside every zone when left out. */
  readonly zone?: string
}

/** What runs between two blocks in one loom. */
export interface DiagramLine {
  readonly id: string
  /** Address of the loom or cable it stands for; of the two units, where they are joined without one. */
  readonly of: string
  readonly mark?: DiagramMark
  readonly flags?: readonly Flag[]
  readonly from: string
  readonly to: string
  /** One or two lines of text: what it is, then how long. */
  readonly words: readonly string[]
  /** A cable is drawn with its jacket, wires as one stroke, a plain mating of two units dashed. */
  readonly kind: 'wires' | 'cable' | 'mated'
}

export interface DiagramZone {
  readonly id: string
  /** What it is like there: heat, wet, salt, vibration. */
  readonly facts: string
}

export interface DiagramModel {
  readonly blocks: readonly DiagramBlock[]
  readonly lines: readonly DiagramLine[]
  readonly zones: readonly DiagramZone[]
}

/** Roles that hold the studs of body, hull or bar; elsewhere a chassis pin is the unit's own case. */
const HOLDS_STUDS: readonly unknown[] = ['battery', 'chassis', 'distribution', undefined]

const isGround = (half: Half): boolean =>
  HOLDS_STUDS.includes(half.unit?.equipment.role) &&
  half.pins.size > 0 &&
  [...half.pins.values()].every((pin) => pin.does.kind === 'chassis')

/** The equipment half that a half stands on: itself, or what it is mated with. */
function hostOf(half: Half): Half {
  if (half.side === 'equipment') return half
  return half.mates.find((mate) => mate.side === 'equipment') ?? half.mate ?? half
}

class Blocks {
  readonly all = new Map<string, DiagramBlock>()

  /** The block of a terminal, made when it is first met. */
  at(loom: Loom, terminal: Terminal): string {
    if (terminal.component) {
      const { component } = terminal
      if (component.unit) return this.unit(component.unit)
      const block = componentBlock(component, () => ({}))
      const symbol = 'symbol' in block ? block.symbol : undefined
      const zone = component.source.zone
      return this.add({
        id: component.address,
        title: block.title,
        subtitle: 'subtitle' in block ? (block.subtitle ?? '') : '',
        ...(symbol && symbol !== 'earth' && symbol !== 'terminal' ? { symbol } : {}),
        ...(zone === undefined ? {} : { zone }),
      })
    }
    if (!terminal.half) return this.add({ id: terminal.address, title: terminal.name, subtitle: 'splice' })
    return this.half(loom, terminal.half)
  }

  half(_loom: Loom, half: Half): string {
    const host = hostOf(half)
    if (!host.unit) {
      const zone = half.zone
      return this.add({
        id: host.address,
        title: host.id,
        subtitle: host.title ?? host.familyId,
        ...(zone === undefined ? {} : { zone }),
      })
    }
    if (!isGround(host)) return this.unit(host.unit)
    const zone = half.zone ?? host.unit.zone
    return this.add({
      id: host.address,
      title: host.id,
      subtitle: host.title ?? 'Ground point',
      symbol: 'chassis',
      ...(zone === undefined ? {} : { zone }),
    })
  }

  unit({ id, title, zone, equipment }: NonNullable<Half['unit']>): string {
    const symbol = equipment.role === undefined ? undefined : ROLE_SYMBOLS[equipment.role]
    return this.add({
      id,
      title: id,
      subtitle: title,
      ...(symbol ? { symbol } : {}),
      ...(zone === undefined ? {} : { zone }),
    })
  }

  add(block: DiagramBlock): string {
    if (!this.all.has(block.id)) this.all.set(block.id, block)
    return block.id
  }
}

const MOST_NUMBERS = 3

function numbers(ids: readonly string[]): string {
  if (ids.length <= MOST_NUMBERS) return ids.join(', ')
  return `${ids.length} wires, ${ids[0]} … ${ids.at(-1)}`
}

function lengths(conductors: readonly Conductor[]): string {
  const known = conductors.flatMap(({ lengthMm, cable }) => lengthMm ?? cable?.source.length ?? [])
  if (known.length === 0) return 'length not given'
  const [low, high] = [Math.min(...known), Math.max(...known)]
  return low === high ? formatLength(low) : `${formatLength(low)} to ${formatLength(high)}`
}

function lineWords(loom: Loom, conductors: readonly Conductor[]): string[] {
  const [first] = conductors
  if (!first) return []
  const several = loom.looms.length > 1 ? `${first.loom.id} ` : ''
  if (first.cable) {
    const { source, id } = first.cable
    return [`${several}${id} ${source.label ?? source.part}`, lengths(conductors)]
  }
  return [`${several}${numbers(conductors.map(({ id }) => id))}`, lengths(conductors)]
}

/** Equipment, fuses, ground points and what runs between them; conductors of one loom between the same two are one line. */
export function diagramModel(loom: Loom, flags?: ReadonlyMap<string, readonly Flag[]>): DiagramModel {
  const flagged = (...addresses: readonly string[]) => {
    const found = flagsBelow(flags, addresses)
    return found.length > 0 ? { flags: found } : {}
  }
  const blocks = new Blocks()
  for (const unit of loom.units) if (!unit.standIn && unit.equipment.role !== 'chassis') blocks.unit(unit)
  const bundles = new Map<string, { from: string; to: string; conductors: Conductor[] }>()
  for (const conductor of loom.conductors) {
    if (!conductor.from || !conductor.to) continue
    const [a, b] = [blocks.at(loom, conductor.from), blocks.at(loom, conductor.to)]
    if (a === b) continue
    const [from, to] = a < b ? [a, b] : [b, a]
    const key = JSON.stringify([from, to, conductor.loom.id, conductor.cable?.id ?? ''])
    const bundle = bundles.get(key) ?? { from: a, to: b, conductors: [] }
    bundle.conductors.push(conductor)
    bundles.set(key, bundle)
  }
  const lines = [...bundles.values()].map(
    ({ from, to, conductors }, i): DiagramLine => ({
      id: `line${i}`,
      of: conductors[0]?.cable?.address ?? conductors[0]?.loom.id ?? '',
      from,
      to,
      words: lineWords(loom, conductors),
      kind: conductors[0]?.cable ? 'cable' : 'wires',
      ...flagged(
        ...conductors.map(({ address }) => address),
        ...conductors.flatMap(({ cable }) => cable?.address ?? []),
      ),
    }),
  )
  const mated = new Set<string>()
  for (const half of loom.halves)
    for (const mate of half.side === 'equipment' ? half.mates : []) {
      if (mate.side !== 'equipment') continue
      const [from, to] = [blocks.half(loom, half), blocks.half(loom, mate)].sort() as [string, string]
      const key = JSON.stringify([from, to])
      if (from === to || mated.has(key)) continue
      mated.add(key)
      lines.push({
        id: `mated${mated.size}`,
        of: `${from} on ${to}`,
        from,
        to,
        words: [`${half.address} on ${mate.address}`],
        kind: 'mated',
      })
    }
  const used = new Set([...blocks.all.values()].flatMap(({ zone }) => zone ?? []))
  const stated = 'zones' in loom.source ? (loom.source.zones ?? []) : []
  return {
    blocks: [...blocks.all.values()].map((block) => ({ ...block, ...flagged(block.id) })),
    lines,
    zones: [...used].map((id) => {
      const zone = stated.find((one) => one.id === id)
      const hot = zone?.hottest === undefined ? [] : [`up to ${Math.round(zone.hottest)} °C`]
      const facts = [
        ...hot,
        ...(zone?.wet ? ['wet'] : []),
        ...(zone?.salt ? ['salt'] : []),
        ...(zone?.vibration ? ['vibration'] : []),
      ]
      return { id, facts: facts.join(', ') }
    }),
  }
}
