import { formatPercent, formatWatts } from '../../base/format-quantity.ts'
import type { SpeakerNetwork } from '../../solve/solution.ts'
import { exampleLead, rowHousing, socket, unitOf } from '../examples/parts.ts'
import { found, unknown } from '../outcome.ts'
import type { Outcome, Rule } from '../rule.ts'

const example = (watts: '10 W' | '40 W') => {
  const leg = (name: 'hot' | 'cold') =>
    ({
      kind: 'audio-out',
      level: 'speaker',
      leg: name,
      port: 's',
      bridged: true,
      minLoad: '4 Ω',
      watts: '15 W',
    }) as const
  const coil = (name: 'hot' | 'cold') =>
    ({ kind: 'audio-in', level: 'speaker', leg: name, port: 'c', ohms: '4 Ω', watts }) as const
  return exampleLead({
    parts: [rowHousing(2)],
    equipment: [
      unitOf('radio', socket('J1', 'row-2', { '1': leg('hot'), '2': leg('cold') })),
      unitOf('speaker', socket('J2', 'row-2', { '1': coil('hot'), '2': coil('cold') })),
    ],
    harness: {
      connectors: [
        { id: 'P1', family: 'row-2', half: 'pin', fits: 'radio.J1' },
        { id: 'P2', family: 'row-2', half: 'pin', fits: 'speaker.J2' },
      ],
      wires: [
        { id: 'A01', from: 'P1.1', to: 'P2.1', size: '0.75 mm²', length: '2 m' },
        { id: 'A02', from: 'P1.2', to: 'P2.2', size: '0.75 mm²', length: '2 m' },
      ],
    },
  })
}

type Speaker = SpeakerNetwork['speakers'][number]

/** A loudspeaker has to be rated above what it gets, not just for it: speech peaks and a clipped signal carry more. */
function judge(network: SpeakerNetwork, speaker: Speaker): Outcome | undefined {
  const { hot, share } = speaker
  if (speaker.watts === undefined)
    return unknown(
      hot.address,
      `needs the power of ${network.hot.address} and its lowest load`,
      network.hot.at,
    )
  const rated = [speaker.hot, speaker.cold].flatMap(({ does }) =>
    does.kind === 'audio-in' && does.watts !== undefined ? [does.watts] : [],
  )[0]
  if (rated === undefined) return unknown(hot.address, `needs the power ${hot.address} is rated for`, hot.at)
  // What the line takes away is no margin to count on: a shorter lead gives it back.
  const watts = speaker.watts / 10 ** (network.lossDb / 10)
  if (watts < rated * 0.999) return undefined
  const { does } = network.hot
  return found({
    subject: hot.address,
    what: `${hot.half?.unit?.id ?? hot.address} gets up to ${formatWatts(watts)} and is rated ${formatWatts(rated)}`,
    why: `${network.hot.address} gives ${formatWatts(does.kind === 'audio-out' ? (does.watts ?? 0) : 0)} into its lowest load; ${formatPercent(share)} of what it delivers here goes to this one.`,
    fix: `Fit a loudspeaker rated above ${formatWatts(watts)}; twice that is comfortable.`,
    facts: {
      power: { value: watts, unit: 'W' },
      rating: { value: rated, unit: 'W' },
      share: { value: share * 100, unit: '%' },
    },
    at: hot.at,
    marks: [network.hot.address, hot.address],
  })
}

export const speakerPower: Rule = {
  id: 'speaker-power',
  title: 'Each loudspeaker is rated above the power it gets',
  family: 'audio',
  level: 'warning',
  covers: ['A4'],
  reason:
    'A loudspeaker rated for just what the output gives burns out at the first long shout: a clipped signal carries more than its rated power.',
  remedy: 'A loudspeaker rated above its share; 40 W for an output of 15 W is comfortable.',
  needs: 'power and lowest load of the output, impedance and rating of the loudspeakers',
  sources: [
    'P = V² / Z, shared by impedance',
    'common practice: 15 W into 4 Ω wants a loudspeaker rated above that',
  ],
  examples: { trips: example('10 W'), passes: example('40 W') },
  *check({ solution }) {
    for (const network of solution.speakers)
      for (const speaker of network.speakers) {
        const outcome = judge(network, speaker)
        if (outcome) yield outcome
      }
  },
}
