import { formatOhms } from '../../base/format-quantity.ts'
import type { PinFunction } from '../../describe/function.ts'
import type { Net, Terminal } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { wired } from '../examples/wired.ts'
import { count, found, listOf } from '../outcome.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Rule } from '../rule.ts'

const example = (to: string) =>
  exampleLead({
    parts: [rowHousing(4)],
    equipment: [
      unitOf('scanner', socket('J1', 'row-4', { '1': { kind: 'audio-out', level: 'line', name: 'A OUT' } })),
      unitOf('radio', socket('J2', 'row-4', { '1': { kind: 'audio-out', level: 'line', name: 'B OUT' } })),
      unitOf(
        'mixer',
        socket('J3', 'row-4', {
          '1': { kind: 'audio-in', level: 'line' },
          '2': { kind: 'audio-in', level: 'line' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'scanner.J1' },
        { id: 'P2', family: 'row-4', half: 'pin', fits: 'radio.J2' },
        { id: 'P3', family: 'row-4', half: 'pin', fits: 'mixer.J3' },
      ],
      splices: [{ id: 'SP1' }, { id: 'SP2' }],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'SP1', size: '0.22 mm²' },
        { id: 'A02', from: 'P2.1', to, size: '0.22 mm²' },
        { id: 'A03', from: 'SP1', to: 'P3.1', size: '0.22 mm²' },
        ...(to === 'SP2' ? [{ id: 'A04', from: 'SP2', to: 'P3.2', size: '0.22 mm²' as const }] : []),
      ],
    },
  })

const amplifier = (port: string) =>
  ({
    '1': { kind: 'audio-out', level: 'speaker', leg: 'hot', bridged: true, port, minLoad: '4 Ω' },
    '2': { kind: 'audio-out', level: 'speaker', leg: 'cold', bridged: true, port, minLoad: '4 Ω' },
  }) as const
const loudspeaker = {
  '1': { kind: 'audio-in', level: 'speaker', leg: 'hot', port: 'coil', ohms: '8 Ω', watts: '40 W' },
  '2': { kind: 'audio-in', level: 'speaker', leg: 'cold', port: 'coil', ohms: '8 Ω', watts: '40 W' },
} as const

/** Two bridged channels whose loudspeakers come back by one wire, or each by its own. */
const bridgedPair = (shared: boolean) => {
  const wire = { size: '0.75 mm²', length: '2 m' } as const
  return wired({
    units: {
      left: { pins: amplifier('left') },
      right: { pins: amplifier('right') },
      one: { role: 'speaker', pins: loudspeaker },
      two: { role: 'speaker', pins: loudspeaker },
    },
    splices: shared ? ['SP1'] : [],
    runs: [
      ['left.1', 'one.1', wire],
      ['right.1', 'two.1', wire],
      ...(shared
        ? ([
            ['one.2', 'SP1', wire],
            ['two.2', 'SP1', wire],
            ['SP1', 'left.2', wire],
            ['SP1', 'right.2', wire],
          ] as const)
        : ([
            ['one.2', 'left.2', wire],
            ['two.2', 'right.2', wire],
          ] as const)),
    ],
  })
}

/** Sources of this impedance and above feed a current into a line made to be shared, as party-line stations do. */
const CURRENT_FEED_OHMS = 5000
/** Lines whose drivers let go of the line when they have nothing to say. */
const SHARED_BUS: ReadonlySet<string> = new Set(['can', 'tia-485', 'proprietary'])

/** Whether a pin forces its net to a level. Open collectors and volt-free contacts do not: they may share. */
function drives(does: PinFunction): boolean {
  switch (does.kind) {
    case 'audio-out':
      return (does.leg !== 'cold' || does.bridged === true) && (does.ohms ?? 0) < CURRENT_FEED_OHMS
    case 'switch-out':
      return does.form === 'push-pull'
    case 'data':
      return does.direction === 'out' && !SHARED_BUS.has(does.standard)
    default:
      return false
  }
}

/** Pins that drive the net, those of one output counted once: some outputs come out on two pins. */
function drivers(net: Net): readonly Terminal[] {
  const outputs = new Map<string, Terminal>()
  for (const pin of net.terminals) {
    if (pin.on !== 'equipment' || !drives(pin.does)) continue
    const { port, kind } = pin.does
    const leg = 'leg' in pin.does ? (pin.does.leg ?? '') : ''
    const output = port === undefined ? pin.address : `${pin.half?.unit?.id} ${kind} ${port} ${leg}`
    if (!outputs.has(output)) outputs.set(output, pin)
  }
  return [...outputs.values()]
}

const impedance = (pin: Terminal): string =>
  pin.does.kind === 'audio-out' && pin.does.ohms !== undefined ? ` of ${formatOhms(pin.does.ohms)}` : ''

export const oneDriverPerNet: Rule = {
  id: 'one-driver-per-net',
  title: 'A net has one driver',
  family: 'pins',
  level: 'stop',
  covers: ['P6', 'A2'],
  reason:
    'Two outputs on one net drive current into each other: distorted at best, and a bridged amplifier or a logic output fails. A Y lead splits one output; it never adds two.',
  remedy: 'Mix them through resistors, a transformer or a mixer, or choose between them with a relay.',
  needs: 'which pins are outputs, and of what form',
  sources: ['mixer user guides, as reported: never use a Y adaptor to sum two outputs', 'common practice'],
  examples: { trips: example('SP1'), passes: example('SP2') },
  others: [{ covers: 'A2', trips: bridgedPair(true), passes: bridgedPair(false) }],
  *check({ loom }) {
    for (const net of loom.nets) {
      const pins = drivers(net)
      const second = pins[1]
      if (!second) continue
      yield found({
        subject: second.address,
        what: `${count(pins.length, 'output')} drive one net: ${listOf(pins.map(pinWords), 3)}`,
        why: `Each output${impedance(second)} works into the others instead of into the load.`,
        fix: 'Part them: a mixing resistor in each leg, a transformer, or a relay that chooses one.',
        facts: { drivers: { value: pins.length }, net: { value: net.name } },
        at: net.conductors[0]?.at ?? second.at,
        marks: [...pins.map((pin) => pin.address), ...net.conductors.map((wire) => wire.address)],
      })
    }
  },
}
