import { formatBitRate, formatLength } from '../../base/format-quantity.ts'
import { canTrunkLimitMm } from '../../solve/formulas/can-termination.ts'
import { wired } from '../examples/wired.ts'
import { found, unknown } from '../outcome.ts'
import { dataBuses } from '../queries/data-buses.ts'
import { lineTopology } from '../queries/line-topology.ts'
import type { Rule } from '../rule.ts'

const node = (terminates: boolean) => ({
  pins: {
    '1': {
      kind: 'data' as const,
      standard: 'can' as const,
      line: 'CAN_H',
      bitRate: '1 Mbit/s' as const,
      ...(terminates ? { terminates: '120 Ω' as const } : {}),
    },
    '2': {
      kind: 'data' as const,
      standard: 'can' as const,
      line: 'CAN_L',
      bitRate: '1 Mbit/s' as const,
      ...(terminates ? { terminates: '120 Ω' as const } : {}),
    },
  },
})

const example = (length: '1.5 m' | '0.2 m') =>
  wired({
    units: { engine: node(true), tap: node(false), display: node(true) },
    splices: ['SP1', 'SP2'],
    runs: [
      ['engine.1', 'SP1', { length: '4 m', pair: 'TP1' }],
      ['engine.2', 'SP2', { length: '4 m', pair: 'TP1' }],
      ['SP1', 'display.1', { length: '4 m', pair: 'TP2' }],
      ['SP2', 'display.2', { length: '4 m', pair: 'TP2' }],
      ['SP1', 'tap.1', { length, pair: 'TP3' }],
      ['SP2', 'tap.2', { length, pair: 'TP3' }],
    ],
  })

const FAST = 500_000

export const busStubLengths: Rule = {
  id: 'bus-stub-lengths',
  title: 'Stubs and backbone of a CAN bus are short enough for its bit rate',
  family: 'data',
  level: 'warning',
  covers: ['D2'],
  reason:
    'A stub is a branch without an end: the edge runs down it and comes back as an echo. Too long for the bit rate, frames fail now and then, more so on a cold morning.',
  remedy: 'Route the trunk past the unit, or lower the bit rate.',
  needs: 'lengths, and "bitRate" of the ports; policy "canStub" for the limits',
  sources: [
    'ISO 11898 and SAE J1939-11 as quoted: stub 0.3 m at 1 Mbit/s, 1 m at 250 kbit/s; CiA 303-1 for the trunk',
  ],
  examples: { trips: example('1.5 m'), passes: example('0.2 m') },
  *check({ loom }) {
    // Instrument networks afloat allow longer drops and have a rule of their own.
    if (loom.setting === 'boat') return
    const { canStubFastMm, canStubSlowMm } = loom.settings
    for (const { pins, terminators, net } of dataBuses(loom, 'can')) {
      const line = lineTopology(loom, [...pins, ...terminators], pins)
      if (!line) continue
      const first = pins[0]
      const rate = pins.reduce((most, { does }) => Math.max(most, does.bitRate ?? 0), 0)
      const long = line.stubs
        .filter(({ mm }) => mm > Math.min(canStubFastMm, canStubSlowMm))
        .sort((a, b) => b.mm - a.mm)
      if (rate === 0) {
        if (first && (long.length > 0 || line.backboneMm > 40_000))
          yield unknown(first.address, `needs the bit rate of the bus at ${first.address}`, first.at)
        continue
      }
      const limit = rate >= FAST ? canStubFastMm : canStubSlowMm
      for (const { pin, mm } of long.filter((stub) => stub.mm > limit))
        yield found({
          subject: pin.address,
          what: `${pin.address} hangs ${formatLength(mm)} off the bus; ${formatLength(limit)} is the most at ${formatBitRate(rate)}`,
          why: `The backbone is ${formatLength(line.backboneMm)}, from ${line.ends[0].address} to ${line.ends[1].address}; the branch beyond it has no end.`,
          fix: `Run the trunk in and out at ${pin.half?.unit?.id ?? pin.address}, or shorten the branch.`,
          facts: { stub: { value: mm, unit: 'mm' }, limit: { value: limit, unit: 'mm' } },
          at: pin.at,
          marks: [pin.address, ...net.conductors.map((conductor) => conductor.address)],
        })
      const trunk = canTrunkLimitMm(rate)
      if (first && trunk !== undefined && line.backboneMm > trunk)
        yield found({
          subject: line.ends[1].address,
          what: `The bus is ${formatLength(line.backboneMm)} long; ${formatLength(trunk)} is the most at ${formatBitRate(rate)}`,
          why: 'The answer bit of the far end comes too late.',
          fix: 'Lower the bit rate or shorten the bus.',
          facts: { backbone: { value: line.backboneMm, unit: 'mm' }, limit: { value: trunk, unit: 'mm' } },
          at: first.at,
          marks: line.ends.map((end) => end.address),
        })
    }
  },
}
