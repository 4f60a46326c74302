import type { Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { contactOf } from '../queries/contact-of.ts'
import { landings } from '../queries/landings.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (strands: number) =>
  exampleLead({
    parts: [
      rowHousing(2),
      { kind: 'wire', id: 'bell-wire', title: 'Example wire', size: '0.5 mm²', od: '1.6 mm', strands },
      {
        kind: 'contact',
        id: 'crimp-small',
        title: 'Small crimp contact',
        join: 'crimp',
        area: '0.2..0.5 mm²',
        tool: 'Open-barrel tool, small die',
      },
    ],
    equipment: [
      unitOf('box', socket('J1', 'row-2', { '1': { name: 'A' } })),
      unitOf('panel', socket('J2', 'row-2', { '1': { name: 'A' } })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'box.J1', contact: 'crimp-small' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'panel.J2', contact: 'crimp-small' },
      ],
      wires: [{ id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.5 mm²', part: 'bell-wire' }],
    },
  })

type Fault = 'solid' | 'soldered'

const partOf = ({ wirePart, cable }: Conductor) => wirePart ?? cable?.part

function faultOf(wire: Conductor): Fault | undefined {
  if ('soldered' in wire.source && wire.source.soldered) return 'soldered'
  return partOf(wire)?.strands === 1 ? 'solid' : undefined
}

/** Whether the joint at a terminal is a crimp: of a contact, or of a splice. */
function isCrimp(loom: Loom, terminal: Terminal, crimpSplices: ReadonlySet<Terminal>): boolean {
  if (crimpSplices.has(terminal)) return true
  const { options } = contactOf(loom.parts, terminal)
  return options.length > 0 && options.every(({ join }) => join === 'crimp')
}

function report(wire: Conductor, at: Terminal, fault: Fault): Outcome {
  const solid = fault === 'solid'
  return found({
    subject: wire.address,
    what: `${wire.id} is ${solid ? 'solid' : 'dipped in solder'} and is crimped at ${at.address}`,
    why: solid
      ? `1 strand: the barrel makes two line contacts with it and no gas-tight joint, and the wire works loose.`
      : 'Solder creeps under the pressure of the barrel: the joint is tight on the day and loose in a year.',
    fix: solid
      ? `Use stranded wire for ${wire.id}.`
      : `Cut the soldered end off ${wire.id} and crimp clean strands.`,
    facts: { fault: { value: fault } },
    at: wire.at,
    marks: [wire.address, at.address],
  })
}

function splicesThatAreCrimps(loom: Loom): ReadonlySet<Terminal> {
  const joints = loom.looms.flatMap((use) =>
    (use.harness.splices ?? []).flatMap(({ id, kind }) =>
      kind === 'crimp' ? (loom.terminalAt.get(`${use.id}.${id}`) ?? []) : [],
    ),
  )
  return new Set(joints)
}

export const crimpOnStrands: Rule = {
  id: 'crimp-on-strands',
  title: 'Crimps close on bare strands',
  family: 'crimping',
  level: 'stop',
  covers: ['C6'],
  reason:
    'A crimp works because many strands are pressed into one another until no air is left. A solid wire or a lump of solder gives it nothing to press, and the joint heats up.',
  remedy: 'Stranded wire; a cut, clean end.',
  needs: 'the wire part of each wire with its "strands" (stranded when left out), and "soldered" ends',
  sources: ['NASA-STD-8739.4 ¶4.3'],
  examples: { trips: example(1), passes: example(16) },
  *check({ loom }) {
    const splices = splicesThatAreCrimps(loom)
    const told = new Set<Conductor>()
    const missing: string[] = []
    for (const [terminal, wires] of landings(loom)) {
      if (!isCrimp(loom, terminal, splices)) continue
      for (const wire of wires) {
        if (told.has(wire) || wire.kind === 'shield') continue
        told.add(wire)
        const fault = faultOf(wire)
        if (fault) yield report(wire, terminal, fault)
        else if (!partOf(wire)) missing.push(wire.id)
      }
    }
    if (missing.length > 0)
      yield unknown(loom.id, `needs the wire part of ${listOf(missing)}: solid or stranded`, loom.at)
  },
}
