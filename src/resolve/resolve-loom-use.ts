import { below, type Pointer } from '../base/place.ts'
import { quote } from '../base/quote.ts'
import { didYouMean } from '../base/suggest.ts'
import type { Harness, WireRun } from '../describe/harness.ts'
import { checkBranches } from './check-branches.ts'
import { type EndScope, findEnd } from './find-end.ts'
import type { Draft, DraftLoomUse, GraphBuilder } from './graph-builder.ts'
import type { Conductor, LoomUse } from './loom.ts'
import { NameGuard } from './name-guard.ts'
import { reportLoop } from './report-loop.ts'
import { resolveCable } from './resolve-cable.ts'
import { joinBetween, resolveComponent } from './resolve-component.ts'
import { resolveHarnessHalf } from './resolve-half.ts'

/** Puts one harness in its place under a name of its own. */
export function resolveLoomUse(
  b: GraphBuilder,
  harness: Harness,
  harnessAt: Pointer,
  use: { id: string; at: Pointer },
): LoomUse {
  const loom: DraftLoomUse = { id: use.id, harness, halves: [], cables: [], at: use.at }
  b.looms.push(loom)
  const scope: EndScope = {
    owner: `harness ${harness.id}`,
    subject: (name) => `${harness.id}/${name}`,
    halves: new Map(),
    components: new Map(),
    splices: new Map(),
  }
  const things = new NameGuard(b, harness)
  harness.connectors.forEach((connector, index) => {
    const at = below(harnessAt, 'connectors', index)
    if (!things.claim(connector.id, 'connector', at)) return
    const half = resolveHarnessHalf(b, loom, connector, at)
    scope.halves.set(connector.id, half)
    loom.halves.push(half)
  })
  harness.splices?.forEach((splice, index) => {
    const at = below(harnessAt, 'splices', index)
    if (!things.claim(splice.id, 'splice', at)) return
    const address = `${use.id}.${splice.id}`
    scope.splices.set(splice.id, b.terminal({ address, name: splice.id, on: 'splice', at }))
  })
  harness.components?.forEach((component, index) => {
    const at = below(harnessAt, 'components', index)
    if (!things.claim(component.id, 'component', at)) return
    scope.components.set(component.id, resolveComponent(b, component, at, { loom }))
  })
  for (const component of scope.components.values()) joinBetween(b, component, scope)
  const numbers = new NameGuard(b, harness)
  harness.wires?.forEach((wire, index) => {
    const at = below(harnessAt, 'wires', index)
    numbers.claim(wire.id, 'wire', at, 'warning')
    resolveWire(b, loom, scope, wire, at)
  })
  harness.cables?.forEach((cable, index) => {
    const at = below(harnessAt, 'cables', index)
    numbers.claim(cable.id, 'cable', at, 'warning')
    loom.cables.push(resolveCable(b, loom, scope, cable, at, numbers))
  })
  checkPairs(b, loom)
  checkBranches(harness, harnessAt, (problem) => b.report(problem))
  return loom
}

function resolveWire(b: GraphBuilder, loom: LoomUse, scope: EndScope, source: WireRun, at: Pointer): void {
  const by = `wire ${source.id}`
  const subject = `${loom.harness.id}/${source.id}`
  const from = findEnd(b, scope, source.from, { by, subject, at: below(at, 'from') })
  const to = findEnd(b, scope, source.to, { by, subject, at: below(at, 'to') })
  reportLoop(b, from, to, { by, subject, at: below(at, 'to') })
  const wirePart = source.part === undefined ? undefined : b.parts.wires.get(source.part)
  if (source.part !== undefined && !wirePart)
    b.report({
      rule: 'name-not-found',
      level: 'warning',
      subject,
      what: `Wire ${source.id} is ${quote(source.part)}, which no part describes`,
      why: 'Its diameter, temperature class and strands are then unknown, so crimps, seals and ampacity cannot be judged.',
      fix: didYouMean(source.part, b.parts.wires.keys()).trim() || 'Describe it as a part of kind "wire".',
      at: below(at, 'part'),
    })
  const size = source.size ?? wirePart?.size
  if (source.size && wirePart?.size && source.size.label !== wirePart.size.label)
    b.report({
      rule: 'contradiction',
      subject,
      what: `Wire ${source.id} is ${source.size.label}, but its part ${wirePart.id} is ${wirePart.size.label}`,
      fix: 'Give the size or the part, or make them agree.',
      at: below(at, 'size'),
    })
  const made: Omit<Draft<Conductor>, 'index'> = {
    address: `${loom.id}.${source.id}`,
    id: source.id,
    kind: 'wire',
    loom,
    source,
    at,
  }
  if (from) made.from = from
  if (to) made.to = to
  if (size) made.size = size
  if (source.colour !== undefined) made.colour = source.colour
  if (source.length !== undefined) made.lengthMm = source.length
  if (wirePart) made.wirePart = wirePart
  if (source.pair !== undefined) made.pair = `${loom.id}.${source.pair}`
  if (source.zone !== undefined) made.zone = source.zone
  b.conductor(made)
}

function checkPairs(b: GraphBuilder, loom: LoomUse): void {
  const pairs = new Map<string, Conductor[]>()
  for (const conductor of b.conductors) {
    if (conductor.loom !== loom || conductor.kind !== 'wire' || conductor.pair === undefined) continue
    pairs.set(conductor.pair, [...(pairs.get(conductor.pair) ?? []), conductor])
  }
  for (const [pair, members] of pairs) {
    const first = members[0]
    if (members.length === 2 || !first) continue
    const name = pair.slice(loom.id.length + 1)
    b.report({
      rule: 'contradiction',
      level: 'warning',
      subject: `${loom.harness.id}/${name}`,
      what: `Pair ${name} has ${members.length === 1 ? 'one wire' : `${members.length} wires`}, ${members.map((wire) => wire.id).join(', ')}; a pair is two`,
      fix: 'Give the pair name to exactly the two wires that are twisted together.',
      at: below(first.at, 'pair'),
      marks: members.map((wire) => wire.address),
    })
  }
}
