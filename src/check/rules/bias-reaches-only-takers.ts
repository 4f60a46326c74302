import { formatVolts } from '../../base/format-quantity.ts'
import type { Terminal } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import { functionWords } from '../queries/pin-words.ts'
import type { Rule } from '../rule.ts'

const example = (ribbon: boolean) =>
  wired({
    units: {
      desk: {
        pins: {
          '1': { kind: 'audio-in', level: 'mic', leg: 'hot', port: 'mic', bias: '48 V', ohms: '2 kΩ' },
          '2': { kind: 'audio-in', level: 'mic', leg: 'cold', port: 'mic', bias: '48 V', ohms: '2 kΩ' },
        },
      },
      microphone: {
        pins: {
          '1': {
            kind: 'audio-out',
            level: 'mic',
            leg: 'hot',
            port: 'mic',
            ohms: '200 Ω',
            ...(ribbon ? { element: 'ribbon' as const } : { limit: '-1..52 V' as const }),
          },
          '2': {
            kind: 'audio-out',
            level: 'mic',
            leg: 'cold',
            port: 'mic',
            ohms: '200 Ω',
            ...(ribbon ? { element: 'ribbon' as const } : { limit: '-1..52 V' as const }),
          },
        },
      },
    },
    runs: [
      ['desk.1', 'microphone.1', { pair: 'TP1' }],
      ['desk.2', 'microphone.2', { pair: 'TP1' }],
    ],
  })

/** Phantom and line feeds; a few volts of electret bias do not hurt what blocks DC. */
const HARMFUL_VOLTS = 9

const minds = ({ does }: Terminal, volts: number): boolean =>
  does.kind === 'audio-out' &&
  (does.element === 'ribbon' ||
    (does.level !== 'mic' && does.limit === undefined && does.bias === undefined)) &&
  !(does.limit !== undefined && does.limit.max >= volts)

export const biasReachesOnlyTakers: Rule = {
  id: 'bias-reaches-only-takers',
  title: 'Phantom and bias reach only what takes them',
  family: 'audio',
  level: 'stop',
  covers: ['A15'],
  reason:
    'Phantom through a miswired or unbalanced lead puts tens of volts across a ribbon or the output of a player. The ribbon stretches; the output fails.',
  remedy: 'Switch it off, block it with capacitors or a transformer, and relabel the socket.',
  needs: '"bias" of the port that puts it out, and "limit" of the pins it reaches',
  sources: ['ribbon microphone makers’ notes, as reported', 'common practice'],
  examples: { trips: example(true), passes: example(false) },
  *check({ loom, paths }) {
    const told = new Set<string>()
    for (const pin of loom.terminals) {
      if (pin.on !== 'equipment' || pin.does.kind !== 'audio-out') continue
      const reached = paths.highestVolts(pin)
      const from = reached?.source.does
      if (!reached || reached.volts < HARMFUL_VOLTS || reached.source === pin) continue
      if (from?.kind !== 'audio-in' && from?.kind !== 'audio-out') continue
      const key = `${pin.half?.address} ${pin.does.port}`
      if (!minds(pin, reached.volts) || told.has(key)) continue
      told.add(key)
      yield found({
        subject: pin.address,
        what: `${formatVolts(reached.volts)} from ${reached.source.address} reaches ${pin.address}, a ${pin.does.element ?? ''}${pin.does.element ? ' ' : ''}${functionWords(pin.does)}`,
        why: 'Nothing on the way blocks DC, and nothing says that the pin takes it.',
        fix: 'Switch the feed off at that port, or block it with a transformer or a capacitor in each leg; if the pin takes it, state its limit.',
        facts: { volts: { value: reached.volts, unit: 'V' }, source: { value: reached.source.address } },
        at: pin.at,
        marks: [pin.address, reached.source.address],
      })
    }
  },
}
