import { formatVolts } from '../../base/format-quantity.ts'
import type { Conductor } from '../../resolve/loom.ts'
import { wired } from '../examples/wired.ts'
import { found } from '../outcome.ts'
import type { Rule, RuleContext } from '../rule.ts'

const example = (bundle: 'duct' | 'own') =>
  wired({
    units: {
      outlet: {
        pins: {
          '1': { kind: 'supply-out', port: 'mains', volts: '230 V', maxAmps: '2 A' },
          '2': { kind: 'return', port: 'mains', isolated: true },
        },
      },
      charger: {
        pins: {
          '1': { kind: 'supply-in', port: 'mains', amps: '1 A', volts: '207..253 V' },
          '2': { kind: 'return', port: 'mains', isolated: true },
        },
      },
      supply: {
        pins: {
          '1': { kind: 'supply-out', port: 'dc', volts: '12 V', maxAmps: '2 A' },
          '2': { kind: 'return', port: 'dc' },
        },
      },
      radio: {
        pins: {
          '1': { kind: 'supply-in', port: 'dc', amps: '1 A', volts: '10..16 V' },
          '2': { kind: 'return', port: 'dc' },
        },
      },
    },
    runs: [
      ['outlet.1', 'charger.1', { size: '1.5 mm²', bundle: 'duct' }],
      ['outlet.2', 'charger.2', { size: '1.5 mm²', bundle: 'duct' }],
      ['supply.1', 'radio.1', { size: '1.5 mm²', bundle }],
      ['supply.2', 'radio.2', { size: '1.5 mm²', bundle }],
    ],
  })

/** Above this a supply is no extra-low voltage: IEC 60364 for DC, from memory. */
const LOW_VOLTS = 60

const togetherIn = ({ cable, source }: Conductor): readonly string[] => [
  ...(cable ? [`cable ${cable.id}`] : []),
  ...('bundle' in source && source.bundle !== undefined ? [`bundle ${source.bundle}`] : []),
  ...(cable?.source.bundle === undefined ? [] : [`bundle ${cable.source.bundle}`]),
]

const voltsOf = ({ paths }: RuleContext, { from, to }: Conductor): number | undefined => {
  const reached = (from && paths.highestVolts(from)) ?? (to && paths.highestVolts(to))
  return reached?.source.does.kind === 'supply-out' ? reached.volts : undefined
}

export const mainsApart: Rule = {
  id: 'mains-apart',
  title: 'Mains and low voltage do not share a sheath or duct',
  family: 'grounding',
  level: 'stop',
  covers: ['G11'],
  reason:
    'When insulation rubs through in a shared duct the low-voltage side stands at mains voltage, and everything and everybody on it.',
  remedy: 'Separate ducts, or a barrier between.',
  needs: 'voltages of supplies, and which conductors run together ("bundle", cables)',
  sources: ['ISO 10133 §7.8', 'ABYC E-11, as reported'],
  examples: { trips: example('duct'), passes: example('own') },
  *check(context) {
    const places = new Map<string, { high?: Conductor; highVolts: number; low?: Conductor }>()
    for (const conductor of context.loom.conductors) {
      const where = togetherIn(conductor)
      const volts = where.length > 0 ? voltsOf(context, conductor) : undefined
      if (volts === undefined) continue
      for (const name of where) {
        const key = `${conductor.loom.id} ${name}`
        const place = places.get(key) ?? { highVolts: 0 }
        if (volts > LOW_VOLTS) places.set(key, { ...place, high: place.high ?? conductor, highVolts: volts })
        else places.set(key, { ...place, low: place.low ?? conductor })
      }
    }
    for (const [key, { high, low, highVolts }] of places) {
      if (!high || !low) continue
      yield found({
        subject: low.address,
        what: `${low.id} runs with ${high.id} at ${formatVolts(highVolts)} in ${key.slice(key.indexOf(' ') + 1)}`,
        why: `${formatVolts(highVolts)} is above the ${formatVolts(LOW_VOLTS)} of extra-low voltage, and only the wires’ own insulation lies between.`,
        fix: `Run ${low.id} in a duct of its own, or behind a barrier.`,
        facts: { volts: { value: highVolts, unit: 'V' } },
        at: low.at,
        notes: [{ text: 'the mains conductor', at: high.at }],
        marks: [low.address, high.address],
      })
    }
  },
}
