import { formatDbu, formatDecibels } from '../../base/format-quantity.ts'
import { wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import { audioLinks, levelOf } from '../queries/audio-links.ts'
import { functionWords } from '../queries/pin-words.ts'
import type { Rule } from '../rule.ts'

const example = (dbu: '+4 dBu' | '-50 dBu') =>
  wired({
    units: {
      player: {
        pins: {
          '1': {
            kind: 'audio-out',
            level: dbu === '+4 dBu' ? 'line' : 'mic',
            leg: 'single',
            port: 'out',
            dbu,
            ohms: '150 Ω',
          },
          '2': { kind: 'signal-return', port: 'out' },
        },
      },
      radio: {
        pins: {
          '1': { kind: 'audio-in', level: 'mic', leg: 'single', port: 'mic', dbu: '-50 dBu', ohms: '2 kΩ' },
          '2': { kind: 'signal-return', port: 'mic' },
        },
      },
    },
    runs: [
      ['player.1', 'radio.1'],
      ['player.2', 'radio.2'],
    ],
  })

/** Gain controls take up this much: common practice. */
const MOST_DB = 10

export const audioLevelsMatch: Rule = {
  id: 'audio-levels-match',
  title: 'An output and the input it feeds are at one level',
  family: 'audio',
  level: 'warning',
  covers: ['A8', 'A9'],
  reason:
    'A line output into a microphone input distorts at any gain; the other way round drowns in noise. A loudspeaker output into either breaks the input.',
  remedy: 'A pad, a transformer, a gain setting, or another port.',
  needs: '"level" of both ports, and "dbu" where it is known',
  sources: ['level-matching notes, as reported', 'common practice'],
  examples: { trips: example('+4 dBu'), passes: example('-50 dBu') },
  *check({ loom }) {
    for (const net of loom.nets)
      for (const { output, inputs } of audioLinks(net))
        for (const input of inputs) {
          const speaker = output.does.level === 'speaker'
          // A line output may drive a headphone or the reverse; only what is stated tells.
          if (input.does.level === 'speaker') continue
          const [out, inn] = [levelOf(output), levelOf(input)]
          const over = out.dbu - inn.dbu
          if (Math.abs(over) <= MOST_DB) continue
          if (!speaker && output.does.level === input.does.level && !(out.stated && inn.stated)) continue
          yield found({
            subject: input.address,
            level: speaker ? 'stop' : 'warning',
            what: `${output.address} (${functionWords(output.does)}, ${formatDbu(out.dbu)}) feeds ${input.address} (${functionWords(input.does)}, ${formatDbu(inn.dbu)})`,
            why: `${formatDecibels(Math.abs(over))} too ${over > 0 ? 'much: the input distorts' : 'little: noise comes up with the gain'}${speaker ? ', and it is not made for such a voltage' : ''}.`,
            fix:
              over > 0
                ? `Put a pad or a transformer of about ${formatDecibels(over)} between, or use another port.`
                : 'Use an input of the level of the output, or an amplifier between.',
            assumed: [out, inn].every((level) => level.stated)
              ? []
              : ['usual level of a port where none is stated'],
            facts: { difference: { value: over, unit: 'dB' }, output: { value: output.address } },
            at: net.conductors[0]?.at ?? input.at,
            marks: [output.address, input.address],
          })
        }
  },
}
