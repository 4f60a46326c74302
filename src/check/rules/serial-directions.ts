import type { Terminal } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf } from '../outcome.ts'
import type { DataPin } from '../queries/data-buses.ts'
import type { Rule } from '../rule.ts'

const port = {
  pins: {
    '2': { kind: 'data' as const, standard: 'tia-232' as const, line: 'RXD', direction: 'in' as const },
    '3': { kind: 'data' as const, standard: 'tia-232' as const, line: 'TXD', direction: 'out' as const },
    '5': { kind: 'signal-return' as const },
  },
}

const example = (to: string) =>
  wired({
    units: { computer: port, radio: port },
    runs: [
      ['computer.2', to],
      ['computer.5', 'radio.5'],
    ],
  })

const isSerial = (pin: Terminal): pin is DataPin =>
  pin.on === 'equipment' && pin.does.kind === 'data' && pin.does.standard === 'tia-232'

export const serialDirections: Rule = {
  id: 'serial-directions',
  title: 'Transmit meets receive on a serial lead',
  family: 'data',
  level: 'warning',
  covers: ['D4'],
  reason:
    'Two ports of one kind need a crossed lead, a port and a modem a straight one, and the plugs look alike. Wired the other way both listen, and nothing comes.',
  remedy: 'Cross transmit and receive (and their handshakes) at one end.',
  needs: '"direction" of the data pins at both ends',
  sources: ['TIA-232-F, TIA-574', 'common practice: null modem 2–3, 3–2, 5–5, 7–8, 8–7'],
  examples: { trips: example('radio.2'), passes: example('radio.3') },
  *check({ loom, paths }) {
    for (const net of loom.nets) {
      const pins = net.terminals.filter(isSerial)
      const second = pins[1]
      if (!second || new Set(pins.map((pin) => pin.half)).size < 2) continue
      const [inputs, outputs] = [
        pins.filter((pin) => pin.does.direction === 'in'),
        pins.filter((pin) => pin.does.direction === 'out'),
      ]
      if (inputs.length < 2 || inputs.length < pins.length || outputs.length > 0) continue
      if (paths.nets.drivers(net).length > 0) continue
      // A pair of handshakes bridged to one output elsewhere has a driver; here both ends only listen.
      yield found({
        subject: second.address,
        what: `${listOf(
          inputs.map((pin) => `${pin.address} (${pin.does.line})`),
          4,
        )} all listen on one wire`,
        why: 'No pin on it transmits.',
        fix: 'Cross transmit and receive at one end.',
        facts: { inputs: { value: inputs.length } },
        at: net.conductors[0]?.at ?? second.at,
        cause: `serial:${second.half?.address}`,
        marks: [...inputs.map((pin) => pin.address), ...net.conductors.map((wire) => wire.address)],
      })
    }
  },
}
