import { wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (earthed: boolean) =>
  wired({
    units: {
      outlet: {
        pins: {
          '1': { kind: 'supply-out', port: 'mains', volts: '230 V', maxAmps: '2 A' },
          '2': { kind: 'return', port: 'mains', isolated: true },
          '3': { kind: 'chassis', earth: true },
        },
      },
      amplifier: {
        pins: {
          '1': { kind: 'supply-in', port: 'mains', amps: '1 A', volts: '207..253 V' },
          '2': { kind: 'return', port: 'mains', isolated: true },
          '3': { kind: 'chassis', earth: true },
        },
      },
    },
    runs: [
      ['outlet.1', 'amplifier.1', { size: '1.5 mm²' }],
      ['outlet.2', 'amplifier.2', { size: '1.5 mm²' }],
      ...(earthed ? ([['outlet.3', 'amplifier.3', { size: '1.5 mm²' }]] as const) : []),
    ],
  })

export const earthKept: Rule = {
  id: 'earth-kept',
  title: 'Protective earth is never opened, least of all against hum',
  family: 'grounding',
  level: 'stop',
  covers: ['G8'],
  reason:
    'The protective earth trips the breaker when a live wire touches the case. Lifted to cure hum it lets the case, and the microphone in a hand, stand at mains voltage.',
  remedy:
    'Restore the earth, and isolate the audio with a transformer. Mains work is for a qualified person.',
  needs: '"earth" on the chassis pins of mains equipment',
  sources: ['safety columns of audio magazines, as reported', 'common practice'],
  examples: { trips: example(false), passes: example(true) },
  *check({ loom, paths }) {
    for (const pin of loom.terminals) {
      const { does, half } = pin
      if (
        pin.on !== 'equipment' ||
        does.kind !== 'chassis' ||
        !does.earth ||
        !half ||
        half.mates.length === 0
      )
        continue
      const wired = [...half.pins.values()].some((other) => paths.nets.conductorsAt(other).length > 0)
      if (!wired) continue
      const others = paths.nets
        .pins(paths.nets.net(pin), 'chassis')
        .some((other) => other !== pin && other.does.kind === 'chassis' && other.does.earth === true)
      if (others) continue
      yield found({
        subject: pin.address,
        what: `The protective earth at ${pin.address} leads to no other earth`,
        why: 'The lead carries the supply and not the earth: a fault puts the case at mains voltage.',
        fix: 'Wire the earth through, green and yellow; cure hum in the audio.',
        facts: { pin: { value: pin.address } },
        at: pin.at,
        marks: [pin.address],
      })
    }
  },
}
