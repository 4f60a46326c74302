import type { CableUse, ComponentUse, Conductor, Half, LoomUse, Terminal } from '../resolve/loom.ts'
import { endName, localAddress } from './names.ts'
import { overlap, type Paired, pairByKey, pairByName } from './pair-up.ts'
import type { PlacedHarness } from './revision.ts'

/** What fits what is compared by: the name of equipment may be another in the other revision. */
export type FitsBefore = (fits: string) => string

/** Which thing of the old harness is which of the new one. */
export interface HarnessMatch {
  readonly halves: Paired<Half>
  readonly components: Paired<ComponentUse>
  readonly splices: Paired<string>
  readonly cables: Paired<CableUse>
  readonly conductors: Paired<Conductor>
  /** New name, within the harness, of everything renamed. */
  readonly renamed: ReadonlyMap<string, string>
  /** Where an old end is in the new harness, within the harness. */
  readonly endBefore: (conductor: Conductor, which: 'from' | 'to') => string | undefined
  readonly endAfter: (conductor: Conductor, which: 'from' | 'to') => string | undefined
}

/** An address with its longest renamed beginning replaced. */
export function throughRenames(renamed: ReadonlyMap<string, string>, address: string): string {
  if (renamed.size === 0) return address
  let head = address
  for (;;) {
    const known = renamed.get(head)
    if (known !== undefined) return known + address.slice(head.length)
    const dot = head.lastIndexOf('.')
    if (dot < 0) return address
    head = head.slice(0, dot)
  }
}

/** What lands on each half, component and splice, in two ways: by wire number, and by what the wires look like. */
interface Landings {
  readonly byNumber: ReadonlyMap<string, ReadonlySet<string>>
  readonly byLook: ReadonlyMap<string, ReadonlySet<string>>
}

const NONE: ReadonlySet<string> = new Set()
const look = ({ kind, colour, size, lengthMm }: Conductor): string =>
  [kind, colour, size?.areaMm2, lengthMm].join(' ')

function holder(terminal: Terminal): string {
  return terminal.half?.address ?? terminal.component?.address ?? terminal.address
}

export const conductorsOf = ({ loom, use }: PlacedHarness): Conductor[] =>
  loom.conductors.filter((conductor) => conductor.loom === use)

function landingsOf(conductors: readonly Conductor[]): Landings {
  const byNumber = new Map<string, Set<string>>()
  const byLook = new Map<string, Set<string>>()
  const add = (map: Map<string, Set<string>>, key: string, value: string) =>
    map.set(key, (map.get(key) ?? new Set()).add(value))
  for (const conductor of conductors)
    for (const terminal of [conductor.from, conductor.to]) {
      if (!terminal) continue
      const pin = terminal.on === 'splice' ? '' : terminal.name
      add(byNumber, holder(terminal), `${pin} ${conductor.id}`)
      add(byLook, holder(terminal), `${pin} ${look(conductor)}`)
    }
  return { byNumber, byLook }
}

interface ShareLanding {
  /** Share of what lands on both, 0 to 1. */
  readonly of: (before: string, after: string) => number
  /** All that lands on one, by wire number. */
  readonly all: (address: string, side: 'before' | 'after') => string
}

function shareOf(one: Landings, two: Landings): ShareLanding {
  return {
    of: (before, after) =>
      Math.max(
        overlap(one.byNumber.get(before) ?? NONE, two.byNumber.get(after) ?? NONE),
        0.9 * overlap(one.byLook.get(before) ?? NONE, two.byLook.get(after) ?? NONE),
      ),
    all: (address, side) =>
      [...((side === 'before' ? one : two).byNumber.get(address) ?? [`nothing on ${address}`])]
        .sort()
        .join(', '),
  }
}

