import type { Terminal } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (mono: boolean) =>
  wired({
    units: {
      player: {
        pins: {
          '1': { kind: 'audio-out', level: 'line', leg: 'single', port: 'left' },
          '2': { kind: 'audio-out', level: 'line', leg: 'single', port: 'right' },
          '3': { kind: 'signal-return' },
        },
      },
      desk: {
        pins: {
          '1': { kind: 'audio-in', level: 'line', leg: 'hot', port: 'in' },
          '2': { kind: 'audio-in', level: 'line', leg: 'cold', port: 'in', note: 'cold to source ground' },
          '3': { kind: 'signal-return' },
        },
      },
    },
    splices: mono ? ['SP1'] : [],
    runs: [
      ['player.1', 'desk.1', { pair: 'TP1' }],
      ...(mono
        ? ([
            ['player.3', 'SP1'],
            ['SP1', 'desk.2', { length: '0.05 m', pair: 'TP1' }],
            ['SP1', 'desk.3', { length: '0.05 m' }],
          ] as const)
        : ([
            ['player.2', 'desk.2', { pair: 'TP1' }],
            ['player.3', 'desk.3'],
          ] as const)),
    ],
  })

export const stereoIntoBalanced: Rule = {
  id: 'stereo-into-balanced',
  title: 'Left and right do not go into the two legs of one balanced input',
  family: 'audio',
  level: 'warning',
  covers: ['A18'],
  reason:
    'A balanced input takes the difference of its legs: left minus right. What is in the middle, the voice above all, cancels.',
  remedy: 'A summing box with two resistors, or two inputs.',
  needs: '"leg" and "port" of the audio pins',
  sources: ['articles on balanced audio, as reported: the input hears L − R'],
  examples: { trips: example(false), passes: example(true) },
  *check({ loom, paths }) {
    const single = (pin: Terminal | undefined): Terminal | undefined =>
      pin &&
      paths.nets
        .pins(paths.nets.net(pin), 'audio-out')
        .find(({ does }) => does.kind === 'audio-out' && does.leg !== 'hot' && does.leg !== 'cold')
    for (const hot of loom.terminals) {
      const { does } = hot
      if (
        hot.on !== 'equipment' ||
        does.kind !== 'audio-in' ||
        does.leg !== 'hot' ||
        does.level === 'speaker'
      )
        continue
      const cold = paths.nets.otherLeg(hot)
      if (cold?.does.kind !== 'audio-in') continue
      const [left, right] = [single(hot), single(cold)]
      if (!left || !right || left === right || left.half?.unit !== right.half?.unit) continue
      yield found({
        subject: hot.address,
        what: `${left.address} and ${right.address} go into the two legs of one input, ${hot.address} and ${cold.address}`,
        why: 'The input hears the difference of the two: what both carry alike is gone.',
        fix: 'Sum them through a resistor each into the hot leg, with the cold leg on the source ground, or use two inputs.',
        facts: { left: { value: left.address }, right: { value: right.address } },
        at: paths.nets.conductorsAt(hot)[0]?.at ?? hot.at,
        marks: [left.address, right.address, hot.address, cold.address],
      })
    }
  },
}
