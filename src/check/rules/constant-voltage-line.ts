import { formatVolts, formatWatts } from '../../base/format-quantity.ts'
import type { Net, Terminal } from '../../resolve/loom.ts'
import { LINE_LOADING, lineWatts } from '../../solve/formulas/constant-voltage-line.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const speaker = (tap: '6 W' | '10 W') => ({
  role: 'speaker' as const,
  pins: {
    '1': {
      kind: 'audio-in' as const,
      level: 'speaker' as const,
      leg: 'hot' as const,
      port: 'tap',
      tap,
      watts: '10 W' as const,
    },
    '2': {
      kind: 'audio-in' as const,
      level: 'speaker' as const,
      leg: 'cold' as const,
      port: 'tap',
      tap,
      watts: '10 W' as const,
    },
  },
})

const example = (tap: '6 W' | '10 W') =>
  wired({
    units: {
      amplifier: {
        pins: {
          '1': {
            kind: 'audio-out',
            level: 'speaker',
            leg: 'hot',
            port: 'line',
            lineVolts: '100 V',
            watts: '18 W',
          },
          '2': {
            kind: 'audio-out',
            level: 'speaker',
            leg: 'cold',
            port: 'line',
            lineVolts: '100 V',
            watts: '18 W',
          },
        },
      },
      hall: speaker(tap),
      stairs: speaker(tap),
    },
    splices: ['SP1', 'SP2'],
    runs: [
      ['amplifier.1', 'SP1'],
      ['amplifier.2', 'SP2'],
      ['SP1', 'hall.1'],
      ['SP2', 'hall.2'],
      ['SP1', 'stairs.1'],
      ['SP2', 'stairs.2'],
    ],
  })

const loudspeakers = (net: Net): readonly Terminal[] =>
  net.terminals.filter(
    ({ on, does }) =>
      on === 'equipment' && does.kind === 'audio-in' && does.level === 'speaker' && does.leg !== 'cold',
  )

export const constantVoltageLine: Rule = {
  id: 'constant-voltage-line',
  title: 'The taps on a 100 V line do not add up to more than the amplifier',
  family: 'audio',
  level: 'stop',
  covers: ['A7'],
  reason:
    'Each tap takes its watts from the line, however many there are. More than the amplifier gives overheats it, and one plain loudspeaker across the line is a short.',
  remedy: 'Lower taps, a larger amplifier, or a transformer at the loudspeaker.',
  needs: '"lineVolts" and "watts" of the output, "tap" of the loudspeakers',
  sources: ['public-address handbooks, as reported', 'EIA taps of 70.7 V lines'],
  examples: { trips: example('10 W'), passes: example('6 W') },
  *check({ paths, loom }) {
    for (const output of loom.terminals) {
      const { does } = output
      if (
        output.on !== 'equipment' ||
        does.kind !== 'audio-out' ||
        does.lineVolts === undefined ||
        does.leg === 'cold'
      )
        continue
      const net = paths.nets.net(output)
      const all = loudspeakers(net)
      const plain = all.filter(({ does: pin }) => pin.kind === 'audio-in' && pin.tap === undefined)
      const tapped = all.flatMap(({ does: pin }) =>
        pin.kind === 'audio-in' && pin.tap !== undefined ? [pin.tap] : [],
      )
      const sum = lineWatts(tapped)
      const low = plain[0]
      const at = net.conductors[0]?.at ?? output.at
      const marks = [output.address, ...all.map((pin) => pin.address)]
      if (low)
        yield found({
          subject: low.address,
          what: `${listOf(plain.map((pin) => pin.address))} without a transformer tap on the ${formatVolts(does.lineVolts)} line of ${output.address}`,
          why: 'A voice coil of a few ohms across the line takes many times the power it bears.',
          fix: 'Fit a line transformer at the loudspeaker and state its tap.',
          facts: { line: { value: does.lineVolts, unit: 'V' } },
          at,
          marks,
        })
      if (does.watts === undefined || sum <= does.watts * LINE_LOADING) continue
      const over = sum > does.watts
      yield found({
        subject: output.address,
        level: over ? 'stop' : 'note',
        what: `The taps on ${output.address} add up to ${formatWatts(sum)}, and the amplifier gives ${formatWatts(does.watts)}`,
        why: over
          ? `${formatWatts(sum - does.watts)} too much; ${tapped.length} taps.`
          : 'More than 80 % of it leaves no reserve for the losses of transformers and line.',
        fix: `Lower the taps to ${formatWatts(does.watts * LINE_LOADING)} together, or use a larger amplifier.`,
        facts: { taps: { value: sum, unit: 'W' }, amplifier: { value: does.watts, unit: 'W' } },
        at,
        marks,
      })
    }
  },
}
