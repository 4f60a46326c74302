import type { Half, Loom, Terminal } from '../../resolve/loom.ts'
import type { Paths } from '../../solve/paths.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import { twoLegs } from '../queries/differential.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Rule } from '../rule.ts'

const example = (note?: string) =>
  exampleLead({
    parts: [rowHousing(3)],
    equipment: [
      unitOf(
        'desk',
        socket('J1', 'row-3', {
          '1': { kind: 'signal-return' },
          '2': { kind: 'audio-out', level: 'line', leg: 'hot', port: 'OUT' },
          '3': { kind: 'audio-out', level: 'line', leg: 'cold', port: 'OUT' },
        }),
      ),
      unitOf(
        'pager',
        socket('J2', 'row-3', {
          '1': { kind: 'signal-return' },
          '2': { kind: 'audio-in', level: 'line', leg: 'single' },
        }),
      ),
    ],
    harness: {
      connectors: [
        {
          id: 'P1',
          family: 'row-3',
          half: 'pin',
          fits: 'desk.J1',
          ...(note === undefined ? {} : { pins: { '3': { note } } }),
        },
        { id: 'P2', family: 'row-3', half: 'pin', fits: 'pager.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.2', to: 'P2.2', size: '0.22 mm²' },
        { id: 'A02', from: 'P1.1', to: 'P2.1', size: '0.22 mm²' },
      ],
    },
  })

/** What the pin list of the plug says about a cavity that is left empty: that is the declared method. */
function declared(half: Half, pin: Terminal): boolean {
  return half.mates.some(({ source }) => {
    const pins = source.pins as Readonly<Record<string, { readonly note?: string | undefined }>> | undefined
    return pins !== undefined && Object.hasOwn(pins, pin.name) && pins[pin.name]?.note !== undefined
  })
}

const wired = (paths: Paths, pin: Terminal): boolean => paths.nets.conductorsAt(pin).length > 0

/** A cold leg that something inside the equipment takes care of is no matter of the loom. */
const joinedInside = (loom: Loom, pin: Terminal): boolean =>
  (loom.linksAt[pin.index] ?? []).some((link) => link.kind === 'join' || link.kind === 'bond')

export const coldLegAccounted: Rule = {
  id: 'cold-leg-accounted',
  title: 'The cold leg of a balanced port is accounted for',
  family: 'audio',
  level: 'warning',
  covers: ['A12'],
  reason:
    'Joining balanced to unbalanced equipment can be done in several ways, and which is right depends on the output stage. A cold leg that just hangs costs 6 dB, lets hum in, or overloads an output, and nobody knows whether it was meant.',
  remedy:
    'Wire the cold leg by an approved lead drawing, fit a transformer, or note at its cavity why it is left open.',
  needs: 'legs of the pins; a note at the cavity where the cold leg is left open on purpose',
  sources: ['common practice of sound system interconnection, as reported'],
  examples: { trips: example(), passes: example('left open: the output stage is impedance-balanced') },
  *check({ loom, paths }) {
    for (const half of loom.halves) {
      if (half.side !== 'equipment' || half.mates.length === 0) continue
      for (const { name, hot, cold } of twoLegs(half)) {
        if (hot.does.kind === 'data' || !wired(paths, hot) || wired(paths, cold)) continue
        if (joinedInside(loom, cold) || declared(half, cold)) continue
        const plug = half.mate ?? half
        yield found({
          subject: cold.address,
          what: `The cold leg of port ${name} of ${half.address} is left open, and nothing says why`,
          why: `${pinWords(hot)} is wired and ${pinWords(cold)} is not: half the signal is lost, or the return of it.`,
          fix: `Wire ${plug.address}.${cold.name} by the lead drawing for this join, or note at that cavity why it is open.`,
          facts: { port: { value: name }, cold: { value: cold.address } },
          at: plug.at,
          marks: [hot.address, cold.address],
        })
      }
    }
  },
}