/** Two connectors that swapped their names keep their names' pairing from hiding it: such pairs are let go first. */
function pairHalves(before: PlacedHarness, after: PlacedHarness, share: ShareLanding, fits: FitsBefore) {
  const fitsOf = (half: Half, old: boolean) =>
    half.fits === undefined ? undefined : old ? fits(half.fits) : half.fits
  const score = (one: Half, two: Half): number => {
    const sameFamily = one.familyId === two.familyId && one.gender === two.gender
    const sameFit = one.fits !== undefined && fitsOf(one, true) === fitsOf(two, false)
    if (!sameFamily && !sameFit) return 0
    const sameLabel = labelOf(one) !== undefined && labelOf(one) === labelOf(two)
    return (
      (sameFamily ? 1 : 0) + (sameFit ? 2 : 0) + (sameLabel ? 1 : 0) + 5 * share.of(one.address, two.address)
    )
  }
  const exact = (half: Half, side: 'before' | 'after') =>
    [
      half.familyId,
      half.gender,
      fitsOf(half, side === 'before'),
      labelOf(half),
      share.all(half.address, side),
    ].join('\n')
  const byId = new Map(after.use.halves.map((half) => [half.id, half]))
  const strangers = new Set<string>()
  for (const half of before.use.halves) {
    const other = byId.get(half.id)
    if (other && score(half, other) < 2 && share.of(half.address, other.address) < 0.34)
      strangers.add(half.id)
  }
  // A lone stranger is a connector of another kind under its old name; strangers come in twos when names were swapped.
  const name = (half: Half) => half.id
  const loose = (half: Half) => (strangers.size > 1 ? strangers.has(half.id) : false)
  const named = pairByName(
    before.use.halves.filter((half) => !loose(half)),
    after.use.halves.filter((half) => !loose(half)),
    { score, least: 4, name, exact },
  )
  const swapped = pairByName(before.use.halves.filter(loose), after.use.halves.filter(loose), {
    score,
    least: 4,
    name: (half) => `${half.id} ${half.familyId} ${half.fits ?? ''}`,
  })
  const rest = pairByKey(swapped.removed, swapped.added, name)
  return {
    kept: [...named.kept, ...swapped.kept, ...rest.kept],
    removed: [...named.removed, ...rest.removed],
    added: [...named.added, ...rest.added],
  }
}

const labelOf = (half: Half): string | undefined => ('label' in half.source ? half.source.label : undefined)

const componentsOf = ({ loom, use }: PlacedHarness): ComponentUse[] =>
  loom.components.filter((component) => component.loom === use)

function pairComponents(
  before: PlacedHarness,
  after: PlacedHarness,
  share: ShareLanding,
): Paired<ComponentUse> {
  return pairByName(componentsOf(before), componentsOf(after), {
    name: ({ id }) => id,
    least: 2,
    score: (one, two) => {
      if (one.source.kind !== two.source.kind) return 0
      const partOf = ({ source }: ComponentUse) => ('part' in source ? source.part : undefined)
      return (partOf(one) === partOf(two) ? 1 : 0) + 3 * share.of(one.address, two.address)
    },
  })
}

function pairSplices(before: PlacedHarness, after: PlacedHarness, share: ShareLanding): Paired<string> {
  const ids = ({ harness }: PlacedHarness) => (harness.splices ?? []).map(({ id }) => id)
  return pairByName(ids(before), ids(after), {
    name: (id) => id,
    least: 0.5,
    score: (one, two) => share.of(`${before.use.id}.${one}`, `${after.use.id}.${two}`),
  })
}

function pairCables(before: readonly CableUse[], after: readonly CableUse[]): Paired<CableUse> {
  const ends = ({ conductors }: CableUse) =>
    new Set(conductors.map(({ core, from, to }) => `${core} ${from && endName(from)} ${to && endName(to)}`))
  return pairByName(before, after, {
    name: ({ id }) => id,
    least: 2,
    score: (one, two) =>
      one.source.part === two.source.part
        ? 1 + 3 * overlap(ends(one), ends(two)) + (one.source.label === two.source.label ? 0.5 : 0)
        : 0,
  })
}

const pairKey = (a: string | undefined, b: string | undefined): string => [a ?? '', b ?? ''].sort().join('\n')

/** An end within its harness; an end that names nothing stands for itself. */
function endKey(use: LoomUse, conductor: Conductor, which: 'from' | 'to'): string | undefined {
  const terminal = conductor[which]
  if (terminal) return localAddress(use, terminal.address)
  const stated = conductor.source[which]
  return stated === undefined ? undefined : `?${stated}`
}

