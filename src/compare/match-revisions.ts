import type { Equipment } from '../describe/equipment.ts'
import type { Harness } from '../describe/harness.ts'
import type { Installation } from '../describe/installation.ts'
import type { Sourced } from '../describe/shop.ts'
import type { Loom } from '../resolve/loom.ts'
import { pairEquipment, pairEquipmentConnectors } from './compare-shop-lists.ts'
import { type HarnessMatch, matchHarness } from './match-harness.ts'
import { type JobMatch, matchJob, type ShopNames } from './match-job.ts'
import { overlap, type Paired, pairByName } from './pair-up.ts'
import { type PlacedHarness, placedHarnesses, type Revision } from './revision.ts'

const firsts = <T extends { readonly id: string }>(list: readonly Sourced<T>[]): Sourced<T>[] => {
  const seen = new Set<string>()
  return list.filter(({ value }) => !seen.has(value.id) && seen.add(value.id))
}

/** Harnesses, renamed ones recognised by their wires. */
function pairHarnesses(before: Revision, after: Revision): Paired<Sourced<Harness>> {
  const marks = ({ value }: Sourced<Harness>) =>
    new Set([
      ...(value.wires ?? []).flatMap(({ id, from, to }) => [id, `${id} ${from} ${to}`]),
      ...(value.cables ?? []).flatMap(({ id, cores }) => [
        id,
        ...cores.map(({ core, from, to }) => `${core} ${from} ${to}`),
      ]),
      ...value.connectors.map(({ id, family }) => `${id} ${family}`),
    ])
  return pairByName(firsts(before.shop.harnesses), firsts(after.shop.harnesses), {
    name: ({ value }) => value.id,
    least: 0.5,
    score: (one, two) => overlap(marks(one), marks(two)),
  })
}

function pairInstallations(
  before: Revision,
  after: Revision,
  names: ShopNames,
): Paired<Sourced<Installation>> {
  const marks = ({ value }: Sourced<Installation>, old: boolean) =>
    new Set([
      ...value.units.map(({ id, of }) => `unit ${id} ${old ? names.equipment(of) : of}`),
      ...(value.looms ?? []).map(({ id, of }) => `loom ${id} ${old ? names.harness(of) : of}`),
    ])
  return pairByName(firsts(before.shop.installations), firsts(after.shop.installations), {
    name: ({ value }) => value.id,
    least: 0.6,
    score: (one, two) => overlap(marks(one, true), marks(two, false)),
  })
}

/** One harness in both revisions. */
export interface MatchedHarness {
  readonly before: PlacedHarness
  readonly after: PlacedHarness
  readonly match: HarnessMatch
  readonly source: Sourced<Harness>
}

function matchHarnesses(
  paired: Paired<Sourced<Harness>>,
  before: Revision,
  after: Revision,
  fits: (name: string) => string,
): Map<string, MatchedHarness> {
  const [old, now] = [placedHarnesses(before), placedHarnesses(after)]
  const matched = new Map<string, MatchedHarness>()
  for (const [one, two] of paired.kept) {
    const [a, b] = [old.get(one.value.id), now.get(two.value.id)]
    if (a && b)
      matched.set(one.value.id, { before: a, after: b, match: matchHarness(a, b, fits), source: two })
  }
  return matched
}

/** One installation or lone harness in both revisions. */
export interface MatchedJob {
  readonly before: Loom
  readonly after: Loom
  readonly match: JobMatch
}

function matchJobs(
  before: Revision,
  after: Revision,
  names: ShopNames,
  installationNow: (id: string) => string,
) {
  const key = ({ kind, id }: Loom) => `${kind} ${id}`
  const now = new Map(after.looms.map(({ loom }) => [key(loom), loom]))
  const jobs = new Map<string, MatchedJob>()
  for (const { loom } of before.looms) {
    const id = loom.kind === 'harness' ? names.harness(loom.id) : installationNow(loom.id)
    const other = now.get(`${loom.kind} ${id}`)
    if (other) jobs.set(loom.id, { before: loom, after: other, match: matchJob(loom, other, names) })
  }
  return jobs
}

const renames = <T extends { readonly id: string }>({
  kept,
}: Paired<Sourced<T>>): ((id: string) => string) => {
  const names = new Map(kept.map(([one, two]) => [one.value.id, two.value.id]))
  return (id) => names.get(id) ?? id
}

/** Which thing of one revision is which of the other. */
export interface Matches {
  readonly equipment: Paired<Sourced<Equipment>>
  readonly harnesses: Paired<Sourced<Harness>>
  readonly installations: Paired<Sourced<Installation>>
  /** Harnesses both revisions have, by their old name. */
  readonly matched: ReadonlyMap<string, MatchedHarness>
  readonly jobs: ReadonlyMap<string, MatchedJob>
  readonly names: ShopNames
  /** New name of `equipment.connector`. */
  readonly fits: (name: string) => string
}

/** Puts two revisions side by side, whatever their things are called. */
export function matchRevisions(before: Revision, after: Revision): Matches {
  const equipment = pairEquipment(firsts(before.shop.equipment), firsts(after.shop.equipment))
  const harnesses = pairHarnesses(before, after)
  const equipmentNow = renames(equipment)
  const connectors = new Map(
    equipment.kept.map(([one, two]) => [
      one.value.id,
      new Map(pairEquipmentConnectors(one.value, two.value).kept.map(([a, b]) => [a.id, b.id])),
    ]),
  )
  const connectorNow = (type: string, connector: string) => connectors.get(type)?.get(connector) ?? connector
  const fits = (name: string) => {
    const dot = name.indexOf('.')
    return dot < 0
      ? equipmentNow(name)
      : `${equipmentNow(name.slice(0, dot))}.${connectorNow(name.slice(0, dot), name.slice(dot + 1))}`
  }
  const matched = matchHarnesses(harnesses, before, after, fits)
  const names: ShopNames = {
    equipment: equipmentNow,
    harness: renames(harnesses),
    equipmentConnector: connectorNow,
    harnessMatch: (id) => matched.get(id)?.match,
  }
  const installations = pairInstallations(before, after, names)
  const jobs = matchJobs(before, after, names, renames(installations))
  return { equipment, harnesses, installations, matched, jobs, names, fits }
}
