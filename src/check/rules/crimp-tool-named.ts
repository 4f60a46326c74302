import type { ContactPart } from '../../describe/part.ts'
import type { Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { count, found, listOf } from '../outcome.ts'
import { contactOf } from '../queries/contact-of.ts'
import { landings } from '../queries/landings.ts'
import type { Rule } from '../rule.ts'

const example = (tool: string | undefined) =>
  exampleLead({
    parts: [
      rowHousing(2),
      {
        kind: 'contact',
        id: 'crimp-new',
        title: 'Contact off a new reel',
        join: 'crimp',
        area: '0.5..1.5 mm²',
        ...(tool ? { tool } : {}),
      },
    ],
    equipment: [
      unitOf('box', socket('J1', 'row-2', { '1': { name: 'A' } })),
      unitOf('panel', socket('J2', 'row-2', { '1': { name: 'A' } })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'box.J1', contact: 'crimp-new' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'panel.J2', contact: 'crimp-new' },
      ],
      wires: [{ id: 'A01', from: 'P1.1', to: 'P2.1', size: '1 mm²' }],
    },
  })

interface Use {
  readonly contact: ContactPart
  readonly at: Terminal
  readonly wires: Conductor[]
}

/** Contacts that are squeezed with a tool, with the wires that get them. Where several would do, the shop has not chosen yet. */
function squeezed(loom: Loom): Iterable<Use> {
  const uses = new Map<string, Use>()
  for (const [terminal, wires] of landings(loom)) {
    const { options } = contactOf(loom.parts, terminal)
    const [contact] = options
    if (!contact || options.length > 1 || (contact.join !== 'crimp' && contact.join !== 'pierce')) continue
    const use = uses.get(contact.id) ?? { contact, at: terminal, wires: [] }
    uses.set(contact.id, use)
    use.wires.push(...wires)
  }
  return uses.values()
}

export const crimpToolNamed: Rule = {
  id: 'crimp-tool-named',
  title: 'The tool and die of each crimp are named',
  family: 'crimping',
  level: 'warning',
  covers: ['C5'],
  reason:
    'A crimp is only as good as its die. Where the paper names none, the bench takes the tool that lies there, and the joint passes a look and fails a pull.',
  remedy: 'Name the tool and die with the contact; buy or borrow it, or buy leads with the contact on.',
  needs: '"tool" of each contact',
  sources: ['FAA AC 43.13-1B ¶11-178', 'FCS 1362:2010 §4.2.5.2'],
  examples: { trips: example(undefined), passes: example('Open-barrel tool, 0.5–1.5 die') },
  *check({ loom }) {
    for (const { contact, at, wires } of squeezed(loom)) {
      if (contact.tool !== undefined) continue
      const ids = [...new Set(wires.map(({ id }) => id))]
      yield found({
        subject: at.half?.address ?? at.address,
        what: `No tool and die are named for the contact ${contact.id}`,
        why: `${count(wires.length, 'crimp')} with it (${listOf(ids)}), and ${contact.title} takes one die and no other.`,
        fix: `State the tool of ${contact.id}, die or locator position included, as its maker gives it.`,
        facts: { contact: { value: contact.id }, crimps: { value: wires.length } },
        at: at.half?.at ?? at.at,
        cause: `tool:${contact.id}`,
        marks: [at.address],
      })
    }
  },
}
