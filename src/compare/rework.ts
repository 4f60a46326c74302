import { naturalOrder } from '../base/natural-order.ts'
import type { Conductor, Half, Terminal } from '../resolve/loom.ts'
import type { Rework, ReworkStep, SubjectChange, ThingChange } from './changes.ts'
import type { HarnessMatch } from './match-harness.ts'
import { conductorFacts, endName, endsText } from './names.ts'
import type { PlacedHarness } from './revision.ts'
import { orderMoves } from './rework-order.ts'

interface Bench {
  readonly before: PlacedHarness
  readonly after: PlacedHarness
  readonly match: HarnessMatch
  readonly old: ReadonlyMap<string, Conductor>
  readonly now: ReadonlyMap<string, Conductor>
}

const step = (text: string): ReworkStep => ({ text })

/** Contact crimped, soldered or clamped on in a cavity. */
function contactAt({ loom }: PlacedHarness, terminal: Terminal) {
  const source = terminal.half?.source
  if (!source || !('contact' in source || source.pins)) return undefined
  const cavity =
    source.pins && Object.hasOwn(source.pins, terminal.name) ? source.pins[terminal.name] : undefined
  const own = cavity && 'contact' in cavity ? cavity.contact : undefined
  const id = own ?? ('contact' in source ? source.contact : undefined)
  return id === undefined ? undefined : (loom.parts.contacts.get(id) ?? { id, title: id, join: undefined })
}

/** How a wire comes off an end. */
function release(place: PlacedHarness, terminal: Terminal): string {
  const name = endName(terminal)
  if (terminal.on === 'splice') return `open splice ${name}`
  const contact = contactAt(place, terminal)
  switch (contact?.join) {
    case 'solder':
      return `unsolder it at ${name}`
    case 'screw':
      return `undo the clamp at ${name}`
    case 'punch-down':
    case 'pierce':
      return `cut it off at ${name}; the contact cannot be used again`
    default:
      if (terminal.half?.pins.size === 1) return `take ${name} off its place`
      if (terminal.half) return `release its contact from ${name}`
      return `take it off ${name}`
  }
}

function fasten(place: PlacedHarness, terminal: Terminal, onto: { readonly reuse: boolean }): string {
  const name = endName(terminal)
  if (terminal.on === 'splice') return `join it in splice ${name}`
  const contact = contactAt(place, terminal)
  switch (contact?.join) {
    case 'solder':
      return `solder it to ${name}`
    case 'screw':
      return `clamp it at ${name}`
    case 'punch-down':
    case 'pierce':
      return `press it into ${name}`
    default:
      if (!terminal.half) return `fit it to ${name}`
      if (onto.reuse) return `push the contact into ${name} until it locks`
      return contact ? `crimp ${contact.title} and fit it at ${name}` : `terminate it at ${name}`
  }
}

const endAt = (conductor: Conductor | undefined, name: string | undefined): Terminal | undefined =>
  [conductor?.from, conductor?.to].find((terminal) => terminal !== undefined && endName(terminal) === name)

function moveSteps(bench: Bench, change: ThingChange, before: Conductor, after: Conductor): ReworkStep[] {
  return change.moves.map(({ from, to }) => {
    const off = endAt(before, from)
    const on = endAt(after, to)
    const reuse =
      off !== undefined &&
      on !== undefined &&
      contactAt(bench.before, off)?.id === contactAt(bench.after, on)?.id
    const loosen = off ? release(bench.before, off) : undefined
    const attach = on ? fasten(bench.after, on, { reuse: reuse && off.half !== undefined }) : undefined
    const kind = after.kind === 'shield' ? 'shield ' : ''
    if (to === undefined)
      return step(
        `Take ${kind}${before.id} off ${from}: ${loosen ?? 'part it'}; cut it back and insulate the end.`,
      )
    if (from === undefined) return step(`Land ${kind}${after.id} at ${to}: ${attach ?? 'terminate it'}.`)
    return step(
      `Move ${kind}${before.id} from ${from} to ${to}: ${[loosen, attach].filter((one) => one !== undefined).join('; ')}.`,
    )
  })
}

/** Values that can only be had by another piece of wire. */
const NEW_WIRE: ReadonlySet<string> = new Set(['colour', 'size', 'part'])

