import type { Finding } from '../base/finding.ts'
import { below, type Pointer } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { Harness } from '../describe/harness.ts'
import type { Installation } from '../describe/installation.ts'
import type { Shop, Sourced } from '../describe/shop.ts'
import { checkFunctions } from './check-functions.ts'
import { checkNets } from './check-nets.ts'
import { checkShop, indexById } from './check-shop.ts'
import { linkComponents } from './component-links.ts'
import { assignFunctions, type EquipmentIndex } from './fits.ts'
import { GraphBuilder } from './graph-builder.ts'
import { mateByFit, noteUnmated } from './inferred-mates.ts'
import { mateListed } from './listed-mates.ts'
import type { Loom, PartIndex, Settings, State } from './loom.ts'
import { makeNets } from './make-nets.ts'
import { type CataloguePart, partIndex, standardCatalogue } from './part-index.ts'
import { linkPorts } from './port-links.ts'
import { asFinding, type Problem, sameFault } from './problem.ts'
import { resolveLoomUse } from './resolve-loom-use.ts'
import { resolveUnit } from './resolve-unit.ts'
import { settingsFrom, statesFrom } from './settings.ts'
import { standInUnits } from './stand-in-units.ts'

export interface ResolveOptions {
  /** The standard catalogue, kept from another run; made anew when left out. */
  readonly standard?: readonly CataloguePart[]
}

/** A shop whose names have been looked up once; looms are made from it one by one. */
export interface ShopIndex {
  readonly shop: Shop
  readonly parts: PartIndex
  readonly settings: Settings
  readonly equipment: EquipmentIndex
  readonly harnesses: ReadonlyMap<string, Sourced<Harness>>
  readonly installations: ReadonlyMap<string, Sourced<Installation>>
  /** Duplicates and contradictions between and inside the shop's lists. */
  readonly findings: readonly Finding[]
}

export interface ResolvedShop {
  /** One for each installation, then one for each harness used in no installation. */
  readonly looms: readonly Loom[]
  /** Everything met while resolving: the shop's own findings and those of every loom, each once. */
  readonly findings: readonly Finding[]
  readonly index: ShopIndex
}

/** Indexes a shop by name. Never throws on a shop that passed its schema. */
export function indexShop(shop: Shop, options: ResolveOptions = {}): ShopIndex {
  const findings: Finding[] = []
  const report = (problem: Problem): void => {
    findings.push(asFinding(problem))
  }
  const parts = partIndex(shop, options.standard ?? standardCatalogue(), report)
  checkShop(shop, parts, report)
  return {
    shop,
    parts,
    settings: settingsFrom(shop.policy?.value, shop.policy?.at),
    equipment: indexById(shop.equipment, 'equipment', report),
    harnesses: indexById(shop.harnesses, 'harness', report),
    installations: indexById(shop.installations, 'installation', report),
    findings,
  }
}

/** Resolves a whole shop: a loom for each installation, and for each harness no installation uses. */
export function resolveShop(shop: Shop, options: ResolveOptions = {}): ResolvedShop {
  const index = indexShop(shop, options)
  const used = new Set(shop.installations.flatMap(({ value }) => value.looms?.map((loom) => loom.of) ?? []))
  const looms = [
    ...[...index.installations.values()].map((entry) => resolveInstallation(index, entry)),
    ...[...index.harnesses.values()]
      .filter(({ value }) => !used.has(value.id))
      .map((entry) => resolveLone(index, entry)),
  ]
  const findings = new Map<string, Finding>()
  for (const finding of [...index.findings, ...looms.flatMap((loom) => loom.findings)]) {
    const key = sameFault(finding)
    if (!findings.has(key)) findings.set(key, finding)
  }
  return { looms, findings: [...findings.values()], index }
}

/** A harness on its own, with stand-ins for the equipment its connectors fit. Undefined if there is none of that name. */
export function resolveHarness(
  shop: Shop | ShopIndex,
  id: string,
  options: ResolveOptions = {},
): Loom | undefined {
  const index = 'settings' in shop ? shop : indexShop(shop, options)
  const found = index.harnesses.get(id)
  return found ? resolveLone(index, found) : undefined
}

