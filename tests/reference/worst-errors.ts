import { awgAreaMm2, circularMils, parseWireSize } from '../../src/base/wire-size.ts'
import { ampacity } from '../../src/solve/formulas/ampacity.ts'
import { ampacityTemperatureFactor } from '../../src/solve/formulas/ampacity-temperature-factor.ts'
import {
  CLASS_5_OHMS_PER_KM,
  class5OhmsPerMetre,
  solidOhmsPerMetre,
  strandedOhmsPerMetre,
} from '../../src/solve/formulas/conductor-resistance.ts'
import { iec60228TemperatureFactor } from '../../src/solve/formulas/copper-at-temperature.ts'
import { pullOutNewtons } from '../../src/solve/formulas/pull-out-force.ts'
import { reflectionFromVswr } from '../../src/solve/formulas/reflection.ts'
import { usbCableLimitMm } from '../../src/solve/formulas/usb-drop.ts'
import type { Check } from '../solve/formulas/check.ts'
import { COLOUR_AND_AUDIO_CHECKS } from '../solve/formulas/checks-colour-and-audio.ts'
import { RADIO_AND_MECHANICS_CHECKS } from '../solve/formulas/checks-radio-and-mechanics.ts'
import { WIRE_AND_POWER_CHECKS } from '../solve/formulas/checks-wire-and-power.ts'
import {
  CEC_5A,
  CEC_5A_COLUMNS,
  CFR_TABLE_5,
  CFR_TABLE_5_COLUMNS,
  FAA_105,
  FLOYD,
  IEC_60228_KT,
  NEC_TABLE_8,
  SWR_TABLE,
  UL_486A_NEWTONS,
  USB_LENGTHS,
} from '../solve/formulas/published-data.ts'

/** A published table held against what is computed: how many cells, and the worst of them as a share of the print. */
export interface TableError {
  readonly table: string
  readonly cells: number
  readonly worst: number
  /** Most that is allowed, and what the print itself is worth. */
  readonly most: number
  readonly why: string
}

type Pair = readonly [got: number | undefined, printed: number | string]

const KFT_M = 304.8
const off = ([got, printed]: Pair): number => Math.abs((got ?? Number.NaN) / Number(printed) - 1)

function table(name: string, pairs: readonly Pair[], most: number, why: string): TableError {
  const errors = pairs.map(off)
  return { table: name, cells: pairs.length, worst: Math.max(...errors), most, why }
}

const areaOf = (gauge: string): number => {
  const read = parseWireSize(`${gauge} AWG`)
  return read.ok ? read.value.areaMm2 : Number.NaN
}

const nec = (solid: boolean): Pair[] =>
  NEC_TABLE_8.filter(([, strands]) => (strands === 1) === solid).map(([awg, , ohms]) => [
    (solid ? solidOhmsPerMetre : strandedOhmsPerMetre)(awgAreaMm2(awg), 75) * KFT_M,
    ohms,
  ])

/** Every published table whose cells are numbers. */
export const TABLE_ERRORS: readonly TableError[] = [
  table(
    'Floyd, resistance of solid copper at 20 °C',
    FLOYD.map(([awg, , ohms]) => [solidOhmsPerMetre(awgAreaMm2(awg)) * KFT_M, ohms]),
    0.001,
    'three places in print',
  ),
  table(
    'Floyd, circular mils',
    FLOYD.map(([awg, mils]) => [circularMils(awgAreaMm2(awg)), mils]),
    0.001,
    'rounded areas in print',
  ),
  table('NEC chapter 9 table 8, solid at 75 °C', nec(true), 0.006, 'its own wire tolerances'),
  table('NEC chapter 9 table 8, stranded at 75 °C', nec(false), 0.006, 'its own lay factor'),
  table(
    'IEC 60228 class 5, plain at 20 °C',
    CLASS_5_OHMS_PER_KM.map(({ areaMm2, plain }) => [class5OhmsPerMetre(areaMm2) * 1000, plain]),
    1e-9,
    'taken as data',
  ),
  table(
    'IEC 60228 temperature factors',
    IEC_60228_KT.map(([celsius, factor]) => [iec60228TemperatureFactor(celsius), factor]),
    0.0007,
    'three places in print',
  ),
  table(
    '33 CFR 183.425 table 5',
    CFR_TABLE_5.flatMap(([size, ...amps]) =>
      CFR_TABLE_5_COLUMNS.map(
        (insulationC, column): Pair => [
          ampacity({ areaMm2: areaOf(size), insulationC })?.amps,
          amps[column] ?? Number.NaN,
        ],
      ),
    ),
    0,
    'taken as data',
  ),
  table(
    'FAA AC 43.13-1B table 11-9, 105 °C',
    FAA_105.map(([awg, amps]) => [
      ampacity({ areaMm2: awgAreaMm2(awg), insulationC: 105, table: 'aircraft' })?.amps,
      amps,
    ]),
    0,
    'taken as data',
  ),
  table(
    'Canadian Electrical Code table 5A',
    CEC_5A.flatMap(([airC, ...factors]) =>
      CEC_5A_COLUMNS.map(
        (insulationC, column): Pair => [
          ampacityTemperatureFactor(insulationC, airC),
          factors[column] ?? Number.NaN,
        ],
      ),
    ),
    0.0065,
    'two places in print',
  ),
  table(
    'Return loss by standing wave ratio',
    SWR_TABLE.map(([swr, loss]) => [reflectionFromVswr(swr).returnLossDb, loss]),
    0.0018,
    'two places in print, 1.1 printed 0.014 dB low',
  ),
  table(
    'USB 2.0 cable lengths',
    USB_LENGTHS.map(([awg, metres]) => [(usbCableLimitMm(awg) ?? Number.NaN) / 1000, metres]),
    0.013,
    'two places in print',
  ),
  table(
    'UL 486A pull-out force',
    UL_486A_NEWTONS.map(([awg, newtons]) => [pullOutNewtons(awgAreaMm2(awg)), newtons]),
    0.005,
    'pounds in the original',
  ),
]

/** Every worked check, with the number it is known by. */
export const WORKED_CHECKS: readonly Check[] = [
  ...WIRE_AND_POWER_CHECKS,
  ...COLOUR_AND_AUDIO_CHECKS,
  ...RADIO_AND_MECHANICS_CHECKS,
]

/** The worst figure of a check as a share of the print; 0 for words and for figures printed as 0. */
export const errorOf = ([, , , answer, printed]: Check): number =>
  Math.max(
    0,
    ...printed.map((wanted, index) => {
      const got = answer[index]
      return typeof wanted === 'number' && typeof got === 'number' && wanted !== 0
        ? Math.abs(got / wanted - 1)
        : 0
    }),
  )
