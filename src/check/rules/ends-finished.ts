import type { HarnessConnector } from '../../describe/harness.ts'
import type { ComponentUse, Conductor, Half, Loom, LoomUse, Terminal } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf } from '../outcome.ts'
import { landings } from '../queries/landings.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (finished: boolean) =>
  wired({
    units: {
      sender: { pins: { '1': { name: 'A' }, '2': { name: 'B' } } },
      panel: { pins: { '1': { name: 'A' } } },
    },
    runs: [
      ['sender.1', 'panel.1'],
      ['sender.2', 'SP1'],
    ],
    harness: { splices: [{ id: 'SP1', ...(finished ? { kind: 'cap' as const } : {}) }] },
  })

/** Terminals that are of use only together. */
const SIDES: Readonly<Record<ComponentUse['source']['kind'], readonly (readonly string[])[]>> = {
  fuse: [['in', 'out']],
  switch: [['1', '2']],
  relay: [['85', '86']],
  diode: [['a', 'k']],
  resistor: [['1', '2']],
  capacitor: [['1', '2']],
  coil: [['1', '2']],
  transformer: [
    ['p1', 'p2'],
    ['s1', 's2'],
  ],
  link: [['1', '2']],
}

type Landed = ReadonlyMap<Terminal, readonly Conductor[]>

function* bareSplices(loom: Loom, use: LoomUse, landed: Landed): Iterable<Outcome> {
  for (const splice of use.harness.splices ?? []) {
    const joint = loom.terminalAt.get(`${use.id}.${splice.id}`)
    const [wire, second] = (joint && landed.get(joint)) ?? []
    if (!joint || !wire || second || splice.kind === 'cap') continue
    yield found({
      subject: joint.address,
      what: `${wire.id} ends at the splice ${joint.address}, and nothing else does`,
      why: `1 wire at a splice joins nothing: ${wire.id} is a live or floating tail with a bare end.`,
      fix: `Bring the other wire to ${splice.id}, or close the tail with a cap and say so (kind "cap").`,
      facts: { wire: { value: wire.id }, wires: { value: 1 } },
      at: joint.at,
      marks: [joint.address, wire.address],
    })
  }
}

function* halfWired(component: ComponentUse, landed: Landed): Iterable<Outcome> {
  for (const side of SIDES[component.source.kind]) {
    const open = side.filter((name) => {
      const terminal = component.terminals.get(name)
      return !terminal || !landed.has(terminal)
    })
    if (open.length === 0 || open.length === side.length) continue
    const joined = side.filter((name) => !open.includes(name))
    yield found({
      subject: component.address,
      what: `${component.address} has a wire on ${listOf(joined)} and none on ${listOf(open)}`,
      why: `A ${component.source.kind} does nothing with ${joined.length} of its ${side.length} ends wired, and its other end is left for somebody to guess.`,
      fix: `Wire ${listOf(open)} of ${component.id}, or take it out.`,
      facts: { open: { value: open.join(' ') } },
      at: component.at,
      marks: [component.address],
    })
  }
}

/** A lone wire end that mates with nothing, and whose finish nobody has chosen. */
function blankEnd(half: Half, landed: Landed): Outcome | undefined {
  if (half.side !== 'harness' || half.family?.style !== 'wire-end' || half.mate) return undefined
  const source = half.source as HarnessConnector
  const contacts = [source.contact, ...Object.values(source.pins ?? {}).map(({ contact }) => contact)]
  if (source.fits !== undefined || contacts.some((contact) => contact !== undefined)) return undefined
  const wires = [...half.pins.values()].flatMap((pin) => landed.get(pin) ?? [])
  if (wires.length === 0) return undefined
  return found({
    subject: half.address,
    what: `The end of ${listOf(wires.map(({ id }) => id))} at ${half.address} is blank: it mates with nothing and has no contact`,
    why: `${wires.length} stripped or cut ${wires.length === 1 ? 'end' : 'ends'} with no treatment: strands spread and touch what they like.`,
    fix: 'Name the contact it gets (a ferrule, a tinned end is none), or the connector it fits.',
    facts: { wires: { value: wires.map(({ id }) => id).join(' ') } },
    at: half.at,
    marks: wires.map(({ address }) => address),
  })
}

export const endsFinished: Rule = {
  id: 'ends-finished',
  title: 'Every wire end goes somewhere and is finished',
  family: 'pins',
  level: 'warning',
  covers: ['P4'],
  reason:
    'A tail that ends in the air is cut too short, or forgotten, or live. Nobody at the bench can tell which, and behind a panel it finds metal.',
  remedy: 'Wire the other end, take the wire out, or cap it and say so.',
  needs: 'nothing beyond the wires; "kind": "cap" at a splice that closes a tail',
  sources: ['common practice', 'IPC/WHMA-A-620, from memory'],
  examples: { trips: example(false), passes: example(true) },
  *check({ loom }) {
    const landed = landings(loom)
    for (const use of loom.looms) yield* bareSplices(loom, use, landed)
    for (const component of loom.components) if (component.loom) yield* halfWired(component, landed)
    for (const half of loom.halves) {
      const outcome = blankEnd(half, landed)
      if (outcome) yield outcome
    }
  },
}
