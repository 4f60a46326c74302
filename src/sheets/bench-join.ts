import { formatAmps, formatNewtons } from '../base/format-quantity.ts'
import { naturalOrder } from '../base/natural-order.ts'
import type { ContactPart } from '../describe/part.ts'
import type { ComponentUse, Loom, LoomUse, Terminal } from '../resolve/loom.ts'
import { type BenchFact, type ConductorEnd, listed, type StepDraft, said } from './bench-step.ts'
import { endName, endsAt, wireFacts } from './bench-wire.ts'
import { type Crimp, type CrimpGroup, crimpGroups, gripText, JOINED, samplePullN } from './crimp-sheet.ts'
import { stripText } from './fitting.ts'
import { groupBy } from './group-by.ts'
import { wireLabel } from './label-text.ts'
import { type Landings, landingsAt } from './landings.ts'
import { pinName, sizeText } from './names.ts'

const VERBS = {
  crimp: 'Crimp',
  solder: 'Solder',
  screw: 'Clamp',
  'punch-down': 'Punch down',
  pierce: 'Lay in',
} as const satisfies Record<ContactPart['join'], string>

/** A contact that is made on the wire and pushed into its cavity afterwards. */
export const isInserted = ({ half, fitting }: Crimp): boolean =>
  half.pins.size > 1 && (fitting.contact?.join ?? 'crimp') === 'crimp'

/** Every joint of a loom by tool set-up, so that a die is changed once; then splices and parts in the run. */
export function joinSteps(loom: Loom, use: LoomUse, landings: Landings): StepDraft[] {
  return [
    ...crimpGroups(loom, use).flatMap((group) => [
      ...sampleSteps(group),
      ...group.crimps.map((crimp) => contactStep(loom, crimp)),
    ]),
    ...spliceSteps(loom, use, landings),
    ...partSteps(loom, use, landings),
  ]
}

const SET_UP_NOTE = 'Set the tool up once and make every joint of this block.'

/** One sample for each least force within a set-up. */
function sampleSteps({ title, crimps }: CrimpGroup): StepDraft[] {
  const known = crimps.flatMap((crimp) => {
    const newtons = samplePullN(crimp.fitting, crimp.wires[0])
    return newtons === undefined ? [] : [{ newtons, size: sizeText(crimp.wires[0]?.size) }]
  })
  return [...groupBy(known, ({ newtons }) => newtons)].map(([newtons, list]) => ({
    stage: 'join',
    section: title,
    note: SET_UP_NOTE,
    what: 'Pull a sample crimp apart',
    facts: said([
      { name: 'Holds at least', text: formatNewtons(newtons), big: true },
      { name: 'Wire', text: listed([...new Set(list.map(({ size }) => size))]), big: true },
      {
        name: 'How',
        text: 'Crimp an offcut of the same wire with this contact, tool and die before the first good one.',
      },
      { name: 'No pull gauge', text: 'Skip the step and say so in the note; the record shows it.' },
    ]),
    ask: 'force',
    min: newtons,
  }))
}

function contactStep(loom: Loom, crimp: Crimp): StepDraft {
  const { half, terminal, wires, fitting } = crimp
  const { contact, contactId } = fitting
  const ends = endsAt(wires, terminal)
  const strip = stripText(fitting)
  const pierces = contact?.join === 'pierce'
  const verb = contact ? VERBS[contact.join] : 'Join'
  const where = pinName(terminal)
  return {
    stage: 'join',
    section: crimp.setUp,
    note: SET_UP_NOTE,
    what: `${verb} ${listed(ends.map(endName))}${isInserted(crimp) ? '' : `, ${half.pins.size === 1 ? 'on' : 'into'} ${where}`}`,
    facts: said([
      ...wireFacts(ends),
      { name: 'Strip', text: strip ? `${strip} mm` : pierces ? 'do not strip' : 'not stated', big: true },
      { name: 'For', text: where, big: true },
      { name: 'Contact', text: contactText(contactId, contact, fitting.usual) },
      { name: contact ? JOINED[contact.join] : 'Tool', text: toolText(contactId, contact) },
      {
        name: 'Seal on first',
        text: fitting.sealId ? `${fitting.sealId}${fitting.seal ? `, ${fitting.seal.title}` : ''}` : '',
      },
      ...labelFacts(loom, ends),
      { name: 'Insulation', text: wires[0] ? gripText(fitting, wires[0]) : '' },
    ]),
    ask: 'done',
    a: [terminal],
    joins: ends,
    settles: isInserted(crimp) ? [] : [terminal],
  }
}

