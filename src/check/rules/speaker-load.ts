import { formatOhms } from '../../base/format-quantity.ts'
import type { Terminal } from '../../resolve/loom.ts'
import type { SpeakerNetwork } from '../../solve/solution.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { count, found, listOf, unknown } from '../outcome.ts'
import { pinWords } from '../queries/pin-words.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (speakers: number) => {
  const names = Array.from({ length: speakers }, (_, index) => index + 1)
  return exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf(
        'radio',
        socket('J1', 'row-2', {
          '1': { kind: 'audio-out', name: 'SPK+', level: 'speaker', leg: 'hot', minLoad: '4 Ω', port: 'SPK' },
          '2': { kind: 'audio-out', name: 'SPK−', level: 'speaker', leg: 'cold', port: 'SPK' },
        }),
      ),
      ...names.map((n) =>
        unitOf(
          `speaker${n}`,
          socket('J2', 'row-2', {
            '1': { kind: 'audio-in', level: 'speaker', leg: 'hot', ohms: '4 Ω', port: 'COIL' },
            '2': { kind: 'audio-in', level: 'speaker', leg: 'cold', ohms: '4 Ω', port: 'COIL' },
          }),
        ),
      ),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'radio.J1' },
        ...names.map((n) => ({
          id: `S${n}`,
          family: 'row-2',
          half: 'pin' as const,
          fits: `speaker${n}.J2` as const,
          zone: `place-${n}`,
        })),
      ],
      splices: [{ id: 'SP1' }, { id: 'SP2' }],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'SP1', size: '0.75 mm²', length: '2 m', pair: 'TP1' },
        { id: 'A02', from: 'P1.2', to: 'SP2', size: '0.75 mm²', length: '2 m', pair: 'TP1' },
        ...names.flatMap((n) => [
          { id: `B${n}`, from: 'SP1', to: `S${n}.1`, size: '0.75 mm²' as const, length: '1 m' as const },
          { id: `C${n}`, from: 'SP2', to: `S${n}.2`, size: '0.75 mm²' as const, length: '1 m' as const },
        ]),
      ],
    },
  })
}

/** Impedances are nominal figures: a load this little under the limit is on it. */
const SLACK = 0.97

const minLoadOf = ({ does }: Terminal): number | undefined =>
  does.kind === 'audio-out' ? does.minLoad : undefined

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0)

/** `4 Ω ∥ 4 Ω = 2 Ω`, where the loudspeakers lie side by side or in a row; else the figure of the network alone. */
function sumWords({ speakers, loadOhms }: SpeakerNetwork): string {
  const ohms = speakers.map((speaker) => speaker.ohms)
  const near = (value: number): boolean => Math.abs(value - loadOhms) < 0.02 * loadOhms
  const total = formatOhms(loadOhms)
  if (ohms.length < 2) return total
  const by = (sign: string): string => `${ohms.map(formatOhms).join(` ${sign} `)} = ${total}`
  if (near(1 / sum(ohms.map((each) => 1 / each)))) return by('∥')
  return near(sum(ohms)) ? by('+') : `${count(ohms.length, 'loudspeaker')} together are ${total}`
}

/** What cures a load that is too low, with the figure each cure gives. */
function cureWords({ speakers }: SpeakerNetwork, limit: number): string {
  const ohms = speakers.map((speaker) => speaker.ohms)
  const least = Math.min(...ohms)
  const cures = [
    ...(ohms.length > 1 && sum(ohms) >= limit
      ? [`put them in series: ${ohms.map(formatOhms).join(' + ')} = ${formatOhms(sum(ohms))}`]
      : []),
    ...(ohms.length > 1
      ? [
          `fit loudspeakers of ${formatOhms(limit * ohms.length)} each: side by side ${formatOhms(limit)}`,
          ...(least >= limit ? [`keep one: ${formatOhms(least)}`] : []),
        ]
      : [`fit a loudspeaker of ${formatOhms(limit)} or more`]),
  ]
  const text = cures.join('; or ')
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`
}

function tooLow(network: SpeakerNetwork, limit: number): Outcome {
  const { hot, cold, speakers, loadOhms } = network
  const bridged = hot.does.kind === 'audio-out' && hot.does.bridged === true
  const units = speakers.map((speaker) => speaker.hot.half?.unit?.id ?? speaker.hot.address)
  return found({
    subject: hot.address,
    what: `The loudspeakers on ${hot.address} are ${formatOhms(loadOhms)} together (limit ${formatOhms(limit)})`,
    why: `${listOf(units)}: ${sumWords(network)}. The output gives ${(limit / loadOhms).toFixed(1)} times its rated current${
      bridged ? `, and each half of the bridge works into ${formatOhms(loadOhms / 2)}` : ''
    }; it overheats or shuts down.`,
    fix: cureWords(network, limit),
    facts: {
      load: { value: loadOhms, unit: 'Ω' },
      limit: { value: limit, unit: 'Ω' },
      speakers: { value: speakers.length },
    },
    at: hot.at,
    marks: [hot.address, ...(cold ? [cold.address] : []), ...speakers.map((speaker) => speaker.hot.address)],
  })
}

function judge(network: SpeakerNetwork): Outcome | undefined {
  const { hot, cold, speakers, loadOhms, needs } = network
  const limit = minLoadOf(hot) ?? (cold && minLoadOf(cold))
  const open = needs.filter((need) => !need.startsWith('the size and length'))
  // An output that reaches no loudspeaker may have no other leg either, and that is then no question of load.
  if (speakers.length === 0 && open.every((need) => need.startsWith('the other leg'))) return undefined
  if (limit === undefined)
    return unknown(hot.address, `needs the lowest load ${pinWords(hot)} may drive`, hot.at)
  // A loudspeaker left out of the sum can only lower it, so what is already too low is found all the same.
  if (loadOhms < limit * SLACK) return tooLow(network, limit)
  return open[0] ? unknown(hot.address, `needs ${listOf(open, 3)}`, hot.at) : undefined
}

export const speakerLoad: Rule = {
  id: 'speaker-load',
  title: 'The loudspeakers of an output are not below its lowest load',
  family: 'audio',
  level: 'stop',
  covers: ['A3'],
  reason:
    'Each loudspeaker added side by side lowers the impedance. Below the lowest load the output stage carries more current than it is made for, worst for a bridged one, whose halves see half the load each.',
  remedy: 'Put loudspeakers in series, take some of a higher impedance, or keep fewer.',
  needs: 'the lowest load of the output and the impedance of each loudspeaker',
  sources: ['common practice: a bridged half sees half the load'],
  examples: { trips: example(2), passes: example(1) },
  *check({ solution }) {
    for (const network of solution.speakers) {
      const outcome = judge(network)
      if (outcome) yield outcome
    }
  },
}
