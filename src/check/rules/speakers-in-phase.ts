import type { SpeakerNetwork } from '../../solve/solution.ts'
import { wired } from '../examples/wired.ts'
import { found, listOf } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const speaker = {
  role: 'speaker' as const,
  pins: {
    '1': {
      kind: 'audio-in' as const,
      level: 'speaker' as const,
      leg: 'hot' as const,
      port: 'coil',
      ohms: '8 Ω' as const,
      watts: '40 W' as const,
    },
    '2': {
      kind: 'audio-in' as const,
      level: 'speaker' as const,
      leg: 'cold' as const,
      port: 'coil',
      ohms: '8 Ω' as const,
      watts: '40 W' as const,
    },
  },
}

const example = (hot: string, cold: string) =>
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
      left: speaker,
      right: speaker,
    },
    splices: ['SP1', 'SP2'],
    runs: [
      ['amplifier.1', 'SP1', { size: '2.5 mm²' }],
      ['amplifier.2', 'SP2', { size: '2.5 mm²' }],
      ['SP1', 'left.1', { size: '2.5 mm²' }],
      ['SP2', 'left.2', { size: '2.5 mm²' }],
      ['SP1', hot, { size: '2.5 mm²' }],
      ['SP2', cold, { size: '2.5 mm²' }],
    ],
  })

/** Loudspeakers of one unit's outputs in one place are heard together. */
function groups(networks: readonly SpeakerNetwork[]): readonly SpeakerNetwork['speakers'][] {
  const byPlace = new Map<string, SpeakerNetwork['speakers'][number][]>()
  for (const { hot, speakers } of networks)
    for (const speaker of speakers) {
      const zone = speaker.hot.half?.unit?.zone ?? hot.address
      const key = `${hot.half?.unit?.id} ${zone}`
      byPlace.set(key, [...(byPlace.get(key) ?? []), speaker])
    }
  return [...byPlace.values()]
}

export const speakersInPhase: Rule = {
  id: 'speakers-in-phase',
  title: 'Loudspeakers heard together have one polarity',
  family: 'audio',
  level: 'warning',
  covers: ['A5'],
  reason:
    'One cone going out while the other goes in cancels the low half of the voice wherever both are heard.',
  remedy: 'Swap the two wires of one of them.',
  needs: '"leg" on the pins of outputs and loudspeakers',
  sources: ['mixer user guides, as reported', 'common practice'],
  examples: { trips: example('right.2', 'right.1'), passes: example('right.1', 'right.2') },
  *check({ solution, paths }) {
    for (const speakers of groups(solution.speakers)) {
      const wrong = speakers.filter((speaker) => speaker.polarity < 0)
      const right = speakers.filter((speaker) => speaker.polarity > 0)
      const odd = wrong.length <= right.length ? wrong : right
      const first = odd[0]
      if (!first || wrong.length === 0 || right.length === 0) continue
      const names = listOf(odd.map(({ hot }) => hot.half?.unit?.id ?? hot.address))
      yield found({
        subject: first.hot.address,
        what: `${names} ${odd.length === 1 ? 'is' : 'are'} connected the other way round than the ${speakers.length - odd.length} beside`,
        why: 'Followed from the hot leg of the output, an odd number of swaps lies on the way.',
        fix: `Swap the two wires at ${names}.`,
        facts: { reversed: { value: odd.length }, speakers: { value: speakers.length } },
        at: paths.nets.conductorsAt(first.hot)[0]?.at ?? first.hot.at,
        marks: odd.flatMap(({ hot, cold }) => [hot.address, cold.address]),
      })
    }
  },
}
