import { joinColours, parseColour } from '../../../src/base/colour.ts'
import { din47100Core, T568B, twentyFivePair } from '../../../src/base/core-scheme.ts'
import {
  DBU_VOLTS,
  dbuFromVolts,
  voltsFromDbu,
  voltsFromDbv,
} from '../../../src/solve/formulas/audio-level.ts'
import { bridgingLossDb } from '../../../src/solve/formulas/bridging-loss.ts'
import { cableRolloffHertz } from '../../../src/solve/formulas/cable-rolloff.ts'
import { canTermination } from '../../../src/solve/formulas/can-termination.ts'
import { residueFromSinad, sharedResistanceGainDb } from '../../../src/solve/formulas/common-impedance.ts'
import {
  rejectionAchievedDb,
  rejectionFromImbalanceDb,
  rejectionFromToleranceDb,
} from '../../../src/solve/formulas/common-mode-rejection.ts'
import { lineWatts, tapOhms, tapWattsAt } from '../../../src/solve/formulas/constant-voltage-line.ts'
import { loopOhmsForDamping } from '../../../src/solve/formulas/damping-factor.ts'
import { lineLossDb } from '../../../src/solve/formulas/line-loss.ts'
import { speakerLineWatts } from '../../../src/solve/formulas/power-share.ts'
import type { Check } from './check.ts'

const colour = (code: string): string => {
  const read = parseColour(code)
  return read.ok ? read.value.canonical : read.problem
}
const speaker = speakerLineWatts(24.5, 8, 160 * 0.00204)

/** Published worked checks: colour and audio. */
export const COLOUR_AND_AUDIO_CHECKS: readonly Check[] = [
  ['W44', 'IEC 60757 example', 'red and blue', [colour('BURD'), colour('RDBU')], ['RDBU', 'RDBU']],
  [
    'W45',
    'IEC 60757 example',
    'five cores',
    [joinColours(['BK', 'BK', 'BN', 'BU', 'GNYE'])],
    ['BK+BK+BN+BU+GNYE'],
  ],
  [
    'W46',
    '25-pair telephone code',
    'pair 14',
    [twentyFivePair(14)?.tipGroup, twentyFivePair(14)?.ringGroup],
    ['BK', 'BN'],
  ],
  [
    'W47',
    '25-pair telephone code (slate is GY)',
    'pair 25',
    [twentyFivePair(25)?.tipGroup, twentyFivePair(25)?.ringGroup],
    ['VT', 'GY'],
  ],
  ['W48', 'TIA-568', 'positions 3 and 6 of scheme B', [T568B[2], T568B[5]], ['WHGN', 'GN']],
  ['W49', 'DIN 47100', 'cores 12 and 39', [din47100Core(12, 44), din47100Core(39, 44)], ['RDBU', 'GYRD']],
  ['W50', 'published application note', '0.2 V in dBu', [dbuFromVolts(0.2)], [-11.76], 0.005],
  [
    'W51',
    'published application note',
    'rejection of 200 mV down to -90 dBu',
    [rejectionAchievedDb(dbuFromVolts(0.2), -90)],
    [78.24],
    0.005,
  ],
  [
    'W52',
    'definitions',
    '+4 dBu and -10 dBV in V',
    [voltsFromDbu(4), voltsFromDbv(-10)],
    [1.2277, 0.3162],
    0.0001,
  ],
  ['W53', 'definition', 'ten times bridging', [bridgingLossDb(1000, 10_000)], [-0.828], 0.0005],
  [
    'W54',
    'Whitlock model',
    '10 Ω imbalance into 10 kΩ a leg',
    [rejectionFromImbalanceDb(10_000, 10)],
    [60],
    1e-9,
  ],
  [
    'W55',
    'published application note',
    'typical rejection of 1 % and 5 % parts',
    [rejectionFromToleranceDb(0.01), rejectionFromToleranceDb(0.05)],
    [40, 26],
    0.05,
  ],
  [
    'W56',
    'loudspeaker manual example',
    'amplifier, load and cable W',
    [speaker.amplifier, speaker.load, speaker.line],
    [72.1, 69.3, 2.83],
    0.05,
  ],
  ['W57', 'published loss list', '18 AWG, 100 ft, 8 Ω, dB', [lineLossDb(8, 2 * 0.662)], [1.33], 0.005],
  [
    'W58',
    'published loss list',
    'the same into 4 and 16 Ω',
    [lineLossDb(4, 2 * 0.662), lineLossDb(16, 2 * 0.662)],
    [2.48, 0.69],
    0.02,
  ],
  [
    'W59',
    'published loudspeaker cable table',
    'damping 25 from an amplifier of 400',
    [loopOhmsForDamping(8, 400, 25), lineLossDb(8, loopOhmsForDamping(8, 400, 25))],
    [0.3, 0.32],
    0.0005,
  ],
  [
    'W60',
    'EIA tap table',
    'taps of 1, 2, 5, 10 W at 70.7 V',
    [1, 2, 5, 10].map((watts) => tapOhms(70.7, watts) / (5000 / watts)),
    [1, 1, 1, 1],
    0.001,
  ],
  [
    'W61',
    'published line example',
    '6 + 10 + 10 W on a 30 W amplifier',
    [lineWatts([6, 10, 10]), lineWatts([6, 10, 10]) <= 30],
    [26, true],
    1e-9,
  ],
  ['W62', 'maker formula', '2.5 W tap of 70 V on 140 V', [tapWattsAt(2.5, 70, 140)], [10], 1e-9],
  [
    'W65',
    'ISO 11898-2, CiA 303-1',
    'two and three terminators',
    [
      canTermination([120, 120]).ohms,
      canTermination([120, 120]).verdict,
      canTermination([120, 120, 120]).ohms,
      canTermination([120, 120, 120]).verdict,
    ],
    [60, 'right', 40, 'too many'],
    1e-9,
  ],
  [
    'W82',
    'test set manual (“less than 25 %”)',
    '12 dB SINAD, residue %',
    [100 * residueFromSinad(12)],
    [25.1],
    0.05,
  ],
  [
    'W98',
    'Ballou; Whitlock',
    '25 ft of 2.6 mΩ/ft, and against 1 Ω',
    [25 * 0.0026, sharedResistanceGainDb(1, 25 * 0.0026)],
    [0.065, 23.7],
    0.05,
  ],
  [
    'W99',
    'Ballou (“about 50 kHz”)',
    '200 ft of 17 pF/ft from 1 kΩ, kHz',
    [cableRolloffHertz(1000, 200 * 17e-12) / 1000],
    [46.8],
    0.05,
  ],
  ['W50b', 'definition', '0 dBu is sqrt(0.6) V, not 0.775', [DBU_VOLTS], [0.7745966692], 1e-9],
]
