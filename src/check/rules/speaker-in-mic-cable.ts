import type { Conductor, Half, Net } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (part: 'screened-2x2x0.22' | 'speaker-2x2.5') =>
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
          '1': { kind: 'audio-in', level: 'speaker', leg: 'hot', port: 'coil', ohms: '8 Ω', watts: '40 W' },
          '2': { kind: 'audio-in', level: 'speaker', leg: 'cold', port: 'coil', ohms: '8 Ω', watts: '40 W' },
        },
      },
    },
    cables: [
      {
        id: 'W1',
        part,
        length: '1 m',
        spareCores: 'cut-off',
        cores:
          part === 'speaker-2x2.5'
            ? [
                { core: 'plus', from: 'amplifier.1', to: 'horn.1' },
                { core: 'minus', from: 'amplifier.2', to: 'horn.2' },
              ]
            : [
                { core: '1a', from: 'amplifier.1', to: 'horn.1' },
                { core: '1b', from: 'amplifier.2', to: 'horn.2' },
              ],
        ...(part === 'speaker-2x2.5' ? {} : { shields: [{ shield: 'screen', from: 'amplifier.shell' }] }),
      },
    ],
  })

const isSpeakerNet = (net: Net): boolean =>
  net.terminals.some(
    ({ on, does }) => on === 'equipment' && does.kind === 'audio-out' && does.level === 'speaker',
  )

const isMicCable = ({ cable }: Conductor): boolean =>
  cable?.part?.use === 'audio' && (cable.part.shields?.length ?? 0) > 0

/** Round three-pin audio plugs carry microphones everywhere else. */
const isMicPlug = (half: Half | undefined): boolean => half?.familyId === 'xlr-3'

export const speakerInMicCable: Rule = {
  id: 'speaker-in-mic-cable',
  title: 'Loudspeaker current does not run in microphone cable or plugs',
  family: 'audio',
  level: 'warning',
  covers: ['A17'],
  reason:
    'Screened microphone cable is thin and its capacitance can make an amplifier ring. A loudspeaker lead with microphone plugs ends up in a microphone input one day.',
  remedy: 'Loudspeaker cable, and a locking loudspeaker connector.',
  needs: '"use" of the cable, and the families of the plugs',
  sources: ['sound handbooks, as reported', 'common practice'],
  examples: { trips: example('screened-2x2x0.22'), passes: example('speaker-2x2.5') },
  *check({ loom }) {
    const told = new Set<string>()
    for (const net of loom.nets) {
      if (!isSpeakerNet(net)) continue
      for (const conductor of net.conductors) {
        const plug = [conductor.from, conductor.to].find((end) => isMicPlug(end?.half))?.half
        const cable = isMicCable(conductor) ? conductor.cable : undefined
        const subject = cable ?? plug
        if (!subject || told.has(subject.address)) continue
        told.add(subject.address)
        yield found({
          subject: subject.address,
          what: cable
            ? `${cable.id}, a screened audio cable, carries loudspeaker current`
            : `${plug?.address}, a microphone plug, carries loudspeaker current`,
          why: cable
            ? `${cable.part?.title ?? cable.source.part}: thin cores, and a screen whose capacitance loads the amplifier.`
            : 'It goes into any microphone socket, which loudspeaker volts destroy.',
          fix: cable ? 'Use loudspeaker cable of two plain cores.' : 'Use a loudspeaker connector.',
          facts: { net: { value: net.name } },
          at: subject.at,
          marks: [subject.address, conductor.address],
        })
      }
    }
  },
}
