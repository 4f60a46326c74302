import type { Half } from '../../resolve/loom.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { count, found, unknown } from '../outcome.ts'
import type { Harm } from '../queries/overvolted-pins.ts'
import type { TwinPlugs } from '../queries/twin-plugs.ts'
import type { Outcome, Rule } from '../rule.ts'
import { type SwapTrial, trySwaps } from '../swap-trials.ts'

const example = (mic: 'row-4' | 'row-3') =>
  exampleLead({
    parts: [rowHousing(4), rowHousing(3), rowHousing(2)],
    equipment: [
      unitOf(
        'head',
        socket('J1', 'row-4', {
          '1': { kind: 'supply-out', volts: '12 V', maxAmps: '0.1 A', port: 'LAMP' },
          '2': { kind: 'return', port: 'LAMP' },
        }),
        socket('J2', mic, {
          '1': { kind: 'audio-in', level: 'mic', leg: 'hot', port: 'MIC' },
          '2': { kind: 'signal-return', port: 'MIC' },
        }),
      ),
      unitOf(
        'lamp',
        socket('J3', 'row-2', { '1': { kind: 'supply-in', amps: '0.1 A' }, '2': { kind: 'return' } }),
      ),
      unitOf(
        'microphone',
        socket('J4', 'row-2', {
          '1': { kind: 'audio-out', level: 'mic', leg: 'hot' },
          '2': { kind: 'signal-return' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-4', half: 'pin', fits: 'head.J1' },
        { id: 'P2', family: mic, half: 'pin', fits: 'head.J2' },
        { id: 'P3', family: 'row-2', half: 'pin', fits: 'lamp.J3', zone: 'roof' },
        { id: 'P4', family: 'row-2', half: 'pin', fits: 'microphone.J4', zone: 'dash' },
      ],
      components: [{ id: 'F1', kind: 'fuse', rating: '0.5 A' }],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'F1.in', size: '0.5 mm²', length: '0.1 m' },
        { id: 'A02', from: 'F1.out', to: 'P3.1', size: '0.5 mm²', length: '1 m' },
        { id: 'A03', from: 'P1.2', to: 'P3.2', size: '0.5 mm²', length: '1 m' },
        { id: 'A04', from: 'P2.1', to: 'P4.1', size: '0.22 mm²', length: '1 m' },
        { id: 'A05', from: 'P2.2', to: 'P4.2', size: '0.22 mm²', length: '1 m' },
      ],
    },
  })

/** A LAN port that feeds 48 V to its camera, and a hand microphone beside it on the same kind of plug, or on another. */
const fedLan = (mic: 'modular-8p8c' | 'row-3') =>
  exampleLead({
    parts: [rowHousing(3)],
    equipment: [
      unitOf(
        'head',
        socket('LAN', 'modular-8p8c', {
          '4': { kind: 'supply-out', port: 'poe', volts: '48 V', maxAmps: '0.35 A' },
          '7': { kind: 'return', port: 'poe' },
        }),
        socket('MIC', mic, {
          ...(mic === 'row-3'
            ? {
                '1': { kind: 'audio-in' as const, level: 'mic' as const, leg: 'single' as const },
                '2': { kind: 'signal-return' as const },
              }
            : {
                '4': { kind: 'audio-in' as const, level: 'mic' as const, leg: 'single' as const },
                '5': { kind: 'signal-return' as const },
              }),
        }),
      ),
      unitOf(
        'camera',
        socket('J1', 'row-3', { '1': { kind: 'supply-in', amps: '0.2 A' }, '2': { kind: 'return' } }),
      ),
      unitOf(
        'microphone',
        socket('J2', 'row-3', {
          '1': { kind: 'audio-out', level: 'mic', leg: 'single' },
          '3': { kind: 'signal-return' },
        }),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'modular-8p8c', half: 'pin', fits: 'head.LAN' },
        { id: 'P2', family: mic, half: 'pin', fits: 'head.MIC' },
        { id: 'P3', family: 'row-3', half: 'pin', fits: 'camera.J1', zone: 'roof' },
        { id: 'P4', family: 'row-3', half: 'pin', fits: 'microphone.J2', zone: 'dash' },
      ],
      wires: [
        { id: 'A01', from: 'P1.4', to: 'P3.1', size: '0.22 mm²', length: '5 m' },
        { id: 'A02', from: 'P1.7', to: 'P3.2', size: '0.22 mm²', length: '5 m' },
        { id: 'A03', from: mic === 'row-3' ? 'P2.1' : 'P2.4', to: 'P4.1', size: '0.22 mm²', length: '1 m' },
        { id: 'A04', from: mic === 'row-3' ? 'P2.2' : 'P2.5', to: 'P4.3', size: '0.22 mm²', length: '1 m' },
      ],
    },
  })

