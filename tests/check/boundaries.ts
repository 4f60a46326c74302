import { twoLoads } from '../../src/check/examples/two-loads.ts'
import { vehicleExample } from '../../src/check/examples/vehicle.ts'
import { cell, load, wired } from '../../src/check/examples/wired.ts'
import { standardRules } from '../../src/check/standard-rules.ts'
import type { DocumentInput } from '../../src/describe/document.ts'
import { CFR_TABLE_5 } from '../solve/formulas/published-data.ts'

/** A rule and the value at which it changes its mind. */
export interface Boundary {
  readonly rule: string
  /** What is varied, with its unit. */
  readonly of: string
  /** Where the limit comes from, as a sum. */
  readonly source: string
  /** Worked out here from the source, never asked of the product. */
  readonly limit: number
  /** On which side of the limit the fault lies. */
  readonly bad: 'above' | 'below'
  /** What holds exactly on the limit. Left out where rounding of a computed limit decides. */
  readonly on?: 'trips' | 'passes'
  /** How far off the limit the two other cases lie, as a share of it. */
  readonly by?: number
  readonly make: (value: number) => DocumentInput
}

const example = (rule: string): DocumentInput => {
  const found = standardRules.find(({ id }) => id === rule)
  if (!found) throw new Error(`no rule ${rule}`)
  return found.examples.trips
}

/** Figures as descriptions write them: digits and a point. */
const digits = (value: number): string => value.toFixed(6).replace(/\.?0+$/, '')

/** The tripping example of a rule with one figure of it changed. */
function replaced(rule: string, figure: string, by: string): DocumentInput {
  const text = JSON.stringify(example(rule))
  if (!text.includes(`"${figure}"`)) throw new Error(`${rule} has no “${figure}”`)
  return JSON.parse(text.replaceAll(`"${figure}"`, `"${by}"`)) as DocumentInput
}

const changed =
  (rule: string, figure: string, unit: string) =>
  (value: number): DocumentInput =>
    replaced(rule, figure, `${digits(value)}${unit}`)

const amps = (value: number): `${number} A` => `${digits(value)} A` as `${number} A`
const metres = (value: number): `${number} m` => `${digits(value)} m` as `${number} m`

/** Joints of nothing, so that copper alone is judged; what is left is a micro-ohm each. */
const bareJoints = { allowances: { contact: '0 Ω', fuse: '0 Ω', holder: '0 Ω' } } as const

/** IEC 60228 table 3, class 5, plain copper at 20 °C: mm², Ω/km. */
const IEC_60228_CLASS_5: ReadonlyMap<number, number> = new Map([
  [0.5, 39],
  [2.5, 7.98],
  [6, 3.3],
  [10, 1.91],
])

const ohmsPerMetre = (areaMm2: number): number => (IEC_60228_CLASS_5.get(areaMm2) ?? Number.NaN) / 1000

/** 33 CFR 183.425 table 5, the 60 °C column. */
const cfr60 = (gauge: string): number => CFR_TABLE_5.find(([size]) => size === gauge)?.[1] ?? Number.NaN

const cableWire = {
  kind: 'wire',
  id: 'plain-12',
  title: 'Plain wire',
  size: '12 AWG',
  class: '60 °C',
} as const

/** A lamp on 12 AWG wire of the poorest insulation. */
const plainLamp = (draws: number, fuse: number): DocumentInput =>
  wired({
    units: { supply: cell(), lamp: load(amps(draws)) },
    components: [{ id: 'F1', kind: 'fuse', rating: amps(fuse) }],
    parts: [cableWire],
    runs: [
      ['supply.1', 'F1.in', { size: '12 AWG', part: 'plain-12', length: '0.1 m' }],
      ['F1.out', 'lamp.1', { size: '12 AWG', part: 'plain-12', length: '0.3 m' }],
      ['lamp.2', 'supply.2', { size: '12 AWG', part: 'plain-12', length: '0.3 m' }],
    ],
  })

const line = (over: { dbu?: string; ohms?: string; length?: string; size?: string }): DocumentInput =>
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
          '1': {
            kind: 'audio-in',
            level: 'speaker',
            leg: 'hot',
            port: 'coil',
            ohms: (over.ohms ?? '4 Ω') as '4 Ω',
            watts: '90 W',
          },
          '2': {
            kind: 'audio-in',
            level: 'speaker',
            leg: 'cold',
            port: 'coil',
            ohms: (over.ohms ?? '4 Ω') as '4 Ω',
            watts: '90 W',
          },
        },
      },
    },
    runs: [
      ['amplifier.1', 'horn.1', { size: '0.5 mm²', length: (over.length ?? '0.5 m') as '1 m', pair: 'TP1' }],
      ['amplifier.2', 'horn.2', { size: '0.5 mm²', length: (over.length ?? '0.5 m') as '1 m', pair: 'TP1' }],
    ],
  })

