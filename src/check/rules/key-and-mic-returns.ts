import type { Conductor, Loom, Terminal } from '../../resolve/loom.ts'
import type { Paths } from '../../solve/paths.ts'
import { throughMetal } from '../../solve/reach.ts'
import { wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (own: boolean) =>
  wired({
    units: {
      radio: {
        pins: {
          '1': { kind: 'audio-in', level: 'mic', leg: 'single', port: 'mic' },
          '2': { kind: 'signal-return', port: 'mic' },
          '3': { kind: 'switch-in', purpose: 'key', active: 'low', pull: 'up', rail: '5 V' },
          '4': { kind: 'signal-return' },
        },
        joins: [{ pins: ['J.2', 'J.4'] }],
      },
      fist: {
        pins: {
          '1': { kind: 'audio-out', level: 'mic', leg: 'single', port: 'mic' },
          '2': { kind: 'signal-return', port: 'mic' },
          '3': { kind: 'contact', port: 'ptt', rest: 'open' },
          '4': { kind: 'contact', port: 'ptt' },
        },
      },
    },
    splices: own ? [] : ['SP1'],
    runs: [
      ['radio.1', 'fist.1'],
      ['radio.3', 'fist.3'],
      ...(own
        ? ([
            ['radio.2', 'fist.2'],
            ['radio.4', 'fist.4'],
          ] as const)
        : ([
            ['radio.2', 'SP1'],
            ['SP1', 'fist.2', { length: '0.05 m' }],
            ['SP1', 'fist.4', { length: '0.05 m' }],
          ] as const)),
    ],
  })

interface Hand {
  readonly key: Terminal
  readonly keyBack: Terminal
  readonly micBack: Terminal
}

/** Microphone units with a key contact of their own, both ends of which come out. */
function hands(loom: Loom, paths: Paths): readonly Hand[] {
  return loom.units.flatMap((unit) => {
    const pins = unit.halves.flatMap((half) => [...half.pins.values()])
    const mic = pins.find(
      (pin) => pin.does.kind === 'audio-out' && pin.does.level === 'mic' && pin.does.leg !== 'cold',
    )
    const micBack = mic && paths.nets.otherLeg(mic)
    if (!micBack) return []
    return pins.flatMap((key): Hand[] => {
      if (key.does.kind !== 'contact' || key.does.port === undefined) return []
      const keyed = paths.nets.pins(paths.nets.net(key), 'switch-in')
      if (!keyed.some((pin) => pin.does.kind === 'switch-in' && pin.does.purpose === 'key')) return []
      const keyBack = pins.find(
        (pin) => pin !== key && pin.does.kind === 'contact' && pin.does.port === key.does.port,
      )
      return keyBack && keyBack !== micBack ? [{ key, keyBack, micBack }] : []
    })
  })
}

const conductorsOf = (links: ReturnType<Paths['between']>): readonly Conductor[] =>
  (links ?? []).flatMap((link) => (link.conductor ? [link.conductor] : []))

/** Conductors that both returns use on their way to the radio. */
function shared({ keyBack, micBack, key }: Hand, paths: Paths): readonly Conductor[] {
  const radio = paths.nets
    .pins(paths.nets.net(key), 'switch-in')
    .find((pin) => pin.half?.unit !== key.half?.unit)?.half?.unit
  const homes = (radio?.halves ?? [])
    .flatMap((half) => [...half.pins.values()])
    .filter((pin) => pin.does.kind === 'signal-return' || pin.does.kind === 'return')
  const first = (from: Terminal) =>
    homes
      .map((home) => paths.between(from, home, throughMetal))
      .filter((links) => links !== undefined)
      .sort((a, b) => a.length - b.length)[0]
  const own = new Set(conductorsOf(first(keyBack)))
  return conductorsOf(first(micBack)).filter((conductor) => own.has(conductor))
}

export const keyAndMicReturns: Rule = {
  id: 'key-and-mic-returns',
  title: 'The key line and the microphone have returns of their own',
  family: 'switching',
  level: 'warning',
  covers: ['L8'],
  reason:
    'The key current, and the radio-frequency current that comes with it, flows through the resistance of a shared return and adds itself to the microphone: a click, a hum, a howl while transmitting.',
  remedy: 'A return wire for each; the screen to chassis only.',
  needs: 'microphone and key contact of one unit with their return pins',
  sources: ['notes on radio-frequency interference in audio by an acoustics consultant (K9YC)'],
  examples: { trips: example(false), passes: example(true) },
  *check({ loom, paths }) {
    for (const hand of hands(loom, paths)) {
      const both = shared(hand, paths)
      const wire = both[0]
      if (!wire) continue
      yield found({
        subject: wire.address,
        what: `${wire.id} is the return of both the key line and the microphone of ${hand.key.half?.unit?.id}`,
        why: `${hand.keyBack.address} and ${hand.micBack.address} meet before the radio, so the key current flows in the return of the microphone.`,
        fix: `Run a return of its own from ${hand.keyBack.address}.`,
        facts: { key: { value: hand.keyBack.address }, microphone: { value: hand.micBack.address } },
        at: wire.at,
        marks: [wire.address, hand.keyBack.address, hand.micBack.address],
      })
    }
  },
}