const unjudged = (half: Half): boolean => [...half.pins.values()].every((pin) => pin.does.kind === 'unstated')

function report({ first, second, wrong, reach }: TwinPlugs, harms: readonly Harm[]): Outcome | undefined {
  const [worst, next] = harms
  if (!worst) return undefined
  const [a, b] = [first.one.address, second?.one.address ?? wrong.address]
  const where = reach === 'same-unit' ? `on ${wrong.unit?.id}` : `in ${first.one.zone ?? first.two.zone}`
  const rest = harms.length - 2
  return found({
    subject: first.one.address,
    level: worst.level === 'stop' ? 'stop' : 'warning',
    what: second
      ? `${a} and ${b} can be swapped: ${worst.text}`
      : `${a} also goes into the free socket ${wrong.address}: ${worst.text}`,
    why: `Both are of one family (${first.one.family?.title ?? first.one.familyId}) ${where}, and nothing keys them apart${
      next ? `. Swapped, also: ${next.text}${rest > 0 ? `, and ${count(rest, 'more fault')}` : ''}` : ''
    }.`,
    fix: 'Use another family, size, keying or half for one of them, or a tail too short to reach; marks alone are not enough.',
    assumed: ['a signal pin without a stated limit stands no supply voltage'],
    facts: {
      other: { value: b },
      harm: { value: worst.text },
      pin: { value: worst.pin },
      harms: { value: harms.length },
    },
    at: first.one.at,
    notes: [{ text: second ? 'its twin' : 'the free socket', at: (second?.one ?? wrong).at }],
    marks: [a, first.two.address, b, wrong.address],
  })
}

function judge({ twins, harms }: SwapTrial): Outcome | undefined {
  const { first, second, wrong, reach } = twins
  const pair = `${first.one.address} and ${second?.one.address ?? wrong.address}`
  const blank = [first.two, wrong].filter(unjudged)
  if (blank[0] && reach !== 'unknown')
    return unknown(
      first.one.address,
      `needs what the pins of ${blank.map((half) => half.address).join(' and ')} do: ${pair} can be swapped`,
      blank[0].at,
    )
  if (blank[0]) return undefined
  if (harms.length === 0 || reach !== 'unknown') return report(twins, harms)
  return unknown(
    first.one.address,
    `needs the zones of ${pair}: they go into each other's place, and then: ${harms[0]?.text}`,
    first.one.at,
  )
}

export const plugsNotInterchangeable: Rule = {
  id: 'plugs-not-interchangeable',
  title: 'Plugs that must not be swapped cannot be',
  family: 'mating',
  level: 'stop',
  covers: ['M5', 'M7', 'D9'],
  reason:
    'Two plugs of one family within reach of each other are swapped one day, in the dark or by somebody else. If that only stops something working it is a nuisance; if it puts a supply on a signal pin it ends equipment.',
  remedy: 'Use another family, size, keying or gender for one of the two, or a tail too short to reach.',
  needs: 'family, half and coding of the plugs, the zones, and what the pins do',
  sources: ['FAA AC 43.13-1B ¶11-235b', 'MIL-STD-1472E ¶5.9.14.2 and 5.9.14.3'],
  examples: { trips: example('row-4'), passes: example('row-3') },
  others: [{ covers: 'D9', trips: fedLan('modular-8p8c'), passes: fedLan('row-3') }],
  *check(context) {
    const { results, left } = trySwaps(context)
    for (const trial of results) {
      const outcome = judge(trial)
      if (outcome) yield outcome
    }
    const { id, at } = context.loom
    if (left > 0)
      yield unknown(id, `needs a look by hand: ${count(left, 'more pair')} of plugs can be swapped`, at)
  },
}
