import type { Net, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found } from '../outcome.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Rule } from '../rule.ts'

const example = (element: 'dynamic' | 'electret') =>
  exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf(
        'headset',
        socket('J1', 'row-2', {
          '1': { kind: 'audio-out', level: 'mic', leg: 'hot', element, port: 'MIC' },
          '2': { kind: 'audio-out', level: 'mic', leg: 'cold', element, port: 'MIC' },
        }),
      ),
      unitOf(
        'pack',
        socket('J2', 'row-2', {
          '1': { kind: 'audio-in', level: 'mic', leg: 'hot', element: 'dynamic', port: 'HS' },
          '2': { kind: 'audio-in', level: 'mic', leg: 'cold', element: 'dynamic', port: 'HS' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'headset.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'pack.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.22 mm²', pair: 'TP1' },
        { id: 'A02', from: 'P1.2', to: 'P2.2', size: '0.22 mm²', pair: 'TP1' },
      ],
    },
  })

type Element = 'dynamic' | 'electret' | 'ribbon'

/** What happens, by kind of microphone and kind of input. */
const OUTCOME: Readonly<Record<Element, string>> = {
  electret: 'An electret needs a bias voltage; without one it is silent, or nearly so.',
  dynamic:
    'A dynamic microphone gives millivolts and wants no bias: it is far too quiet, and the bias sits on its coil.',
  ribbon: 'A ribbon is stretched or burnt by a bias voltage.',
}

function elements(net: Net, kind: 'audio-out' | 'audio-in'): readonly (readonly [Terminal, Element])[] {
  return net.terminals.flatMap((pin) => {
    const { does, on } = pin
    if (on !== 'equipment' || does.kind !== kind || does.level !== 'mic' || !does.element) return []
    return [[pin, does.element] as const]
  })
}

export const microphoneKind: Rule = {
  id: 'microphone-kind',
  title: 'A microphone suits the input it is plugged into',
  family: 'audio',
  level: 'warning',
  covers: ['A16'],
  reason:
    'Dynamic and electret headsets share plugs. One on the other’s input is silent or distorted, and the loom is blamed for it.',
  remedy:
    'Use a headset of the kind the input is made for, an adaptor with the bias, or the other setting of the input.',
  needs: 'the kind of microphone at both ends',
  sources: ['common practice'],
  examples: { trips: example('electret'), passes: example('dynamic') },
  *check({ loom }) {
    const told = new Set<string>()
    for (const net of loom.nets)
      for (const [mic, made] of elements(net, 'audio-out'))
        for (const [input, wanted] of elements(net, 'audio-in')) {
          const pair = `${mic.half?.address}|${input.half?.address}`
          if (made === wanted || told.has(pair)) continue
          told.add(pair)
          const unit = mic.half?.unit
          yield found({
            subject: mic.address,
            what: `${unit?.id ?? mic.address} has a microphone of the ${made} kind on an input for the ${wanted} kind`,
            why: `${pinWords(mic)} goes to ${pinWords(input)}. ${OUTCOME[made]}`,
            fix: `Use a headset or microphone of the ${wanted} kind, or an adaptor with the bias it needs.`,
            facts: { microphone: { value: made }, input: { value: wanted }, to: { value: input.address } },
            at: unit?.at ?? mic.at,
            marks: [mic.address, input.address],
          })
        }
  },
}
