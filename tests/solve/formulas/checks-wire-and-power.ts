import {
  areaFromCircularMils,
  awgAreaMm2,
  awgDiameterMm,
  circularMils,
  sizeAtLeast,
  tradeSizes,
} from '../../../src/base/wire-size.ts'
import { ampacity } from '../../../src/solve/formulas/ampacity.ts'
import { ampacityTemperatureFactor } from '../../../src/solve/formulas/ampacity-temperature-factor.ts'
import { bundleFactor } from '../../../src/solve/formulas/bundle-factor.ts'
import {
  conductorOhms,
  solidOhmsPerMetre,
  strandedOhmsPerMetre,
} from '../../../src/solve/formulas/conductor-resistance.ts'
import {
  copperFrom75,
  iec60228TemperatureFactor,
  lengthAtTemperature,
} from '../../../src/solve/formulas/copper-at-temperature.ts'
import { fuseDistanceLimit } from '../../../src/solve/formulas/fuse-distance.ts'
import { fuseForLoad, fuseMinimum } from '../../../src/solve/formulas/fuse-for-load.ts'
import { fuseLimit } from '../../../src/solve/formulas/fuse-limit.ts'
import { bladeFuseColour } from '../../../src/solve/formulas/fuse-ratings.ts'
import { usbCableLimitMm, usbConductorDrop } from '../../../src/solve/formulas/usb-drop.ts'
import {
  requiredAreaMm2,
  requiredCircularMils,
  voltageDrop,
} from '../../../src/solve/formulas/voltage-drop.ts'
import type { Check } from './check.ts'
import { SAE_MILS } from './published-data.ts'

const KFT_M = 304.8
const INCH = 25.4
const FOOT = 304.8
const mils = (awg: number): number => circularMils(awgAreaMm2(awg))
const stock = (circularMil: number): string | undefined =>
  sizeAtLeast(areaFromCircularMils(circularMil), 'awg')?.label
const boat = (awg: number, more: object = {}): number | undefined =>
  ampacity({ areaMm2: awgAreaMm2(awg), insulationC: 105, ...more })?.amps
const dropSize = (amps: number, feet: number, volts: number): string | undefined =>
  sizeAtLeast(requiredAreaMm2(amps, feet * FOOT, volts), 'awg')?.label
const sheath40 = fuseDistanceLimit(true, false).limitMm

