import { uniqueSlugs } from '../base/slug.ts'
import type { AssetRecord } from '../commission/asset-record.ts'
import type { Equipment } from '../describe/equipment.ts'
import type { Loom, Net } from '../resolve/loom.ts'
import { assetNames } from './asset-names.ts'
import { type HarnessEntry, harnessEntries } from './harness-entries.ts'
import { netPlaces } from './net-places.ts'
import { type Anchored, placesIn } from './places.ts'
import type { Job, SiteInput } from './site-input.ts'

/** A page and a spot on it. */
export interface Target {
  readonly path: string
  readonly anchor?: string
}

/** A connector family and gender that has a page. */
export interface ConnectorKey {
  readonly familyId: string
  readonly gender: 'pin' | 'socket' | undefined
}

/** Which pages there are and where everything is on them. */
export interface SiteMap {
  readonly harnesses: readonly HarnessEntry[]
  readonly installations: readonly Job[]
  readonly equipment: readonly Equipment[]
  readonly connectors: readonly ConnectorKey[]
  readonly harness: (id: string) => string | undefined
  readonly installation: (id: string) => string | undefined
  readonly equipmentPage: (id: string) => string | undefined
  readonly connector: (key: ConnectorKey) => string | undefined
  readonly rule: (id: string) => string | undefined
  readonly paper: (harnessId: string, sheetId: string, ending: string) => string
  readonly guide: (loom: Loom, ending: string) => string
  /** The commissioning record of an installation. */
  readonly record: (loom: Loom, ending: string) => string
  /** Visits to assets, judged; older ones too. */
  readonly assets: readonly AssetRecord[]
  readonly asset: (record: AssetRecord, ending: string) => string
  /** The simulations of an installation. */
  readonly whatIf: (loom: Loom) => string
  /** Where a net of a loom is shown; undefined for one bare pin. */
  readonly net: (loom: Loom, net: Net) => Target | undefined
  /** Page of the bench view of a harness. */
  readonly bench: (harnessId: string) => string
  /** Where an address of a loom is shown. */
  readonly place: (loom: Loom, address: string) => Target | undefined
}

export function siteMap(input: SiteInput): SiteMap {
  const harnesses = harnessEntries(input.looms)
  const installations = input.looms.filter((job) => job.loom.kind === 'installation')
  const equipment = unique(input.shop.equipment.map(({ value }) => value))
  const connectors = connectorKeys(input)
  const pages = {
    harness: pageNames(
      'harness',
      harnesses.map(({ harness }) => harness.id),
    ),
    installation: pageNames(
      'installation',
      installations.map(({ loom }) => loom.id),
    ),
    equipment: pageNames(
      'equipment',
      equipment.map(({ id }) => id),
    ),
    connector: pageNames('connector', connectors.map(connectorName)),
    rule: pageNames(
      'rule',
      input.rules.map(({ id }) => id),
    ),
  }
  const stem = (path: string | undefined) => (path ?? '').replace(/^[a-z]+\/|\.html$/g, '')
  const assets = input.commissioned?.assets ?? []
  const assetFiles = assetNames(assets)
  const papers = new Map<string, string>()
  const places = new Map<Loom, ReadonlyMap<string, Anchored>>()
  const nets = new Map<Loom, ReadonlyMap<Net, Target>>()
  /** `installation-van-7`: tells a harness and an installation of one name apart. */
  const jobName = (loom: Loom) =>
    `${loom.kind}-${stem(loom.kind === 'harness' ? pages.harness.get(loom.id) : pages.installation.get(loom.id))}`
  return {
    harnesses,
    installations,
    equipment,
    connectors,
    harness: (id) => pages.harness.get(id),
    installation: (id) => pages.installation.get(id),
    equipmentPage: (id) => pages.equipment.get(id),
    connector: (key) => pages.connector.get(connectorName(key)),
    rule: (id) => pages.rule.get(id),
    paper: (harnessId, sheetId, ending) =>
      `paper/${paperName(papers, `${stem(pages.harness.get(harnessId))} ${sheetId}`)}.${ending}`,
    whatIf: (loom) => `what-if/${stem(pages.installation.get(loom.id))}.html`,
    guide: (loom, ending) => `guide/${jobName(loom)}.${ending}`,
    record: (loom, ending) => `record/${stem(pages.installation.get(loom.id))}.${ending}`,
    assets,
    asset: (record, ending) => `asset/${assetFiles.get(record) ?? 'asset'}.${ending}`,
    net: (loom, net) => {
      const known =
        nets.get(loom) ??
        netPlaces(loom, (number) => `net/${jobName(loom)}${number === 1 ? '' : `.${number}`}.html`)
      nets.set(loom, known)
      return known.get(net)
    },
    bench: (harnessId) => `bench/${stem(pages.harness.get(harnessId))}.html`,
    place: (loom, address) => {
      const known = places.get(loom) ?? placesIn(loom)
      places.set(loom, known)
      const found = known.get(address)
      if (!found) return undefined
      const path =
        found.page.kind === 'harness' ? pages.harness.get(found.page.id) : pages.equipment.get(found.page.id)
      if (path === undefined) return undefined
      return found.anchor === undefined ? { path } : { path, anchor: found.anchor }
    },
  }
}

/** Names of papers are asked for one at a time; the number keeps apart what folds into the same name. */
function paperName(known: Map<string, string>, text: string): string {
  const found = known.get(text)
  if (found !== undefined) return found
  const taken = new Set(known.values())
  const base = [...uniqueSlugs([text]).values()][0] ?? 'paper'
  let name = base
  for (let count = 2; taken.has(name); count++) name = `${base}-${count}`
  known.set(text, name)
  return name
}

const pageNames = (folder: string, ids: readonly string[]): ReadonlyMap<string, string> =>
  new Map([...uniqueSlugs(ids)].map(([id, name]) => [id, `${folder}/${name}.html`]))

export const connectorName = ({ familyId, gender }: ConnectorKey): string =>
  gender === undefined ? familyId : `${familyId} ${gender}`

/** The first of each id: duplicates are findings, and one page cannot show two things. */
function unique<T extends { readonly id: string }>(things: readonly T[]): T[] {
  const byId = new Map<string, T>()
  for (const thing of things) if (!byId.has(thing.id)) byId.set(thing.id, thing)
  return [...byId.values()]
}

/** Every family and gender that a loom or a described unit uses. */
function connectorKeys(input: SiteInput): ConnectorKey[] {
  const keys = new Map<string, ConnectorKey>()
  const add = (key: ConnectorKey) => keys.set(connectorName(key), key)
  for (const { loom } of input.looms)
    for (const half of loom.halves) if (half.family) add({ familyId: half.familyId, gender: half.gender })
  return [...keys.values()].sort((a, b) => (connectorName(a) < connectorName(b) ? -1 : 1))
}
