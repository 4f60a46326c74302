import type { PinFunction } from '../../describe/function.ts'
import type { Net, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Rule } from '../rule.ts'

const example = (hot: string, cold: string) =>
  exampleLead({
    parts: [rowHousing(4)],
    equipment: [
      unitOf(
        'desk',
        socket('J1', 'row-4', {
          '1': { kind: 'audio-out', level: 'line', leg: 'hot', port: 'OUT' },
          '2': { kind: 'audio-out', level: 'line', leg: 'cold', port: 'OUT' },
        }),
      ),
      unitOf(
        'recorder',
        socket('J2', 'row-4', {
          '1': { kind: 'audio-in', level: 'line', leg: 'hot', port: 'IN' },
          '2': { kind: 'audio-in', level: 'line', leg: 'cold', port: 'IN' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'desk.J1' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'recorder.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: hot, pair: 'TP1', size: '0.22 mm²' },
        { id: 'A02', from: 'P1.2', to: cold, pair: 'TP1', size: '0.22 mm²' },
      ],
    },
  })

type Leg = 'hot' | 'cold'

/** Loudspeakers are left out: in series the cold of one meets the hot of the next, and polarity is another question. */
function legOf(does: PinFunction, kind: 'audio-out' | 'audio-in'): Leg | undefined {
  if (does.kind !== kind || does.level === 'speaker') return undefined
  return does.leg === 'hot' || does.leg === 'cold' ? does.leg : undefined
}

function legsOn(net: Net, kind: 'audio-out' | 'audio-in'): readonly (readonly [Terminal, Leg])[] {
  return net.terminals.flatMap((pin) => {
    const leg = pin.on === 'equipment' ? legOf(pin.does, kind) : undefined
    return leg ? [[pin, leg] as const] : []
  })
}

export const hotColdIdentity: Rule = {
  id: 'hot-cold-identity',
  title: 'Hot stays hot and cold stays cold',
  family: 'audio',
  level: 'warning',
  covers: ['A13'],
  reason:
    'A swapped pair turns the signal over. Alone nobody hears it; beside another microphone or loudspeaker the two cancel, and in an unbalanced join the signal goes to ground.',
  remedy: 'Swap the two legs at one end.',
  needs: 'leg "hot" or "cold" on the pins of both ends',
  sources: ['IEC 60268-12: pin 2 is hot, as reported', 'common practice'],
  examples: { trips: example('P2.2', 'P2.1'), passes: example('P2.1', 'P2.2') },
  *check({ loom }) {
    const told = new Set<string>()
    for (const net of loom.nets) {
      for (const [output, outLeg] of legsOn(net, 'audio-out'))
        for (const [input, inLeg] of legsOn(net, 'audio-in')) {
          const unit = input.half?.unit
          if (outLeg === inLeg || output.half?.unit === unit) continue
          const link = `${output.half?.address}|${output.does.port}|${input.half?.address}|${input.does.port}`
          if (told.has(link)) continue
          told.add(link)
          yield found({
            subject: input.address,
            what: `The ${inLeg} leg of ${unit?.id ?? input.address} is on the ${outLeg} leg of ${output.half?.unit?.id ?? output.address}`,
            why: `${pinWords(output)} is ${outLeg}, ${pinWords(input)} is ${inLeg}.`,
            fix: `Swap the two legs at ${input.half?.mate?.address ?? input.half?.address ?? input.address}.`,
            facts: { output: { value: output.address }, input: { value: input.address } },
            at: net.conductors[0]?.at ?? input.at,
            marks: [output.address, input.address, ...net.conductors.map((wire) => wire.address)],
          })
        }
    }
  },
}
