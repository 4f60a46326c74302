import { below, type Pointer } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { CableRun } from '../describe/harness.ts'
import type { CablePart } from '../describe/part.ts'
import { type EndScope, findEnd } from './find-end.ts'
import type { Draft, GraphBuilder } from './graph-builder.ts'
import type { CableUse, Conductor, LoomUse, Terminal } from './loom.ts'
import type { NameGuard } from './name-guard.ts'
import { listNames } from './problem.ts'
import { reportLoop } from './report-loop.ts'

type Core = CableRun['cores'][number]
type Shield = NonNullable<CableRun['shields']>[number]
type DraftCable = Omit<Draft<CableUse>, 'conductors' | 'spare'> & { conductors: Conductor[]; spare: string[] }

/** A cable with its cores and shields as conductors. Core and shield names are checked against the part. */
export function resolveCable(
  b: GraphBuilder,
  loom: LoomUse,
  scope: EndScope,
  source: CableRun,
  at: Pointer,
  numbers: NameGuard,
): CableUse {
  const part = b.parts.cables.get(source.part)
  if (!part) reportUnknownPart(b, loom, source, at)
  const cable: DraftCable = {
    address: `${loom.id}.${source.id}`,
    id: source.id,
    loom,
    source,
    conductors: [],
    spare: [],
    at,
    ...(part ? { part } : {}),
  }
  const used = new Map<string, Core>()
  source.cores.forEach((core, index) => {
    const where = below(at, 'cores', index)
    if (core.id !== undefined) numbers.claim(core.id, 'core', where, 'warning')
    checkCore(b, cable, core, used, below(where, 'core'))
    used.set(core.core, used.get(core.core) ?? core)
    cable.conductors.push(resolveCore(b, cable, scope, core, where))
  })
  const landed = new Set<string>()
  source.shields?.forEach((shield, index) => {
    const where = below(at, 'shields', index)
    if (shield.id !== undefined) numbers.claim(shield.id, 'shield', where, 'warning')
    checkShield(b, cable, shield, landed, below(where, 'shield'))
    landed.add(shield.shield)
    cable.conductors.push(resolveShield(b, cable, scope, shield, where))
  })
  cable.spare.push(...(part?.cores ?? []).map((core) => core.name).filter((name) => !used.has(name)))
  return cable
}

function reportUnknownPart(b: GraphBuilder, loom: LoomUse, source: CableRun, at: Pointer): void {
  b.report({
    rule: 'name-not-found',
    subject: `${loom.harness.id}/${source.id}`,
    what: `Cable ${source.id} is ${quote(source.part)}, which no part describes`,
    why: 'Its cores, pairs, shields and sizes are then unknown: nothing about them can be checked.',
    fix:
      didYouMean(source.part, b.parts.cables.keys()).trim() ||
      'Describe it as a part of kind "cable", or use one of the catalogue.',
    at: below(at, 'part'),
  })
}

function checkCore(
  b: GraphBuilder,
  cable: DraftCable,
  core: Core,
  used: ReadonlyMap<string, Core>,
  at: Pointer,
): void {
  const subject = `${cable.loom.harness.id}/${cable.id}.${core.core}`
  const names = cable.part?.cores.map((entry) => entry.name)
  if (names && !names.includes(core.core)) {
    b.report({
      rule: 'core-used-once',
      subject,
      what: `Cable ${cable.id} (${cable.part?.id}) has no core ${quote(core.core)}`,
      why: `Its cores are ${listNames(names)}.`,
      fix: `Use one of its cores, or a cable with more.${didYouMean(core.core, names)}`,
      at,
    })
    return
  }
  const first = used.get(core.core)
  if (!first) return
  const spare = names?.filter((name) => !cable.source.cores.some((entry) => entry.core === name)) ?? []
  b.report({
    rule: 'core-used-once',
    subject,
    what: `Core ${core.core} of cable ${cable.id} is used twice: ${first.from} to ${first.to}, and ${core.from} to ${core.to}`,
    why: 'One core has two ends and carries one circuit.',
    fix:
      spare.length > 0
        ? `Use a free core: ${listNames(spare)}.`
        : 'The cable has no free core; use one with more.',
    at,
  })
}