/** The loom of one installation of an indexed shop, which need not be one of the shop's own. */
export function resolveInstallation(index: ShopIndex, { value, at }: Sourced<Installation>): Loom {
  const states = statesFrom(value.states)
  const b = new GraphBuilder(value.id, index.parts, states)
  const claim = nameClaim(b)
  value.states?.forEach((state, n) => {
    claimState(
      b,
      state.id,
      value.states?.findIndex((other) => other.id === state.id) === n,
      below(at, 'states', n, 'id'),
    )
  })
  value.units.forEach((unit, n) => {
    const where = below(at, 'units', n)
    if (!claim(unit.id, below(where, 'id'))) return
    const type = index.equipment.get(unit.of)
    if (type) resolveUnit(b, type.value, type.at, { ...unit, standIn: false, at: where })
    else unknownKind(b, unit.id, unit.of, 'equipment', index.equipment.keys(), below(where, 'of'))
  })
  value.looms?.forEach((loom, n) => {
    const where = below(at, 'looms', n)
    if (!claim(loom.id, below(where, 'id'))) return
    const type = index.harnesses.get(loom.of)
    if (type) resolveLoomUse(b, type.value, type.at, { id: loom.id, at: where })
    else unknownKind(b, loom.id, loom.of, 'harness', index.harnesses.keys(), below(where, 'of'))
  })
  mateListed(b, value, at)
  mateByFit(b)
  noteUnmated(b)
  const setting = value.setting ?? 'vehicle'
  return finish(b, index, {
    kind: 'installation',
    id: value.id,
    title: value.title,
    at,
    source: value,
    setting,
    structure: value.structure ?? (setting === 'boat' ? 'non-conductive' : 'metal'),
    ...(value.supply === undefined ? {} : { supplyVolts: value.supply }),
    ambientCelsius: value.ambient ?? 20,
    states,
    ...(value.parked === undefined ? {} : { settings: { ...index.settings, parkedDays: value.parked } }),
  })
}

function resolveLone(index: ShopIndex, { value, at }: Sourced<Harness>): Loom {
  const states: readonly State[] = statesFrom(undefined)
  const b = new GraphBuilder(value.id, index.parts, states)
  resolveLoomUse(b, value, at, { id: value.id, at })
  standInUnits(b, index.equipment)
  return finish(b, index, {
    kind: 'harness',
    id: value.id,
    title: value.title,
    at,
    source: value,
    setting: 'bench',
    structure: 'metal',
    ambientCelsius: 20,
    states,
  })
}

type Facts = Pick<
  Loom,
  'kind' | 'id' | 'title' | 'at' | 'source' | 'setting' | 'structure' | 'ambientCelsius' | 'states'
> &
  Partial<Pick<Loom, 'supplyVolts' | 'settings'>>

function finish(b: GraphBuilder, index: ShopIndex, facts: Facts): Loom {
  assignFunctions(b, index.equipment)
  linkComponents(b)
  linkPorts(b)
  checkFunctions(b)
  const nets = makeNets(b)
  checkNets(b, nets)
  return {
    settings: index.settings,
    ...facts,
    parts: index.parts,
    units: b.units,
    looms: b.looms,
    halves: b.halves,
    terminals: b.terminals,
    conductors: b.conductors,
    components: b.components,
    links: b.links,
    ...nets,
    terminalAt: b.terminalAt,
    halfAt: b.halfAt,
    conductorAt: b.conductorAt,
    findings: b.findings,
  }
}

/** Units and looms of one installation share their names, since addresses begin with them. */
function nameClaim(b: GraphBuilder): (id: string, at: Pointer) => boolean {
  const taken = new Map<string, Pointer>()
  return (id, at) => {
    const first = taken.get(id)
    taken.set(id, first ?? at)
    if (!first) return true
    b.report({
      rule: 'duplicate-name',
      level: 'stop',
      subject: `${b.loomId}/${id}`,
      what: `${b.loomId} has two units or looms called ${id}; the first counts`,
      fix: 'Rename one of them.',
      at,
      notes: [{ text: `the first ${id}`, at: first }],
    })
    return false
  }
}

function claimState(b: GraphBuilder, id: string, first: boolean, at: Pointer): void {
  if (first) return
  b.report({
    rule: 'duplicate-name',
    subject: `${b.loomId}/${id}`,
    what: `${b.loomId} has two states called ${id}`,
    fix: 'Rename one of them.',
    at,
  })
}

function unknownKind(
  b: GraphBuilder,
  id: string,
  of: string,
  kind: string,
  known: Iterable<string>,
  at: Pointer,
): void {
  b.broken.add(id)
  b.report({
    rule: 'name-not-found',
    subject: `${b.loomId}/${id}`,
    what: `${id} is ${quote(of)}, but no ${kind} is called that`,
    why: 'Nothing of it can be drawn or checked.',
    fix: didYouMean(of, known).trim() || `Describe the ${kind} ${quote(of)}, or correct the name.`,
    at,
  })
}