/** Published worked checks: wire and power. */
export const WIRE_AND_POWER_CHECKS: readonly Check[] = [
  ['W1', 'ASTM B258 definition', 'diameter of 36 AWG, mm', [awgDiameterMm(36)], [0.127], 1e-9],
  ['W2', 'ASTM B258 definition', 'diameter of 4/0 AWG, mm', [awgDiameterMm(-3)], [11.684], 1e-9],
  [
    'W3',
    'ASTM B258',
    'diameter and area of 14 AWG',
    [awgDiameterMm(14), awgAreaMm2(14)],
    [1.6277, 2.081],
    0.0005,
  ],
  ['W3b', 'NEC chapter 9 table 8 (4110)', 'circular mils of 14 AWG', [mils(14)], [4107], 0.5],
  [
    'W4',
    'Floyd wire table',
    '24 AWG solid, Ω/1000 ft',
    [solidOhmsPerMetre(awgAreaMm2(24)) * KFT_M],
    [25.67],
    0.02567,
  ],
  [
    'W5',
    'Floyd wire table',
    '10 AWG solid, Ω/1000 ft',
    [solidOhmsPerMetre(awgAreaMm2(10)) * KFT_M],
    [0.9989],
    0.001,
  ],
  [
    'W6',
    'NEC chapter 9 table 8',
    '14 AWG solid at 75 °C, Ω/1000 ft',
    [solidOhmsPerMetre(awgAreaMm2(14), 75) * KFT_M],
    [3.07],
    0.0092,
  ],
  [
    'W7',
    'NEC chapter 9 table 8',
    '4/0 AWG stranded at 75 °C, Ω/1000 ft',
    [strandedOhmsPerMetre(awgAreaMm2(-3), 75) * KFT_M],
    [0.0608],
    0.0003,
  ],
  [
    'W8',
    'NEC chapter 9 table 8 note 2',
    '3.14 Ω/1000 ft moved to 20 °C',
    [copperFrom75(3.14, 20)],
    [2.582],
    0.0005,
  ],
  [
    'W9',
    'strand chart',
    '19 strands of 8.0 mil, circular mils',
    [19 * circularMils((Math.PI / 4) * (8 * 0.0254) ** 2)],
    [1216],
    1e-6,
  ],
  ['W10', 'IEC 60228', 'kt at 50 °C', [iec60228TemperatureFactor(50)], [0.893], 0.0005],
  ['W11', '33 CFR 183.425 table 5', '14 AWG 105 °C alone, A', [boat(14)], [35], 1e-9],
  [
    'W12',
    'ABYC E-11 table VI-C',
    'the same with 4 to 6 bundled',
    [boat(14, { bundledWires: 4 }), boat(14, { bundledWires: 6 })],
    [21, 21],
    1e-9,
  ],
  [
    'W13',
    'ABYC E-11 table VI-C',
    'the same in an engine space',
    [boat(14, { bundledWires: 4, engineSpace: true })],
    [17.9],
    0.1,
  ],
  [
    'W14',
    'ABYC E-11 table VI-B',
    '10 AWG, 3 bundled, engine space',
    [boat(10, { bundledWires: 3, engineSpace: true })],
    [35.7],
    0.05,
  ],
  ['W15', 'CEC table 5A', '75 °C insulation in 50 °C', [ampacityTemperatureFactor(75, 50)], [0.745], 0.0005],
  ['W16', 'CEC table 5A', '60 °C insulation in 50 °C', [ampacityTemperatureFactor(60, 50)], [0.577], 0.0005],
  ['W17', 'CEC table 5A', '90 °C insulation in 40 °C', [ampacityTemperatureFactor(90, 40)], [0.91], 0.005],
  ['W18', 'CEC table 5A', '105 °C insulation in 55 °C', [ampacityTemperatureFactor(105, 55)], [0.82], 0.005],
  [
    'W19',
    'NFPA 70 310.15, trade press example',
    '40 A with 4 current-carrying',
    [40 * bundleFactor(4, 'nec-310')],
    [32],
    1e-9,
  ],
  [
    'W20',
    'NFPA 70 310.15(B)(3)(a) example',
    '30 A with 9 current-carrying',
    [30 * bundleFactor(9, 'nec-310')],
    [21],
    1e-9,
  ],
  [
    'W21',
    'FAA AC 43.13-1B table 11-9',
    '12 AWG at 105 °C in a full bundle',
    [boat(12, { table: 'aircraft' })],
    [13],
    1e-9,
  ],
  [
    'W22',
    '33 CFR 183.455(c)(1)',
    'largest fuse for 14 AWG 105 °C',
    [fuseLimit(boat(14) ?? 0, 12)],
    [52.5],
    1e-9,
  ],
  [
    'W23',
    '33 CFR 183.455(b)(1)',
    '8 in bare is too far',
    [8 * INCH <= fuseDistanceLimit(false, true).limitMm],
    [false],
  ],
  [
    'W24',
    '33 CFR 183.455(b)(2)',
    '39 in sheathed is near enough, 41 in is not',
    [39 * INCH <= sheath40, 41 * INCH <= sheath40],
    [true, false],
  ],
  [
    'W25',
    'ABYC E-11.10',
    '70 in sheathed from the post',
    [70 * INCH <= fuseDistanceLimit(true, true).limitMm],
    [true],
  ],
  ['W26', 'fuse makers, ISO 8820-3', 'fuse for 6 A all day', [fuseMinimum(6), fuseForLoad(6)], [8, 10], 1e-9],
  [
    'W27',
    'fuse colour chart',
    '15 A blade, 25 A large blade',
    [bladeFuseColour(15), bladeFuseColour(25, 'large blade')],
    ['blue', 'grey'],
  ],
  [
    'W28',
    'fuse colour chart',
    '35 A in both sizes',
    [bladeFuseColour(35), bladeFuseColour(35, 'large blade')],
    ['blue-green', 'brown'],
  ],
  [
    'W29',
    'ABYC formula, published example',
    '10 A, 21 ft, 0.36 V: circular mils',
    [requiredCircularMils(10, 21, 0.36)],
    [6271],
    0.5,
  ],
  [
    'W29b',
    'ABYC formula; SAE J1128 areas',
    'the gauge for it, AWG and SAE',
    [stock(6271), SAE_MILS.find(([, area]) => area >= 6271)?.[0]],
    ['12 AWG', '10'],
  ],
  [
    'W30',
    'ABYC formula, published example',
    'the same at 0.96 V',
    [requiredCircularMils(10, 21, 0.96)],
    [2352],
    0.5,
  ],
  [
    'W31',
    'published worked example',
    '45 A, 40 ft, 10 % of 12 V',
    [requiredCircularMils(45, 40, 1.2), dropSize(45, 40, 1.2)],
    [16125, '8 AWG'],
    0.5,
  ],
  [
    'W32',
    'published worked example',
    '100 A, 10 ft, 3 % of 24 V, then ampacity',
    [
      requiredCircularMils(100, 10, 0.72),
      dropSize(100, 10, 0.72),
      (boat(8) ?? 0) >= 100,
      (boat(6) ?? 0) >= 100,
    ],
    [14931, '8 AWG', false, true],
    0.5,
  ],
  [
    'W33',
    'FAA AC 43.13-1B table 11-7',
    '.00044 Ω/ft, 107 ft, 20 A',
    [voltageDrop(20, 0.00044 * 107)],
    [0.942],
    0.001,
  ],
  [
    'W34',
    'FAA AC 43.13-1B table 11-7',
    '.00028 Ω/ft, 90 ft, 20 A',
    [voltageDrop(20, 0.00028 * 90)],
    [0.504],
    1e-9,
  ],
  [
    'W35',
    'FAA AC 43.13-1B table 11-7',
    '.00306 Ω/ft, 100 ft, 20 A',
    [voltageDrop(20, 0.00306 * 100)],
    [6.12],
    1e-9,
  ],
  [
    'W36',
    'FAA AC 43.13-1B table 11-8',
    '.00126 Ω/ft, 273 ft, 20 A',
    [voltageDrop(20, 0.00126 * 273)],
    [6.88],
    0.005,
  ],
  [
    'W37',
    'FAA AC 43.13-1B 11-66 example 1',
    'thinnest gauge for 50 ft, 20 A, 1 V',
    [tradeSizes('awg').find((size) => voltageDrop(20, conductorOhms(size, 50 * FOOT)) <= 1)?.label],
    ['8 AWG'],
  ],
  ['W38', 'FAA AC 43.13-1B 11-66', '39 ft at 50 °C', [lengthAtTemperature(39, 50)], [34.9], 0.05],
  ['W39', 'ABYC E-11 3 % table', '20 ft, 15 A', [dropSize(15, 20, 0.36)], ['10 AWG']],
  ['W40', 'ABYC E-11 10 % table', '40 ft, 20 A', [dropSize(20, 40, 1.2)], ['10 AWG']],
  [
    'W41',
    'ABYC E-11 10 % table, worked',
    'bilge pump 10 A, row of 20 ft',
    [dropSize(10, 20, 1.2)],
    ['16 AWG'],
  ],
  [
    'W42',
    'USB 2.0',
    'longest cable with 24 AWG power, m',
    [(usbCableLimitMm(24) ?? 0) / 1000],
    [2.08],
    0.015,
  ],
  ['W43', 'USB 2.0', 'drop of one power conductor at 0.5 A', [usbConductorDrop(0.5)], [0.125], 1e-9],
]