const withPolicy = (data: DocumentInput, policy: DocumentInput['policy']): DocumentInput => ({
  ...data,
  policy,
})

const INCH_MM = 25.4
const rippleVolts = 0.05

export const BOUNDARIES: readonly Boundary[] = [
  {
    rule: 'load-within-ampacity',
    of: 'A of load on 12 AWG',
    source: '33 CFR 183.425 table 5: 12 AWG, 60 °C insulation, up to 30 °C around it',
    limit: cfr60('12'),
    bad: 'above',
    on: 'passes',
    make: (value) => plainLamp(value, 60),
  },
  {
    rule: 'fuse-protects-wire',
    of: 'A of fuse before 12 AWG',
    source: '33 CFR 183.425 table 5: a fuse no larger than what the conductor bears (33 CFR 183.455)',
    limit: cfr60('12'),
    bad: 'above',
    on: 'passes',
    make: (value) => plainLamp(1, value),
  },
  {
    rule: 'fuse-loaded',
    of: 'A of lasting load on a fuse of 10 A',
    source: 'makers’ notes: four fifths of the rating for good, 0.8 × 10',
    limit: 0.8 * 10,
    bad: 'above',
    on: 'passes',
    make: (value) => plainLamp(value, 10),
  },
  {
    rule: 'fuse-near-source',
    of: 'm to the fuse on a vehicle',
    source: 'shop policy: 450 mm',
    limit: 0.45,
    bad: 'above',
    on: 'passes',
    make: (value) => vehicleExample({ toFuse: metres(value) }),
  },
  {
    rule: 'fuse-near-source',
    of: 'm to the fuse on a boat, wire not sheathed',
    source: '33 CFR 183.455(b)(1): 7 in',
    limit: (7 * INCH_MM) / 1000,
    bad: 'above',
    on: 'passes',
    make: (value) => vehicleExample({ toFuse: metres(value), place: { setting: 'boat' } }),
  },
  {
    rule: 'voltage-at-load',
    of: 'm each way to a load of 10 A on 6 mm²',
    source: 'FAA AC 43.13-1B table 11-6: 0.5 V continuous on 14 V = 10 A × (2 L + 0.2 m) × IEC 60228 class 5',
    limit: (0.5 / (10 * ohmsPerMetre(6)) - 0.2) / 2,
    bad: 'above',
    make: (value) =>
      withPolicy(
        vehicleExample({ metres: metres(value), load: { amps: { off: '0 A', standby: '10 A' } } }),
        bareJoints,
      ),
  },
  {
    rule: 'voltage-at-load',
    of: 'V a load needs, behind 10.2 m of 6 mm² with 10 A',
    source: 'Ohm: 13.8 V of the running engine − 10 A × 10.2 m × IEC 60228 class 5, 6 mm²',
    limit: 13.8 - 10 * 10.2 * ohmsPerMetre(6),
    bad: 'above',
    make: (value) =>
      withPolicy(
        vehicleExample({
          load: { amps: { off: '0 A', transmit: '10 A' }, volts: `${digits(value)}..15.6 V` as '9..15 V' },
          battery: { volts: '12..14.4 V' },
        }),
        bareJoints,
      ),
    by: 0.002,
  },
  {
    rule: 'feeder-drop',
    of: '% of 12 V allowed to a feeder of 30 A on 10 mm²',
    source: 'Ohm: 30 A × 10.15 m × IEC 60228 class 5, 10 mm², of 12 V (the limit itself: ABYC E-11, 3 %)',
    limit: (100 * 30 * 10.15 * ohmsPerMetre(10)) / 12,
    bad: 'below',
    make: (value) =>
      withPolicy(twoLoads('10 mm²'), { drop: { critical: `${digits(value)} %` as '3 %' }, ...bareJoints }),
  },
  {
    rule: 'fuses-step-down',
    of: 'A of a branch fuse behind 16 A',
    source: 'common practice: a step of 1.6, 16 / 1.6',
    limit: 16 / 1.6,
    bad: 'above',
    on: 'passes',
    make: (value) =>
      wired({
        units: { supply: cell(), lamp: load('1 A') },
        components: [
          { id: 'F1', kind: 'fuse', rating: '16 A' },
          { id: 'F2', kind: 'fuse', rating: amps(value) },
        ],
        runs: [
          ['supply.1', 'F1.in', { size: '2.5 mm²', length: '0.1 m' }],
          ['F1.out', 'F2.in', { size: '2.5 mm²' }],
          ['F2.out', 'lamp.1', { size: '2.5 mm²' }],
          ['lamp.2', 'supply.2', { size: '2.5 mm²' }],
        ],
      }),
  },
  {
    rule: 'parts-outlast-fuse',
    of: 'A of a switch behind a fuse of 10 A',
    source: 'the part carries what the fuse carries: 10 A',
    limit: 10,
    bad: 'below',
    on: 'passes',
    make: changed('parts-outlast-fuse', '5 A', ' A'),
  },
  {
    rule: 'supply-not-overloaded',
    of: 'A of a supply for a station of 0.3 A',
    source: 'the sum of the loads: 0.3 A',
    limit: 0.3,
    bad: 'below',
    on: 'passes',
    make: changed('supply-not-overloaded', '0.2 A', ' A'),
  },
  {
    rule: 'supply-range-fits',
    of: 'V while cranking, for a load from 9 V up',
    source: 'the least the load works on: 9 V',
    limit: 9,
    bad: 'below',
    on: 'passes',
    make: changed('supply-range-fits', '6.5 V', ' V'),
  },
  {
    rule: 'vehicle-circuit-overloaded',
    of: 'A there already on a 10 A circuit that gets 3 A more',
    source: 'converter quality bulletin E1106: 80 % in the cabin, 0.8 × 10 − 3',
    limit: 0.8 * 10 - 3,
    bad: 'above',
    on: 'passes',
    make: changed('vehicle-circuit-overloaded', '6 A', ' A'),
  },
  {
    rule: 'contact-current',
    of: 'A through a contact rated 10 A',
    source: 'IEC 60512-5-2: working curve at 0.8 of the rating',
    limit: 0.8 * 10,
    bad: 'above',
    on: 'passes',
    make: (value) =>
      vehicleExample({ contactAmps: '10 A', load: { amps: { off: '0 A', standby: amps(value) } } }),
  },
  {
    rule: 'standing-drain',
    of: 'A while parked for 21 days on 60 Ah usable',
    source: 'days = Ah / (24 · A): 60 / (24 × 21)',
    limit: 60 / (24 * 21),
    bad: 'above',
    make: (value) =>
      vehicleExample({
        load: { amps: { off: amps(value), transmit: '10 A' } },
        battery: { capacity: '60 Ah' },
        place: { parked: '21 days' },
      }),
  },
  {
    rule: 'volts-within-limit',
    of: 'V an input stands, on a supply of 14.4 V',
    source: 'the supply’s highest: 14.4 V',
    limit: 14.4,
    bad: 'below',
    on: 'passes',
    make: (value) => replaced('volts-within-limit', '-0.3..5.5 V', `-0.3..${digits(value)} V`),
  },
  {
    rule: 'return-as-big-as-feed',
    of: 'mm² of return beside a feed of 6 mm²',
    source: 'ISO 10133 §4.8; trade names pair sizes within 7 %: 0.93 × 6',
    limit: 0.93 * 6,
    bad: 'below',
    make: (value) => vehicleExample({ back: `${digits(value)} mm²` as '6 mm²' }),
  },
  {
    rule: 'thin-wire-afloat',
    of: 'mm² of a single wire on a boat',
    source: 'ISO 10133 §7.7: 1 mm², less a hundredth for rounding',
    limit: 0.99 * 1,
    bad: 'below',
    make: (value) => twoLoads('25 mm²', `${digits(value)} mm²` as '1 mm²'),
  },
  {
    rule: 'logic-levels',
    of: 'V an input takes as low, behind a diode',
    source: '0.4 V saturation + 0.7 V of a silicon diode: at exactly that it is not less',
    limit: 0.4 + 0.7,
    bad: 'below',
    on: 'trips',
    make: changed('logic-levels', '0.8 V', ' V'),
  },
  {
    rule: 'switch-current',
    of: 'Ω of a coil on 14.4 V switched by 100 mA',
    source: 'Ohm: 14.4 V / 0.1 A',
    limit: 14.4 / 0.1,
    bad: 'below',
    by: 0.01,
    make: changed('switch-current', '80 Ω', ' Ω'),
  },
  {
    rule: 'input-bridges-output',
    of: 'Ω of an input on a line output of 600 Ω',
    source: 'common practice: ten times the source, 10 × 600',
    limit: 10 * 600,
    bad: 'below',
    on: 'passes',
    make: changed('input-bridges-output', '1.2 kΩ', ' Ω'),
  },
  {
    rule: 'audio-levels-match',
    of: 'dB over the level an input of −50 dBu expects',
    source: 'common practice: 10 dB either way',
    limit: 10,
    bad: 'above',
    on: 'passes',
    make: (value) => changed('audio-levels-match', '+4 dBu', ' dBu')(-50 + value),
  },
  {
    rule: 'speaker-line-loss',
    of: 'm of 0.5 mm² to a loudspeaker of 4 Ω',
    source: '1 dB = 20 lg((Z + R) / Z), R = 2 L × IEC 60228 class 5',
    limit: (4 * (10 ** (1 / 20) - 1)) / (2 * ohmsPerMetre(0.5)),
    bad: 'above',
    make: (value) => withPolicy(line({ length: metres(value) }), bareJoints),
  },
  {
    rule: 'speaker-load',
    of: 'Ω of a loudspeaker on an output for 4 Ω',
    source: 'nominal impedances are taken within 3 %: 0.97 × 4',
    limit: 0.97 * 4,
    bad: 'below',
    make: (value) => line({ ohms: `${digits(value)} Ω` }),
  },
  {
    rule: 'speaker-power',
    of: 'W of a loudspeaker of 4 Ω on 15 W into 4 Ω',
    source: 'what the output gives into its lowest load, the line left out: 15 W',
    limit: 15,
    bad: 'below',
    on: 'trips',
    make: changed('speaker-power', '10 W', ' W'),
  },
  {
    rule: 'constant-voltage-line',
    of: 'W of each of two taps on an amplifier of 18 W',
    source: 'public-address practice: four fifths of the amplifier, 0.8 × 18 / 2',
    limit: (0.8 * 18) / 2,
    bad: 'above',
    on: 'passes',
    make: changed('constant-voltage-line', '10 W', ' W'),
  },
  {
    rule: 'noise-in-shared-return',
    of: 'm of 2.5 mm² return with 2 A shared with a microphone',
    source: 'Whitlock: −50 dBu is 0.7746 V × 10^(−50/20); 40 dB under it, a twentieth of the drop as ripple',
    limit: (0.7746 * 10 ** (-50 / 20) * 10 ** (-40 / 20)) / rippleVolts / (2 * ohmsPerMetre(2.5)),
    bad: 'above',
    by: 0.02,
    make: (value) => withPolicy(changed('noise-in-shared-return', '2 m', ' m')(value), bareJoints),
  },
  {
    rule: 'compass-clear',
    of: 'A in a single wire beside a compass',
    source: 'ABYC E-11.16.4.2.1: below a tenth of an ampere nothing is asked',
    limit: 0.1,
    bad: 'above',
    make: changed('compass-clear', '2 A', ' A'),
  },
  {
    rule: 'bus-stub-lengths',
    of: 'm of stub at 1 Mbit/s',
    source: 'ISO 11898 as quoted: 0.3 m at 1 Mbit/s',
    limit: 0.3,
    bad: 'above',
    on: 'passes',
    make: changed('bus-stub-lengths', '1.5 m', ' m'),
  },
  {
    rule: 'bus-drop-length',
    of: 'm of drop on an instrument bus',
    source: 'installation text of marine instrument buses: 6 m',
    limit: 6,
    bad: 'above',
    on: 'passes',
    make: changed('bus-drop-length', '7 m', ' m'),
  },
  {
    rule: 'cable-impedance',
    of: 'Ω of a pair for a 110 Ω line, from above',
    source: 'return loss of 20 dB: |Γ| = 0.1, Z = 110 × 1.1 / 0.9',
    limit: (110 * 1.1) / 0.9,
    bad: 'above',
    make: changed('cable-impedance', '50 Ω', ' Ω'),
  },
  {
    rule: 'cable-impedance',
    of: 'Ω of a pair for a 110 Ω line, from below',
    source: 'return loss of 20 dB: |Γ| = 0.1, Z = 110 × 0.9 / 1.1',
    limit: (110 * 0.9) / 1.1,
    bad: 'below',
    make: changed('cable-impedance', '50 Ω', ' Ω'),
  },
  {
    rule: 'bend-radius',
    of: 'mm of bend of a cable of 6 mm',
    source: 'FAA AC 43.13-1B ¶11-120: ten times the diameter',
    limit: 10 * 6,
    bad: 'below',
    on: 'passes',
    make: changed('bend-radius', '30 mm', ' mm'),
  },
  {
    rule: 'wire-fits-contact',
    of: 'mm² in a contact up to 0.5 mm²',
    source: 'gauges and metric sizes of one name differ by 5 %: 1.05 × 0.5 (20 AWG is 0.519 mm²)',
    limit: 1.05 * 0.5,
    bad: 'above',
    make: changed('wire-fits-contact', '0.75 mm²', ' mm²'),
  },
  {
    rule: 'seal-fits-wire',
    of: 'mm over the insulation in a seal up to 2.4 mm',
    source: 'the seal’s own range: 2.4 mm',
    limit: 2.4,
    bad: 'above',
    on: 'passes',
    make: changed('seal-fits-wire', '2.9 mm', ' mm'),
  },
]