function contactText(id: string | undefined, contact: ContactPart | undefined, usual: boolean): string {
  if (id === undefined) return 'not stated'
  return `${id}${contact ? `, ${contact.title}` : ''}${usual ? ' (the usual one)' : ''}`
}

const toolText = (id: string | undefined, contact: ContactPart | undefined): string =>
  contact?.tool ?? (id === undefined ? 'find the contact and its tool first' : 'tool not stated')

/** The label that goes on before the contact does; cores of a cable have none of their own. */
function labelFacts(loom: Loom, ends: readonly ConductorEnd[]): BenchFact[] {
  return ends
    .filter(({ conductor }) => conductor.kind === 'wire')
    .map(({ conductor, end }) => ({
      name: 'Label on first',
      text: wireLabel(loom, conductor, end === 'A' ? 'from' : 'to').text,
    }))
}

/** The conductors' ends on each terminal of one kind, terminals in order of their address. */
function landedOn(loom: Loom, use: LoomUse, landings: Landings, on: Terminal['on']) {
  const own = loom.conductors.filter((conductor) => conductor.loom === use)
  const terminals = own.flatMap(({ from, to }) => [from, to]).filter((end) => end?.on === on)
  return [...new Set(terminals)]
    .filter((terminal) => terminal !== undefined)
    .sort((a, b) => naturalOrder(a.address, b.address))
    .map((terminal) => ({ terminal, ends: endsAt(landingsAt(landings, terminal), terminal) }))
}

function spliceSteps(loom: Loom, use: LoomUse, landings: Landings): StepDraft[] {
  return landedOn(loom, use, landings, 'splice').map(({ terminal, ends }) => {
    const source = use.harness.splices?.find(({ id }) => id === terminal.name)
    return {
      stage: 'join',
      section: 'Splices',
      note: 'Slide the sleeve on before you join; cover the joint when it is cold.',
      what: `Splice ${terminal.name}: ${listed(ends.map(endName))}`,
      facts: said([
        ...wireFacts(ends),
        { name: 'Kind', text: source?.kind ? `${source.kind} splice` : 'kind not stated', big: true },
        { name: 'Place', text: source?.zone ?? '' },
        { name: 'Note', text: source?.note ?? '' },
        ...labelFacts(loom, ends),
      ]),
      ask: 'done',
      joins: ends,
    }
  })
}

function partSteps(loom: Loom, use: LoomUse, landings: Landings): StepDraft[] {
  return landedOn(loom, use, landings, 'component').map(({ terminal, ends }) => ({
    stage: 'join',
    section: 'Fuses and parts in the run',
    note: 'Mind which way round: the terminal named is the one that counts.',
    what: `Join ${listed(ends.map(endName))}, to ${pinName(terminal)}`,
    facts: said([
      ...wireFacts(ends),
      { name: 'Part', text: terminal.component ? partText(terminal.component) : '', big: true },
      { name: 'Terminal', text: terminalText(terminal), big: true },
      ...labelFacts(loom, ends),
    ]),
    ask: 'done',
    a: [terminal],
    joins: ends,
  }))
}

function partText({ source, id, fusePart }: ComponentUse): string {
  const rating = source.kind === 'fuse' ? (source.rating ?? fusePart?.rating) : undefined
  return [`${source.kind} ${id}`, rating === undefined ? '' : formatAmps(rating), source.title ?? '']
    .filter((text) => text !== '')
    .join(', ')
}

const SIDES: Readonly<Record<string, string>> = { a: 'a, anode', k: 'k, cathode: the ring on the body' }

const terminalText = (terminal: Terminal): string =>
  (terminal.component?.source.kind === 'diode' ? SIDES[terminal.name] : undefined) ?? terminal.name
