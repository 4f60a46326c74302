import type { Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, listOf } from '../outcome.ts'
import { landings, matedPins } from '../queries/landings.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Rule } from '../rule.ts'

const example = (to: string) =>
  exampleLead({
    parts: [rowHousing(4)],
    equipment: [
      unitOf('box', socket('J1', 'row-4', { '1': { kind: 'signal-return' }, '2': { kind: 'reserved' } })),
      unitOf('panel', socket('J2', 'row-4', { '1': { kind: 'signal-return' } })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'box.J1' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'panel.J2' },
      ],
      wires: [{ id: 'A01', from: to, to: 'P2.1', size: '0.22 mm²' }],
    },
  })

const forbidden = (pin: Terminal): boolean =>
  pin.does.connect === 'never' || (pin.does.kind === 'reserved' && pin.does.connect === undefined)

export const neverConnect: Rule = {
  id: 'never-connect',
  title: 'Reserved pins stay free',
  family: 'pins',
  level: 'stop',
  covers: ['P5'],
  reason:
    'A pin marked "do not connect" may carry a factory bus, a supply or a programming line. A wire on it can stop or damage the equipment, at once or at the next software update.',
  remedy: 'Take the wire out and leave the cavity empty.',
  needs: 'pins of kind "reserved", or with connect "never"',
  sources: ['common practice'],
  examples: { trips: example('P1.2'), passes: example('P1.1') },
  *check({ loom }) {
    const wired = landings(loom)
    for (const half of loom.halves) {
      if (half.side !== 'equipment') continue
      for (const pin of half.pins.values()) {
        if (!forbidden(pin)) continue
        const wires = [pin, ...matedPins(loom, pin)].flatMap((terminal) => wired.get(terminal) ?? [])
        const first = wires[0]
        if (!first) continue
        const names = listOf(wires.map((wire) => wire.id))
        yield found({
          subject: pin.address,
          what: `${names} lands on ${pinWords(pin)}, which is not to be connected`,
          why: pin.does.note ? `Its pinout says: ${pin.does.note}` : 'Its pinout reserves it.',
          fix: `Take ${names} out of ${half.mate?.address ?? half.address}.${pin.name}; look for the pin it was meant for.`,
          facts: { pin: { value: pin.name }, wires: { value: wires.map((wire) => wire.id).join(' ') } },
          at: first.at,
          marks: [pin.address, ...wires.map((wire) => wire.address)],
        })
      }
    }
  },
}
