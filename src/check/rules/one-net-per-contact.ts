import type { Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import { throughFuses, walk } from '../../solve/reach.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf, unknown } from '../outcome.ts'
import { clash, mayClash } from '../queries/belongs-together.ts'
import { crowdedContacts } from '../queries/crowded-contacts.ts'
import { farEnd } from '../queries/landings.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Rule } from '../rule.ts'

const example = (second: string) =>
  exampleLead({
    parts: [rowHousing(4)],
    equipment: [
      unitOf(
        'radio',
        socket('J1', 'row-4', {
          '1': { kind: 'audio-out', level: 'line', leg: 'hot', port: 'RX' },
          '2': { kind: 'audio-in', level: 'line', leg: 'hot', port: 'TX' },
        }),
      ),
      unitOf('modem', socket('J2', 'row-4', { '1': {}, '2': {} })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'radio.J1' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'modem.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.22 mm²' },
        { id: 'A02', from: 'P1.2', to: second, size: '0.22 mm²' },
      ],
    },
  })

interface Branch {
  readonly wire: Conductor
  readonly pins: readonly Terminal[]
}

function branches(loom: Loom, contact: Terminal, wires: readonly Conductor[]): Branch[] {
  return wires.flatMap((wire) => {
    const far = farEnd(wire, contact)
    if (!far || far === contact) return []
    const beyond = walk(
      loom,
      far,
      (link, from) => throughFuses(link, from) && link.a !== contact && link.b !== contact,
    )
    return [{ wire, pins: beyond.order.filter((pin) => pin.on === 'equipment') }]
  })
}

/** The first two pins of different branches that can never be meant to be one net. */
function firstClash(all: readonly Branch[]): readonly [Branch, Terminal, Branch, Terminal] | undefined {
  if (!mayClash(all.flatMap(({ pins }) => pins))) return undefined
  for (const [index, one] of all.entries())
    for (const two of all.slice(index + 1))
      for (const a of one.pins) for (const b of two.pins) if (clash(a, b)) return [one, a, two, b]
  return undefined
}

export const oneNetPerContact: Rule = {
  id: 'one-net-per-contact',
  title: 'A contact carries one net',
  family: 'pins',
  level: 'stop',
  covers: ['P1'],
  reason:
    'Two wires in one contact are one net, whatever the drawing means. Two outputs fight each other, or a supply reaches a signal pin.',
  remedy:
    'Give the second wire a cavity of its own; where the two are meant to be one, splice them before the plug.',
  needs: 'the functions of the pins at the far ends of the wires',
  sources: ['common practice'],
  examples: { trips: example('P2.1'), passes: example('P2.2') },
  *check({ loom }) {
    for (const { contact, wires } of crowdedContacts(loom)) {
      const all = branches(loom, contact, wires)
      const hit = firstClash(all)
      const names = wires.map((wire) => wire.id)
      if (hit) {
        const [one, a, two, b] = hit
        yield found({
          subject: contact.address,
          what: `${contact.address} joins two nets that do not belong together: ${one.wire.id} and ${two.wire.id}`,
          why: `${one.wire.id} leads to ${pinWords(a)}, ${two.wire.id} to ${pinWords(b)}.`,
          fix: `Move ${two.wire.id} to a contact of its own.`,
          facts: { wires: { value: names.join(' ') }, contact: { value: contact.name } },
          at: two.wire.at,
          cause: `contact:${contact.address}`,
          marks: [contact.address, ...wires.map((wire) => wire.address)],
        })
      } else if (all.some(({ pins }) => !pins.some((pin) => pin.does.kind !== 'unstated')))
        yield unknown(
          contact.address,
          `needs what the pins at the far ends of ${listOf(names)} do`,
          contact.at,
        )
    }
  },
}
