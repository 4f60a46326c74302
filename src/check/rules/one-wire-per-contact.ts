import type { Loom, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { count, found, listOf } from '../outcome.ts'
import { contactOf } from '../queries/contact-of.ts'
import { crowdedContacts } from '../queries/crowded-contacts.ts'
import type { Rule } from '../rule.ts'

const example = (wires?: number) =>
  exampleLead({
    parts: [
      rowHousing(4),
      {
        kind: 'contact',
        id: 'crimp-small',
        title: 'Small crimp contact',
        join: 'crimp',
        area: '0.2..0.5 mm²',
        tool: 'Open-barrel tool, small die',
        ...(wires ? { wires } : {}),
      },
    ],
    equipment: [
      unitOf(
        'box',
        socket('J1', 'row-4', { '1': { kind: 'signal-return' }, '2': { kind: 'signal-return' } }),
      ),
      unitOf('panel', socket('J2', 'row-4', { '1': { kind: 'signal-return' } })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'box.J1', contact: 'crimp-small' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'panel.J2', contact: 'crimp-small' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.22 mm²' },
        { id: 'A02', from: 'P1.2', to: 'P2.1', size: '0.22 mm²' },
      ],
    },
  })

/** How many conductors the contact may take, and how that was come by; undefined for joints that take what fits. */
function capacity(
  loom: Loom,
  contact: Terminal,
): { readonly wires: number; readonly assumed: readonly string[] } | undefined {
  const { options, named } = contactOf(loom.parts, contact)
  if (options.length > 0 && options.every((option) => option.join === 'solder' || option.join === 'screw'))
    return undefined
  const wires = Math.max(1, ...options.map((option) => option.wires ?? 1))
  return {
    wires,
    assumed: named && options.length > 0 ? [] : ['a crimp contact takes one wire unless its part says more'],
  }
}

export const oneWirePerContact: Rule = {
  id: 'one-wire-per-contact',
  title: 'A contact takes one wire unless it is rated for more',
  family: 'crimping',
  level: 'warning',
  covers: ['P2'],
  reason:
    'Two wires in a barrel made for one are held no better than the thinner of them. It passes a tug on the bench and opens in service.',
  remedy:
    'Splice before the plug, use a bridge between two cavities, or choose a contact rated for two wires.',
  needs: 'how many wires the contact may take',
  sources: [
    "a contact maker's crimp handbook: a double crimp is no better than its smallest wire",
    'common practice',
  ],
  examples: { trips: example(), passes: example(2) },
  *check({ loom }) {
    for (const { contact, wires } of crowdedContacts(loom)) {
      const rated = capacity(loom, contact)
      if (!rated || wires.length <= rated.wires) continue
      const names = wires.map((wire) => wire.id)
      yield found({
        subject: contact.address,
        what: `${contact.address} takes ${count(wires.length, 'wire')} in a contact for ${rated.wires}: ${listOf(names)}`,
        why: 'The barrel grips the thinner wire least, and it works loose first.',
        fix: `Splice ${listOf(names)} into one tail, or use a contact rated for ${wires.length} wires.`,
        assumed: rated.assumed,
        facts: {
          wires: { value: wires.length },
          rated: { value: rated.wires },
          contact: { value: contact.name },
        },
        at: wires[1]?.at ?? contact.at,
        cause: `contact:${contact.address}`,
        marks: [contact.address, ...wires.map((wire) => wire.address)],
      })
    }
  },
}
