import type { Installation } from '../describe/installation.ts'
import type { Loom } from '../resolve/loom.ts'
import type { HarnessMatch } from './match-harness.ts'
import { throughRenames } from './match-harness.ts'
import { type Paired, pairByName } from './pair-up.ts'

type UnitEntry = Installation['units'][number]
type LoomEntry = NonNullable<Installation['looms']>[number]

/** Names that differ between two revisions of a shop. Each is the new name of an old one. */
export interface ShopNames {
  readonly equipment: (id: string) => string
  readonly harness: (id: string) => string
  /** Connector of a type of equipment, both by their old names. */
  readonly equipmentConnector: (equipment: string, connector: string) => string
  readonly harnessMatch: (harnessBefore: string) => HarnessMatch | undefined
}

/** Which thing of an old installation, or lone harness, is which of the new one. */
export interface JobMatch {
  readonly units: Paired<UnitEntry>
  readonly looms: Paired<LoomEntry>
  /** The new address of an old one; an address of something removed stays as it is. */
  readonly address: (address: string) => string
}

const entriesOf = (loom: Loom): { units: readonly UnitEntry[]; looms: readonly LoomEntry[] } => ({
  units: loom.units.map(({ id, equipment, zone }) => ({
    id,
    of: equipment.id,
    ...(zone === undefined ? {} : { zone }),
  })),
  looms: loom.looms.map(({ id, harness }) => ({ id, of: harness.id })),
})

const statedOr = (loom: Loom) => {
  const { source } = loom
  return 'units' in source ? { units: source.units, looms: source.looms ?? [] } : entriesOf(loom)
}

/** Puts two revisions of a job side by side. Units and looms with another name are recognised by what they are. */
export function matchJob(before: Loom, after: Loom, names: ShopNames): JobMatch {
  const [old, now] = [statedOr(before), statedOr(after)]
  const units = pairByName<UnitEntry>(old.units, now.units, {
    name: ({ id }) => id,
    least: 2,
    score: (one, two) =>
      names.equipment(one.of) === two.of
        ? 2 + Number(one.zone === two.zone) + Number(one.title === two.title)
        : 0,
  })
  const looms = pairByName<LoomEntry>(old.looms, now.looms, {
    name: ({ id }) => id,
    least: 1,
    score: (one, two) => (names.harness(one.of) === two.of ? 1 : 0),
  })
  const unitOf = new Map(units.kept.map(([one, two]) => [one.id, { id: two.id, of: one.of }]))
  const loomOf = new Map(looms.kept.map(([one, two]) => [one.id, { id: two.id, of: one.of }]))
  const cache = new Map<string, string>()
  const translate = (address: string): string => {
    const dot = address.indexOf('.')
    const head = dot < 0 ? address : address.slice(0, dot)
    const rest = dot < 0 ? undefined : address.slice(dot + 1)
    const loom = loomOf.get(head)
    if (loom) {
      const renamed = names.harnessMatch(loom.of)?.renamed
      return rest === undefined ? loom.id : `${loom.id}.${renamed ? throughRenames(renamed, rest) : rest}`
    }
    const unit = unitOf.get(head)
    if (!unit) return address
    if (rest === undefined) return unit.id
    const [connector = '', ...pin] = rest.split('.')
    return [unit.id, names.equipmentConnector(unit.of, connector), ...pin].join('.')
  }
  return {
    units,
    looms,
    address: (address) => {
      const known = cache.get(address)
      if (known !== undefined) return known
      const found = translate(address)
      cache.set(address, found)
      return found
    },
  }
}
