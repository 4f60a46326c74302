import { formatDecibels, formatOhms, formatPercent } from '../../base/format-quantity.ts'
import { dampingFactor } from '../../solve/formulas/damping-factor.ts'
import { loopOhmsForLoss } from '../../solve/formulas/line-loss.ts'
import { wired } from '../examples/wired.ts'
import { found, unknown } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (size: '0.5 mm²' | '2.5 mm²') =>
  wired({
    units: {
      amplifier: {
        pins: {
          '1': {
            kind: 'audio-out',
            level: 'speaker',
            leg: 'hot',
            port: 'out',
            minLoad: '4 Ω',
            watts: '20 W',
          },
          '2': {
            kind: 'audio-out',
            level: 'speaker',
            leg: 'cold',
            port: 'out',
            minLoad: '4 Ω',
            watts: '20 W',
          },
        },
      },
      horn: {
        role: 'speaker',
        pins: {
          '1': { kind: 'audio-in', level: 'speaker', leg: 'hot', port: 'coil', ohms: '4 Ω', watts: '40 W' },
          '2': { kind: 'audio-in', level: 'speaker', leg: 'cold', port: 'coil', ohms: '4 Ω', watts: '40 W' },
        },
      },
    },
    runs: [
      ['amplifier.1', 'horn.1', { size, length: '8 m', pair: 'TP1' }],
      ['amplifier.2', 'horn.2', { size, length: '8 m', pair: 'TP1' }],
    ],
  })

export const speakerLineLoss: Rule = {
  id: 'speaker-line-loss',
  title: 'A loudspeaker line loses little',
  family: 'audio',
  level: 'warning',
  covers: ['A6'],
  reason:
    'Thin wire turns power into heat instead of sound, and loosens the grip of the amplifier on the cone. In a noisy cab the lost decibel is the one that was needed.',
  remedy: 'Thicker or shorter wire, a higher impedance, or a 100 V line for long runs.',
  needs: 'impedances, sizes and lengths; policy "audio" for the limit and for damping',
  sources: ['professional audio cable tables, as reported: 0.5 dB, damping 25', 'common practice'],
  examples: { trips: example('0.5 mm²'), passes: example('2.5 mm²') },
  *check({ loom, solution, paths }) {
    const limit = loom.settings.lineLossDb
    const damping = loom.settings.stated.audio?.damping
    for (const { hot, speakers, loadOhms, lineOhms, lossDb, needs } of solution.speakers) {
      if (speakers.length === 0) continue
      const missing = needs.find((need) => need.startsWith('the size'))
      if (missing) {
        yield unknown(hot.address, `needs ${missing}`, hot.at)
        continue
      }
      const source = hot.does.kind === 'audio-out' ? (hot.does.ohms ?? 0) : 0
      const factor = dampingFactor(loadOhms, source, lineOhms)
      const loose = damping !== undefined && factor < damping
      if (-lossDb <= limit && !loose) continue
      const wanted = loopOhmsForLoss(loadOhms, limit)
      yield found({
        subject: hot.address,
        what: `The line of ${hot.address} loses ${formatDecibels(-lossDb)} on the way to ${formatOhms(loadOhms)}${loose ? `, damping ${factor.toFixed(0)}` : ''}`,
        why: `${formatOhms(lineOhms)} out and back beside ${formatOhms(loadOhms)}: ${formatPercent(1 - 10 ** (lossDb / 10))} less power in the loudspeakers (limit ${formatDecibels(limit)}${damping === undefined ? '' : `, damping ${damping}`}).`,
        fix: `Bring the line to ${formatOhms(wanted)} or less: ${(lineOhms / wanted).toFixed(1)} times the copper, or as much less length.`,
        facts: {
          loss: { value: -lossDb, unit: 'dB' },
          line: { value: lineOhms, unit: 'Ω' },
          load: { value: loadOhms, unit: 'Ω' },
          damping: { value: factor },
        },
        at: paths.nets.conductorsAt(hot)[0]?.at ?? hot.at,
        marks: [hot.address, ...speakers.map((speaker) => speaker.hot.address)],
      })
    }
  },
}
