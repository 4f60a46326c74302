import { colourWords } from '../base/colour.ts'
import { formatLength } from '../base/format-quantity.ts'
import { bothSizes, metricLabel, nearestAwg, type WireGauge } from '../base/wire-size.ts'
import type { CableUse, Loom, Conductor as LoomConductor, Terminal } from '../resolve/loom.ts'
import type { FlagsAt } from './part-blocks.ts'
import type { Block, Conductor, EndRef, Shield, Trunk } from './sheet-model.ts'

/** Which block and row stands for a terminal on this drawing. */
export type PlaceOf = (terminal: Terminal) => EndRef

/** `1.5 (≈16)` for a metric wire, `18 AWG (0.823)` for a gauge: both systems, as short as a line allows. */
export function sizeOnLine(size: WireGauge): string {
  const area = metricLabel(size.areaMm2).replace(/ mm²$/, '')
  return size.awg === undefined
    ? `${area} (${nearestAwg(size.areaMm2).replace(/ AWG$/, '')})`
    : `${size.label} (${area})`
}

export interface DrawnConductors {
  readonly conductors: readonly Conductor[]
  readonly trunks: readonly Trunk[]
  /** Stand-ins for ends that lead nowhere, so that no conductor is lost from the drawing. */
  readonly missing: readonly Block[]
}

interface Context {
  readonly loom: Loom
  readonly placeOf: PlaceOf
  readonly flagsAt: FlagsAt
  readonly missing: Map<string, Block>
}

function netOf(loom: Loom, conductor: LoomConductor): string | undefined {
  const terminal = conductor.from ?? conductor.to
  const index = terminal === undefined ? undefined : loom.netOf[terminal.index]
  return index === undefined ? undefined : loom.nets[index]?.name
}

/** What is said of a conductor in full when somebody points at it. */
function titleOf(conductor: LoomConductor, net: string | undefined): string {
  const facts = [
    conductor.colour === undefined ? undefined : colourWords(conductor.colour),
    conductor.size === undefined ? undefined : bothSizes(conductor.size),
    conductor.lengthMm === undefined ? undefined : formatLength(conductor.lengthMm),
  ].filter((fact) => fact !== undefined)
  const ends = [conductor.from, conductor.to].map((end) => end?.address ?? 'no end').join(' to ')
  return `${[conductor.id, ...facts].join(', ')}: ${ends}${net === undefined ? '' : `; net ${net}`}`
}

function endOf(context: Context, conductor: LoomConductor, which: 'from' | 'to'): EndRef | undefined {
  const terminal = conductor[which]
  if (terminal) return context.placeOf(terminal)
  const stated = conductor.source[which]
  if (conductor.kind === 'shield' && stated === undefined) return undefined
  const title = `? ${stated ?? conductor.address}`
  const id = `missing ${conductor.loom.id} ${title}`
  context.missing.set(id, { kind: 'stud', id, title, subtitle: 'no such end', symbol: 'terminal' })
  return { block: id, pin: id }
}

function facts(context: Context, conductor: LoomConductor) {
  const from = endOf(context, conductor, 'from')
  const to = endOf(context, conductor, 'to')
  const net = netOf(context.loom, conductor)
  return {
    id: conductor.address,
    label: conductor.id,
    title: titleOf(conductor, net),
    ...(net === undefined ? {} : { net }),
    ...(from === undefined ? {} : { from }),
    ...(to === undefined ? {} : { to }),
    ...context.flagsAt(conductor.address),
  }
}

function drawn(context: Context, conductor: LoomConductor): Conductor {
  return {
    ...facts(context, conductor),
    ...(conductor.colour === undefined ? {} : { colour: conductor.colour }),
    ...(conductor.size === undefined ? {} : { size: sizeOnLine(conductor.size) }),
  }
}

/** Conductors by the pair they are twisted in, only whole pairs. */
function pairsAmong(conductors: readonly LoomConductor[]): Map<string, [string, string]> {
  const members = new Map<string, string[]>()
  for (const { pair, address } of conductors)
    if (pair !== undefined) members.set(pair, [...(members.get(pair) ?? []), address])
  const pairs = new Map<string, [string, string]>()
  for (const [pair, [a, b, ...more]] of members)
    if (a !== undefined && b !== undefined && more.length === 0) pairs.set(pair, [a, b])
  return pairs
}

function coveredBy(cable: CableUse, shield: string): string[] {
  const covers = cable.part?.shields?.find((one) => one.name === shield)?.covers
  if (!covers) return []
  const pairOf = new Map(cable.part?.cores.map((core) => [core.name, core.pair]))
  return cable.conductors
    .filter(
      ({ core }) => core !== undefined && (covers.includes(core) || covers.includes(pairOf.get(core) ?? '')),
    )
    .map(({ address }) => address)
}

function cableTrunk(context: Context, cable: CableUse): Trunk {
  const cores = cable.conductors.filter((conductor) => conductor.kind !== 'shield')
  const shields = cable.conductors.flatMap((conductor): Shield[] => {
    if (conductor.kind !== 'shield' || !('shield' in conductor.source)) return []
    return [{ ...facts(context, conductor), covers: coveredBy(cable, conductor.source.shield) }]
  })
  const spare = cable.spare.length === 0 ? '' : `, ${cable.spare.length} spare`
  return {
    id: cable.address,
    title: `${[cable.id, cable.part?.title ?? cable.source.part].join(' ')}${spare}`,
    jacket: true,
    conductors: cores.map((conductor) => conductor.address),
    pairs: [...pairsAmong(cores).values()],
    shields,
  }
}

/** Conductors, cables and twisted pairs of some looms as they are drawn. */
export function drawnConductors(
  loom: Loom,
  conductors: readonly LoomConductor[],
  cables: readonly CableUse[],
  placeOf: PlaceOf,
  flagsAt: FlagsAt,
): DrawnConductors {
  const context: Context = { loom, placeOf, flagsAt, missing: new Map() }
  const trunks = cables.map((cable) => cableTrunk(context, cable))
  const wires = conductors.filter((conductor) => conductor.kind === 'wire')
  for (const [pair, two] of pairsAmong(wires))
    trunks.push({
      id: pair,
      title: `${pair.split('.').at(-1)} twisted`,
      jacket: false,
      conductors: two,
      pairs: [two],
      shields: [],
    })
  const list = conductors.filter((conductor) => conductor.kind !== 'shield').map((c) => drawn(context, c))
  return { conductors: list, trunks, missing: [...context.missing.values()] }
}