function checkShield(
  b: GraphBuilder,
  cable: DraftCable,
  shield: Shield,
  landed: ReadonlySet<string>,
  at: Pointer,
): void {
  const subject = `${cable.loom.harness.id}/${cable.id}.${shield.shield}`
  const names = cable.part ? (cable.part.shields ?? []).map((entry) => entry.name) : undefined
  if (names && !names.includes(shield.shield))
    b.report({
      rule: 'name-not-found',
      subject,
      what: `Cable ${cable.id} (${cable.part?.id}) has no shield ${quote(shield.shield)}`,
      why: names.length > 0 ? `Its shields are ${listNames(names)}.` : 'It is described without a shield.',
      fix: `Use a shield it has, or a screened cable.${didYouMean(shield.shield, names)}`,
      at,
    })
  else if (landed.has(shield.shield))
    b.report({
      rule: 'duplicate-name',
      subject,
      what: `Shield ${shield.shield} of cable ${cable.id} is listed twice`,
      fix: 'List each shield once, with both its ends.',
      at,
    })
}

function endsOf(
  b: GraphBuilder,
  scope: EndScope,
  source: { from?: string | undefined; to?: string | undefined },
  use: { by: string; subject: string; at: Pointer },
): { from?: Terminal; to?: Terminal } {
  const find = (key: 'from' | 'to'): Terminal | undefined => {
    const text = source[key]
    return text === undefined ? undefined : findEnd(b, scope, text, { ...use, at: below(use.at, key) })
  }
  const from = find('from')
  const to = find('to')
  reportLoop(b, from, to, { ...use, at: below(use.at, 'to') })
  return { ...(from ? { from } : {}), ...(to ? { to } : {}) }
}

function resolveCore(
  b: GraphBuilder,
  cable: DraftCable,
  scope: EndScope,
  source: Core,
  at: Pointer,
): Conductor {
  const core = cable.part?.cores.find((entry) => entry.name === source.core)
  const id = source.id ?? `${cable.id}.${source.core}`
  const ends = endsOf(b, scope, source, {
    by: `core ${source.core} of cable ${cable.id}`,
    subject: `${cable.loom.harness.id}/${id}`,
    at,
  })
  return b.conductor({
    ...common(cable, id, at),
    ...ends,
    kind: 'core',
    core: source.core,
    source,
    ...(core ? { size: core.size } : {}),
    ...(core?.colour === undefined ? {} : { colour: core.colour }),
    ...(core?.pair === undefined ? {} : { pair: `${cable.address}.${core.pair}` }),
  })
}

function resolveShield(
  b: GraphBuilder,
  cable: DraftCable,
  scope: EndScope,
  source: Shield,
  at: Pointer,
): Conductor {
  const id = source.id ?? `${cable.id}.${source.shield}`
  const ends = endsOf(b, scope, source, {
    by: `shield ${source.shield} of cable ${cable.id}`,
    subject: `${cable.loom.harness.id}/${id}`,
    at,
  })
  return b.conductor({ ...common(cable, id, at), ...ends, kind: 'shield', core: source.shield, source })
}

function common(cable: DraftCable, id: string, at: Pointer) {
  const { length, zone } = cable.source
  return {
    address: `${cable.loom.id}.${id}`,
    id,
    loom: cable.loom,
    cable,
    at,
    ...(length === undefined ? {} : { lengthMm: length }),
    ...(zone === undefined ? {} : { zone }),
  }
}

/** The shield of a cable part a conductor stands for. */
export function shieldOf(part: CablePart | undefined, name: string | undefined) {
  return part?.shields?.find((shield) => shield.name === name)
}
