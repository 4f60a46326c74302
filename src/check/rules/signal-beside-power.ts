import { formatAmps, formatDecibels, formatLength } from '../../base/format-quantity.ts'
import type { Conductor, Loom } from '../../resolve/loom.ts'
import { voltsFromDbu } from '../../solve/formulas/audio-level.ts'
import { signalToNoiseDb } from '../../solve/formulas/common-impedance.ts'
import { wireToLoopHenries } from '../../solve/formulas/magnetic-coupling.ts'
import { cell, load, wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule } from '../rule.ts'

const example = (bundle: 'floor' | 'roof') =>
  wired({
    units: {
      supply: cell({ maxAmps: '8 A' }),
      heater: load('6 A'),
      microphone: {
        pins: {
          '1': { kind: 'audio-out', level: 'mic', leg: 'single', port: 'mic', ohms: '200 Ω' },
          '2': { kind: 'signal-return', port: 'mic' },
        },
      },
      radio: {
        pins: {
          '1': { kind: 'audio-in', level: 'mic', leg: 'single', port: 'mic', ohms: '2 kΩ' },
          '2': { kind: 'signal-return', port: 'mic' },
        },
      },
    },
    runs: [
      ['supply.1', 'heater.1', { size: '4 mm²', length: '2 m', bundle: 'floor' }],
      ['supply.2', 'heater.2', { size: '4 mm²', length: '2 m', bundle: 'floor' }],
      ['microphone.1', 'radio.1', { length: '2 m', bundle }],
      ['microphone.2', 'radio.2', { length: '2 m', bundle }],
    ],
  })

const LEAST_AMPS = 1
const LEAST_MM = 1000
const RIPPLE = 0.05
const HERTZ = 1000
/** A signal wire and its return side by side, against the middle of a bundle. */
const GAP_MM = 5
const WIDTH_MM = 3
const LEAST_DB = 40

const bundleOf = ({ source, cable, loom }: Conductor): string | undefined => {
  const name = ('bundle' in source ? source.bundle : undefined) ?? cable?.source.bundle
  return name === undefined ? undefined : `${loom.id} ${name}`
}

const MIC_DBU = -50

/** Conductors of a microphone signal that are neither twisted nor screened. */
function isOpenMic(loom: Loom, conductor: Conductor): boolean {
  if (
    conductor.kind === 'shield' ||
    conductor.pair !== undefined ||
    (conductor.cable?.part?.shields?.length ?? 0) > 0
  )
    return false
  const net = conductor.from && loom.nets[loom.netOf[conductor.from.index] ?? -1]
  return (
    net?.terminals.some(
      ({ on, does }) => on === 'equipment' && does.kind === 'audio-out' && does.level === 'mic',
    ) ?? false
  )
}

export const signalBesidePower: Rule = {
  id: 'signal-beside-power',
  title: 'Microphone leads do not run long beside power',
  family: 'grounding',
  level: 'warning',
  covers: ['G10'],
  reason:
    'The field of a supply lead induces a voltage in every open pair beside it. A microphone gives millivolts, so a metre or two in one bundle is heard.',
  remedy: 'Another route, crossing at right angles, twisted pair, screen.',
  needs: '"bundle" of the conductors, lengths and load currents',
  sources: [
    'vehicle maker’s mobile-radio installation guidelines, 1998, as reported',
    'FCS 1362:2010 §4.2.5.1',
  ],
  examples: { trips: example('floor'), passes: example('roof') },
  *check({ loom, solution }) {
    const power = new Map<string, { conductor: Conductor; amps: number }>()
    for (const [conductor, { amps }] of solution.worstAmps) {
      const bundle = bundleOf(conductor)
      if (bundle !== undefined && amps > LEAST_AMPS && amps > (power.get(bundle)?.amps ?? 0))
        power.set(bundle, { conductor, amps })
    }
    for (const signal of loom.conductors) {
      const beside = power.get(bundleOf(signal) ?? '')
      const lengthMm = Math.min(signal.lengthMm ?? 0, beside?.conductor.lengthMm ?? 0)
      if (!beside || lengthMm < LEAST_MM || !isOpenMic(loom, signal)) continue
      const noise = 2 * Math.PI * HERTZ * wireToLoopHenries(lengthMm, GAP_MM, WIDTH_MM) * beside.amps * RIPPLE
      const under = signalToNoiseDb(voltsFromDbu(MIC_DBU), noise)
      if (under >= LEAST_DB) continue
      yield found({
        subject: signal.address,
        what: `${signal.id}, an open microphone lead, runs ${formatLength(lengthMm)} beside ${beside.conductor.id} with ${formatAmps(beside.amps)}: noise ${formatDecibels(under)} under the signal`,
        why: `A twentieth of the current as ripple of 1 kHz induces about ${(noise * 1e6).toFixed(0)} µV at ${GAP_MM} mm, against ${(voltsFromDbu(MIC_DBU) * 1e6).toFixed(0)} µV of a microphone; ${formatDecibels(LEAST_DB)} are wanted.`,
        fix: 'Route it apart, twist it with its return, or use a screened pair.',
        assumed: ['a twentieth of the current is ripple', `${GAP_MM} mm apart`, 'a microphone gives -50 dBu'],
        facts: {
          length: { value: lengthMm, unit: 'mm' },
          noise: { value: noise, unit: 'V' },
          under: { value: under, unit: 'dB' },
        },
        at: signal.at,
        marks: [signal.address, beside.conductor.address],
      })
    }
  },
}
