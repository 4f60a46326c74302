import type { DocumentInput } from '../../describe/document.ts'
import type { Conductor, Loom } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import { type TwoLegs, twoLegs } from '../queries/differential.ts'
import { landings, matedPins } from '../queries/landings.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (hot: string, cold: string): DocumentInput =>
  exampleLead({
    parts: [
      rowHousing(4),
      {
        kind: 'cable',
        id: 'two-pair',
        title: 'Two twisted pairs 0.22 mm²',
        cores: [
          { name: '1', size: '0.22 mm²', pair: 'pair1' },
          { name: '2', size: '0.22 mm²', pair: 'pair1' },
          { name: '3', size: '0.22 mm²', pair: 'pair2' },
          { name: '4', size: '0.22 mm²', pair: 'pair2' },
        ],
      },
    ],
    equipment: [
      unitOf(
        'radio',
        socket('J1', 'row-4', {
          '1': { kind: 'audio-out', level: 'line', leg: 'hot', port: 'RX', name: 'RX+' },
          '2': { kind: 'audio-out', level: 'line', leg: 'cold', port: 'RX', name: 'RX-' },
        }),
      ),
      unitOf(
        'modem',
        socket('J2', 'row-4', {
          '1': { kind: 'audio-in', level: 'line', leg: 'hot', port: 'IN', name: 'RX+' },
          '2': { kind: 'audio-in', level: 'line', leg: 'cold', port: 'IN', name: 'RX-' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'radio.J1' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'modem.J2' },
      ],
      cables: [
        {
          id: 'W1',
          part: 'two-pair',
          spareCores: 'folded-back',
          cores: [
            { core: hot, from: 'P1.1', to: 'P2.1' },
            { core: cold, from: 'P1.2', to: 'P2.2' },
          ],
        },
      ],
    },
  })

/** The one conductor on a pin, if it is one: branched legs have no one pair. */
function legOf(loom: Loom, lands: ReturnType<typeof landings>, pin: TwoLegs['hot']): Conductor | undefined {
  const wires = [pin, ...matedPins(loom, pin)]
    .flatMap((terminal) => lands.get(terminal) ?? [])
    .filter((wire) => wire.kind !== 'shield')
  return wires.length === 1 ? wires[0] : undefined
}

const pairName = (wire: Conductor): string =>
  wire.pair === undefined ? `no pair (${wire.address})` : (wire.pair.split('.').at(-1) ?? wire.pair)

function split(legs: TwoLegs, hot: Conductor, cold: Conductor): Outcome {
  const pairs = [hot.pair ?? hot.address, cold.pair ?? cold.address].sort()
  return found({
    subject: legs.hot.address,
    what: `Port ${legs.name} of ${legs.half.address} is split over two pairs: ${hot.id} on ${pairName(hot)}, ${cold.id} on ${pairName(cold)}`,
    why: `${pinWords(legs.hot)} and ${pinWords(legs.cold)} carry one signal; on different pairs each couples into its neighbour and the twist cancels nothing. Ringing out at DC will not find it.`,
    fix: `Move ${cold.id} to the core twisted with ${hot.id}.`,
    facts: {
      port: { value: legs.name },
      hotPair: { value: pairName(hot) },
      coldPair: { value: pairName(cold) },
    },
    at: cold.at,
    cause: `split:${pairs.join('+')}`,
    marks: [legs.hot.address, legs.cold.address, hot.address, cold.address],
  })
}

export const pairLegsTogether: Rule = {
  id: 'pair-legs-together',
  title: 'Both legs of a balanced port ride one twisted pair',
  family: 'audio',
  level: 'warning',
  covers: ['A14'],
  reason:
    'A pair rejects noise because both legs see the same of it. Legs on two pairs pick up hum, buzz and the other signal, and a continuity test finds nothing wrong.',
  remedy: 'Swap cores so that hot and cold of each port share a pair.',
  needs: 'legs and ports of the pins, and the pairs of the cable',
  sources: ['cable-tester manuals on split pairs, as reported', 'common practice'],
  examples: { trips: example('1', '3'), passes: example('1', '2') },
  *check({ loom }) {
    const lands = landings(loom)
    const told = new Set<string>()
    for (const half of loom.halves) {
      if (half.side !== 'equipment') continue
      for (const legs of twoLegs(half)) {
        const hot = legOf(loom, lands, legs.hot)
        const cold = legOf(loom, lands, legs.cold)
        if (!hot || !cold || hot === cold || hot.pair === cold.pair) continue
        const both = [hot.address, cold.address].sort().join('+')
        if (told.has(both)) continue
        told.add(both)
        yield split(legs, hot, cold)
      }
    }
  },
}