function valueSteps(change: ThingChange, after: Conductor): ReworkStep[] {
  const renew = change.values.filter(({ field }) => NEW_WIRE.has(field))
  const length = change.values.find(({ field }) => field === 'length')
  if (renew.length > 0) return [step(`Replace ${after.id} by ${conductorFacts(after)}: ${endsText(after)}.`)]
  const steps: ReworkStep[] = []
  if (length)
    steps.push(
      step(
        `Check the length of ${after.id}: ${length.before ?? 'not stated'} before, ${length.after ?? 'not stated'} now. Too short: replace it; too long: it may stay when its slack can be tied up.`,
      ),
    )
  for (const { field, before, after: now } of change.values) {
    if (field === 'core')
      steps.push(step(`Change ${after.id} from core ${before ?? '?'} to core ${now ?? '?'} at both ends.`))
    if (field === 'pair')
      steps.push(
        step(now === undefined ? `Untwist ${after.id} from ${before}.` : `Twist ${after.id} with ${now}.`),
      )
    if (field === 'label') steps.push(step(`Re-label ${after.id}: ${now ?? 'no label of its own'}.`))
  }
  return steps
}

function conductorSteps(bench: Bench, change: ThingChange): ReworkStep[] {
  const before = bench.old.get(change.was ?? change.id)
  const after = bench.now.get(change.id)
  if (change.change === 'removed' && before)
    return [
      step(
        `Take out ${change.id} (${conductorFacts(before)}), ${endsText(before)}. Where it cannot be drawn out: cut it back at both ends and cap it.`,
      ),
    ]
  if (change.change === 'added' && after)
    return [step(`Add ${change.id}: ${conductorFacts(after)}, ${endsText(after)}.`)]
  if (!before || !after) return []
  return [
    ...valueSteps(change, after),
    ...moveSteps(bench, change, before, after),
    ...(change.was === undefined ? [] : [step(`Re-label ${change.was} as ${change.id} at both ends.`)]),
  ]
}

const REBUILT: ReadonlySet<string> = new Set(['family', 'half', 'coding'])

function connectorSteps(change: ThingChange): ReworkStep[] {
  const { id } = change
  if (change.change === 'added') return [step(`Fit connector ${id}: ${change.facts}.`)]
  if (change.change === 'removed') return [step(`Take off connector ${id}.`)]
  const rebuilt = change.values.filter(({ field }) => REBUILT.has(field))
  const steps: ReworkStep[] = []
  if (rebuilt.length > 0)
    steps.push(
      step(
        `Replace connector ${id} (${rebuilt.map(({ words, before, after }) => `${words}: ${before ?? 'not stated'} → ${after ?? 'not stated'}`).join('; ')}) and terminate every wire on it again.`,
      ),
    )
  else
    for (const { field, words, before, after } of change.values) {
      if (field === 'label') steps.push(step(`Re-label connector ${id}: ${after ?? 'no label'}.`))
      else if (/contact$|seal$|plugged$|^plugEmpty$/.test(field))
        steps.push(step(`At ${id}, change the ${words}: ${before ?? 'none'} → ${after ?? 'none'}.`))
    }
  if (change.was !== undefined) steps.push(step(`Re-label connector ${change.was} as ${id}.`))
  return steps
}

function branchSteps({ change, id, facts, values }: ThingChange): ReworkStep[] {
  if (change !== 'altered')
    return [step(`Branch ${id} is ${change}${facts ? `, ${facts}` : ''}: lay the loom out again.`)]
  const told = values
    .filter(({ field }) => field === 'length' || field === 'marks')
    .map(({ words, before, after }) => `${words} ${before ?? 'none'} → ${after ?? 'none'}`)
  return told.length > 0 ? [step(`Branch ${id}: ${told.join('; ')}.`)] : []
}

function otherSteps(change: ThingChange): ReworkStep[] {
  if (change.kind === 'branch') return branchSteps(change)
  const word = change.kind === 'component' ? 'part' : change.kind
  if (change.change === 'added') return [step(`Fit ${word} ${change.id}: ${change.facts}.`)]
  if (change.change === 'removed') return [step(`Take out ${word} ${change.id}: ${change.facts}.`)]
  const values = change.values.filter(
    ({ field }) => field === 'part' || field === 'rating' || field === 'length' || field === 'kind',
  )
  const told = values.map(
    ({ words, before, after }) => `${words} ${before ?? 'not stated'} → ${after ?? 'not stated'}`,
  )
  return [
    ...(told.length > 0 ? [step(`Replace ${word} ${change.id}: ${told.join('; ')}.`)] : []),
    ...(change.was === undefined ? [] : [step(`Re-label ${word} ${change.was} as ${change.id}.`)]),
  ]
}

