import { formatRange, formatVolts } from '../../base/format-quantity.ts'
import type { Terminal } from '../../resolve/loom.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found, listOf } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (diodes: boolean) =>
  wired({
    units: {
      main: cell({ port: 'main', maxAmps: '2 A' }),
      standby: cell({ port: 'standby', maxAmps: '2 A' }),
      lamp: load('1 A'),
    },
    components: diodes
      ? [
          { id: 'D1', kind: 'diode', maxAmps: '3 A' },
          { id: 'D2', kind: 'diode', maxAmps: '3 A' },
        ]
      : [],
    splices: ['SP1', 'SP2'],
    runs: [
      ...(diodes
        ? ([
            ['main.1', 'D1.a', { size: '1 mm²', length: '0.1 m' }],
            ['D1.k', 'SP1', { size: '1 mm²', length: '0.1 m' }],
            ['standby.1', 'D2.a', { size: '1 mm²', length: '0.1 m' }],
            ['D2.k', 'SP1', { size: '1 mm²', length: '0.1 m' }],
          ] as const)
        : ([
            ['main.1', 'SP1', { size: '1 mm²', length: '0.1 m' }],
            ['standby.1', 'SP1', { size: '1 mm²', length: '0.1 m' }],
          ] as const)),
      ['SP1', 'lamp.1', { size: '1 mm²', length: '0.1 m' }],
      ['lamp.2', 'SP2', { size: '1 mm²' }],
      ['SP2', 'main.2', { size: '1 mm²' }],
      ['SP2', 'standby.2', { size: '1 mm²' }],
    ],
  })

const words = ({ address, does }: Terminal): string =>
  does.kind === 'supply-out' && does.volts ? `${address} (${formatRange(does.volts, formatVolts)})` : address

export const suppliesMeet: Rule = {
  id: 'supplies-meet',
  title: 'Two supplies on one net are isolated from each other',
  family: 'power',
  level: 'stop',
  covers: ['W22'],
  reason:
    'Two supplies that meet feed each other: the higher drives current into the lower, and with one switched off the other still keeps everything live.',
  remedy: 'A diode in each feed, or a relay that chooses one.',
  needs: 'which pins are supplies',
  sources: ['common practice'],
  examples: { trips: example(false), passes: example(true) },
  *check({ loom }) {
    for (const circuit of loom.circuits) {
      const supplies = circuit.terminals.filter(
        (pin) => pin.on === 'equipment' && pin.does.kind === 'supply-out',
      )
      const units = new Set(supplies.map((pin) => pin.half?.unit))
      const second = supplies[1]
      if (units.size < 2 || !second) continue
      yield found({
        subject: second.address,
        what: `${units.size} supplies meet with nothing between them: ${listOf(supplies.map(words), 4)}`,
        why: 'The higher one drives current into the lower, limited by copper alone.',
        fix: 'Put a diode in each feed, or a relay that chooses one.',
        facts: { supplies: { value: units.size } },
        at: circuit.nets[0]?.conductors[0]?.at ?? second.at,
        marks: supplies.map((pin) => pin.address),
      })
    }
  },
}