interface ConductorKeys {
  readonly id: (conductor: Conductor) => string
  readonly ends: (conductor: Conductor) => string
  readonly look: (conductor: Conductor) => string
  readonly core: (conductor: Conductor) => string
}

/** First what kept number and ends, then what was only renumbered, then what kept its number alone. */
function pairConductors(
  before: readonly Conductor[],
  after: readonly Conductor[],
  old: ConductorKeys,
  now: ConductorKeys,
): Paired<Conductor> {
  const kept: (readonly [Conductor, Conductor])[] = []
  let left = before
  let right = after
  const round = (key: (keys: ConductorKeys, conductor: Conductor) => string) => {
    const paired = pairByKey(
      left.map((conductor) => ({ conductor, name: key(old, conductor) })),
      right.map((conductor) => ({ conductor, name: key(now, conductor) })),
      ({ name }) => name,
    )
    kept.push(...paired.kept.map(([one, two]) => [one.conductor, two.conductor] as const))
    left = paired.removed.map(({ conductor }) => conductor)
    right = paired.added.map(({ conductor }) => conductor)
  }
  round((keys, conductor) => `${keys.id(conductor)}\n${keys.ends(conductor)}`)
  round((keys, conductor) => `${keys.ends(conductor)}\n${keys.look(conductor)}`)
  round((keys, conductor) => keys.id(conductor))
  round((keys, conductor) => `${keys.ends(conductor)}\n${conductor.kind} ${conductor.colour ?? conductor.id}`)
  // What is left of a cable is the same core or shield of it, whatever its number.
  round((keys, conductor) =>
    conductor.cable ? `core ${keys.core(conductor)}` : `wire ${keys.id(conductor)}`,
  )
  return { kept, removed: left, added: right }
}

/** Puts two revisions of a harness side by side, and recognises what only has another name. */
export function matchHarness(before: PlacedHarness, after: PlacedHarness, fits: FitsBefore): HarnessMatch {
  const oldConductors = conductorsOf(before)
  const newConductors = conductorsOf(after)
  const share = shareOf(landingsOf(oldConductors), landingsOf(newConductors))
  const halves = pairHalves(before, after, share, fits)
  const components = pairComponents(before, after, share)
  const splices = pairSplices(before, after, share)
  const cables = pairCables(before.use.cables, after.use.cables)
  const renamed = new Map<string, string>()
  const note = (one: string, two: string) => one !== two && renamed.set(one, two)
  for (const [one, two] of [...halves.kept, ...components.kept, ...cables.kept]) note(one.id, two.id)
  for (const [one, two] of splices.kept) note(one, two)
  const moved = (key: string | undefined): string | undefined =>
    key === undefined || key.startsWith('?') ? key : throughRenames(renamed, key)
  const endBefore = (conductor: Conductor, which: 'from' | 'to') =>
    moved(endKey(before.use, conductor, which))
  const endAfter = (conductor: Conductor, which: 'from' | 'to') => endKey(after.use, conductor, which)
  const lookOf = (conductor: Conductor, cable: string | undefined): string =>
    [conductor.kind, conductor.colour, conductor.size?.areaMm2, cable, conductor.core].join(' ')
  const old: ConductorKeys = {
    id: (conductor) => throughRenames(renamed, conductor.id),
    ends: (conductor) => pairKey(endBefore(conductor, 'from'), endBefore(conductor, 'to')),
    look: (conductor) => lookOf(conductor, conductor.cable && throughRenames(renamed, conductor.cable.id)),
    core: ({ cable, core }) => `${cable && throughRenames(renamed, cable.id)} ${core}`,
  }
  const now: ConductorKeys = {
    id: (conductor) => conductor.id,
    ends: (conductor) => pairKey(endAfter(conductor, 'from'), endAfter(conductor, 'to')),
    look: (conductor) => lookOf(conductor, conductor.cable?.id),
    core: ({ cable, core }) => `${cable?.id} ${core}`,
  }
  const conductors = pairConductors(oldConductors, newConductors, old, now)
  for (const [one, two] of conductors.kept) note(one.id, two.id)
  return { halves, components, splices, cables, conductors, renamed, endBefore, endAfter }
}