/** The work on the wires: what goes first, then the moves as the cavities come free, then what is new. */
function wireSteps(bench: Bench, wires: readonly ThingChange[]): ReworkStep[] {
  const of = (wanted: ThingChange['change']) => wires.filter(({ change }) => change === wanted)
  const cavities = new Set(
    bench.before.use.halves.flatMap((half) =>
      half.pins.size > 1 ? [...half.pins.values()].map(endName) : [],
    ),
  )
  const { order, rings } = orderMoves(of('altered'), (name) => cavities.has(name))
  const moved = order.flatMap((wire) => {
    const ring = rings
      .get(wire)
      ?.map(({ was, id }) => was ?? id)
      .sort(naturalOrder)
    const ahead = ring && step(`${listed(ring)} change places: release all of them before one goes back in.`)
    return [...(ahead ? [ahead] : []), ...conductorSteps(bench, wire)]
  })
  return [
    ...of('removed').flatMap((one) => conductorSteps(bench, one)),
    ...moved,
    ...of('added').flatMap((one) => conductorSteps(bench, one)),
  ]
}

const listed = (names: readonly string[]): string =>
  `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`

/** What the meter has to say of a conductor that was added, moved or replaced. */
function ringOut(bench: Bench, change: ThingChange): ReworkStep[] {
  const after = bench.now.get(change.id)
  if (!after?.from || !after.to) return []
  const renewed =
    change.change === 'added' ||
    change.moves.length > 0 ||
    change.values.some(({ field }) => NEW_WIRE.has(field) || field === 'core')
  if (!renewed) return []
  const { loom } = bench.after
  const net = loom.netOf[after.from.index]
  const left = change.moves
    .map(({ from }) => endAt(bench.old.get(change.was ?? change.id), from))
    .flatMap((terminal) => (terminal ? [terminalNow(bench, terminal)] : []))
    .filter((terminal) => terminal !== undefined && loom.netOf[terminal.index] !== net)
  const open = left
    .map((terminal) => (terminal ? `, ${endName(after.from as Terminal)} to ${endName(terminal)} open` : ''))
    .join('')
  return [step(`Ring out ${change.id}: ${endName(after.from)} to ${endName(after.to)} closed${open}.`)]
}

/** The old terminal's place in the new loom. */
function terminalNow({ before, after, match }: Bench, terminal: Terminal): Terminal | undefined {
  const half: Half | undefined = match.halves.kept.find(([one]) => one === terminal.half)?.[1]
  return half
    ? half.pins.get(terminal.name)
    : after.loom.terminalAt.get(terminal.address.replace(before.use.id, after.use.id))
}

/** The work on a loom that was built to the old revision. Empty when nothing of it has to be touched. */
export function reworkOf(
  subject: SubjectChange,
  before: PlacedHarness,
  after: PlacedHarness,
  match: HarnessMatch,
): Rework | undefined {
  const bench: Bench = {
    before,
    after,
    match,
    old: new Map(
      [...match.conductors.kept.map(([one]) => one), ...match.conductors.removed].map((one) => [one.id, one]),
    ),
    now: new Map(
      [...match.conductors.kept.map(([, two]) => two), ...match.conductors.added].map((one) => [one.id, one]),
    ),
  }
  const physical = subject.things.filter((thing) => thing.physical)
  const isWire = ({ kind }: ThingChange) => kind === 'conductor' || kind === 'shield'
  const parts = physical.filter((thing) => !isWire(thing) && thing.kind !== 'field')
  const wires = physical.filter(isWire)
  const steps = [
    ...parts
      .filter(({ change }) => change === 'added')
      .flatMap((one) => (one.kind === 'connector' ? connectorSteps(one) : otherSteps(one))),
    ...wireSteps(bench, wires),
    ...parts
      .filter(({ change }) => change !== 'added')
      .flatMap((one) => (one.kind === 'connector' ? connectorSteps(one) : otherSteps(one))),
    ...wires.flatMap((one) => ringOut(bench, one)),
  ]
  if (steps.length === 0) return undefined
  const revision = after.harness.revision
  return {
    harness: after.harness.id,
    title: after.harness.title,
    steps: [
      step('Isolate the supply first: battery negative off, fuses out, nothing live on this loom.'),
      ...steps,
      step(
        `Mark the loom as reworked${revision === undefined ? '' : ` to revision ${revision}`} and date it.`,
      ),
    ],
  }
}
