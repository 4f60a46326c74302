import { formatDecibels, formatVolts } from '../../base/format-quantity.ts'
import type { Terminal } from '../../resolve/loom.ts'
import { voltsFromDbu } from '../../solve/formulas/audio-level.ts'
import { signalToNoiseDb } from '../../solve/formulas/common-impedance.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import { audioLinks, levelOf } from '../queries/audio-links.ts'
import type { Rule, RuleContext } from '../rule.ts'

const example = (own: boolean) =>
  wired({
    units: {
      supply: cell({ maxAmps: '3 A' }),
      radio: {
        pins: {
          '1': { kind: 'return', port: 'dc' },
          '2': { kind: 'audio-in', level: 'mic', leg: 'single', port: 'mic', ohms: '2 kΩ' },
          '3': { kind: 'signal-return', port: 'mic' },
        },
        joins: [{ pins: ['J.1', 'J.3'] }],
      },
      console: {
        pins: {
          ...load('2 A').pins,
          '3': { kind: 'audio-out', level: 'mic', leg: 'single', port: 'mic', ohms: '200 Ω' },
          '4': { kind: 'signal-return', port: 'mic' },
        },
        ...(own ? {} : { joins: [{ pins: ['J.2', 'J.4'] }] }),
      },
    },
    splices: ['SP1'],
    runs: [
      ['supply.1', 'console.1', { size: '2.5 mm²', length: '0.2 m' }],
      ['console.2', 'SP1', { size: '2.5 mm²', length: '2 m' }],
      ['SP1', 'supply.2', { size: '2.5 mm²', length: '0.2 m' }],
      ['radio.1', 'SP1', { size: '2.5 mm²', length: '0.2 m' }],
      ['console.3', 'radio.2'],
      ...(own ? ([['console.4', 'radio.3']] as const) : []),
    ],
  })

/** Signals are wanted this far above what the supply puts on their return. */
const LEAST_DB = 40
/** Part of a load's current that sounds: common practice for switching and audio loads. */
const RIPPLE = 0.05

/** The greatest difference between two returns over all states. */
function apart(
  { solution }: RuleContext,
  a: Terminal,
  b: Terminal,
): { volts: number; state: string } | undefined {
  let most: { volts: number; state: string } | undefined
  for (const { state, volts } of solution.states) {
    const difference = Math.abs((volts[a.index] ?? Number.NaN) - (volts[b.index] ?? Number.NaN))
    if (difference > (most?.volts ?? 0)) most = { volts: difference, state: state.id }
  }
  return most
}

export const noiseInSharedReturn: Rule = {
  id: 'noise-in-shared-return',
  title: 'A signal return does not carry supply current',
  family: 'grounding',
  level: 'warning',
  covers: ['G6'],
  reason:
    'The return of an unbalanced signal is half of the signal. Supply current through its resistance adds a voltage that the input cannot tell from the signal: whine, hum, clicks.',
  remedy: 'A return of its own to one common point, or a transformer.',
  needs: 'the returns of unbalanced audio ports, and the currents and lengths of the returns',
  sources: ['Whitlock, common-impedance coupling', 'common practice: 40 dB'],
  examples: { trips: example(false), passes: example(true) },
  *check(context) {
    const { loom, paths } = context
    for (const net of loom.nets)
      for (const { output, inputs } of audioLinks(net))
        for (const input of inputs) {
          if (output.does.leg === 'hot' || input.does.leg === 'hot' || input.does.level === 'speaker')
            continue
          const [a, b] = [paths.nets.otherLeg(output), paths.nets.otherLeg(input)]
          const gap = a && b ? apart(context, a, b) : undefined
          if (!a || !b || !gap) continue
          const signal = voltsFromDbu(levelOf(input).dbu)
          const noise = gap.volts * RIPPLE
          const below = signalToNoiseDb(signal, noise)
          if (below >= LEAST_DB) continue
          const wire = paths.nets.conductorsAt(a)[0]
          yield found({
            subject: input.address,
            what: `${formatVolts(gap.volts)} of supply drop lie between the returns of ${output.address} and ${input.address}: noise ${formatDecibels(below)} under the signal`,
            why: `${formatVolts(gap.volts)} in ${gap.state}, a twentieth of it (${(noise * 1e6).toFixed(0)} µV) as noise, against ${(signal * 1e6).toFixed(0)} µV of signal; ${formatDecibels(LEAST_DB)} are wanted.`,
            fix: 'Give the signal a return of its own that carries no supply, or put a transformer in the line.',
            assumed: ['a twentieth of the supply current is audible ripple'],
            facts: {
              drop: { value: gap.volts, unit: 'V' },
              noise: { value: noise, unit: 'V' },
              under: { value: below, unit: 'dB' },
            },
            at: (wire ?? input).at,
            marks: [output.address, input.address, a.address, b.address],
          })
        }
  },
}
