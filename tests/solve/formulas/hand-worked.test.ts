import { describe, expect, test } from 'vitest'
import { awgAreaMm2 } from '../../../src/base/wire-size.ts'
import { adiabaticAreaMm2, adiabaticSeconds } from '../../../src/solve/formulas/adiabatic-withstand.ts'
import { allowedDropByShare, allowedDropInVolts } from '../../../src/solve/formulas/allowed-drop.ts'
import { dbuFromDbv } from '../../../src/solve/formulas/audio-level.ts'
import { bendRadius } from '../../../src/solve/formulas/bend-radius.ts'
import { bridgedHalfLoad, bridgedMinimumLoad } from '../../../src/solve/formulas/bridge-tied-load.ts'
import { canTermination, canTrunkLimitMm } from '../../../src/solve/formulas/can-termination.ts'
import { coaxJointLossDb } from '../../../src/solve/formulas/coax-loss.ts'
import { commonImpedanceVolts, signalToNoiseDb } from '../../../src/solve/formulas/common-impedance.ts'
import { multiply } from '../../../src/solve/formulas/complex.ts'
import { conductorGrams } from '../../../src/solve/formulas/conductor-resistance.ts'
import { parallelContactsAmps } from '../../../src/solve/formulas/contact-derating.ts'
import { dampingFactor, sourceOhmsFromDamping } from '../../../src/solve/formulas/damping-factor.ts'
import { ampHoursFromReserveCapacity, daysToFlat } from '../../../src/solve/formulas/days-to-flat.ts'
import { deviationLimitHertz, testDeviationHertz } from '../../../src/solve/formulas/deviation-limit.ts'
import { faultCurrent, faultVerdict } from '../../../src/solve/formulas/fault-current.ts'
import { part90TolerancePpm } from '../../../src/solve/formulas/frequency-tolerance.ts'
import { onderdonkFusingAmps, preeceFusingAmps } from '../../../src/solve/formulas/fusing-current.ts'
import { iacsPercent, resistivityFromIacs } from '../../../src/solve/formulas/iacs-conductivity.ts'
import { seriesRlc } from '../../../src/solve/formulas/impedance.ts'
import {
  copperSkinDepthMm,
  fieldBesideWire,
  loopVolts,
  wireToLoopHenries,
} from '../../../src/solve/formulas/magnetic-coupling.ts'
import { partyLineErrorDb } from '../../../src/solve/formulas/party-line.ts'
import { pullOutNewtons } from '../../../src/solve/formulas/pull-out-force.ts'
import { dbmFromWatts } from '../../../src/solve/formulas/received-level.ts'
import { coilAmps, coilJoules, suppressionDiode } from '../../../src/solve/formulas/relay-coil.ts'
import { exemptErpWatts, exemptSarMilliwatts } from '../../../src/solve/formulas/rf-exposure.ts'

/** Sums a person can redo on paper; where a handbook prints the figure it is named. */
describe('sums worked by hand', () => {
  test.each<[question: string, got: number | undefined, wanted: number, within: number]>([
    ['Preece: 18 AWG melts at 83 A (handbook)', preeceFusingAmps(awgAreaMm2(18)), 83, 0.5],
    [
      'Onderdonk: sqrt(log10(1063/254 + 1)/33) = 0.1471 A per circular mil for 1 s',
      onderdonkFusingAmps(awgAreaMm2(10), 1) / 10381,
      0.1471,
      0.0002,
    ],
    ['adiabatic: 1150 A for 1 s needs 10 mm² under PVC', adiabaticAreaMm2(1150, 1, 'pvc'), 10, 1e-9],
    ['adiabatic: 10 mm² under XLPE bears 1430 A for 1 s', adiabaticSeconds(10, 1430, 'xlpe'), 1, 1e-9],
    ['3 % of 12 V', allowedDropByShare(12, true).volts, 0.36, 1e-9],
    ['10 % of 24 V', allowedDropByShare(24, false).volts, 2.4, 1e-9],
    ['aircraft practice at 13.8 V, all day', allowedDropInVolts(13.8, 'continuous').volts, 0.5, 0],
    ['aircraft practice at 27.6 V, in bursts', allowedDropInVolts(27.6, 'intermittent').volts, 2, 0],
    ['-10 dBV is -7.78 dBu', dbuFromDbv(-10), -7.782, 0.001],
    ['a 4 Ω loudspeaker loads each bridged half with 2 Ω', bridgedHalfLoad(4), 2, 0],
    ['halves that need 2 Ω take 4 Ω', bridgedMinimumLoad(2), 4, 0],
    ['one CAN terminator', canTermination([120]).ohms, 120, 1e-9],
    ['CAN trunk at 250 kbit/s goes by the 1 Mbit/s row', canTrunkLimitMm(250_000), 40_000, 0],
    ['CAN trunk at 125 kbit/s', canTrunkLimitMm(125_000), 500_000, 0],
    ['a joint at 155 MHz', coaxJointLossDb(155e6), 0.5, 0],
    ['10 A in 5 mΩ', commonImpedanceVolts(10, 0.005), 0.05, 1e-12],
    ['1 V over 1 mV', signalToNoiseDb(1, 0.001), 60, 1e-9],
    ['1 mm² of copper weighs 8.89 g a metre', conductorGrams(1, 1000), 8.89, 1e-9],
    ['two 3 A contacts in parallel', parallelContactsAmps(3, 2), 4.8, 1e-9],
    ['four 3 A contacts in parallel', parallelContactsAmps(3, 4), 7.68, 1e-9],
    ['8 Ω with 0.02 Ω and 0.3 Ω before it', dampingFactor(8, 0.02, 0.3), 25, 1e-9],
    ['damping 400 into 8 Ω', sourceOhmsFromDamping(8, 400), 0.02, 1e-12],
    ['100 min of reserve', ampHoursFromReserveCapacity(100), 60, 1e-9],
    ['25 Ah at 50 mA', daysToFlat(25, 0.05), 20.8333, 0.0001],
    [
      '60 % of rated deviation, 25 kHz channel',
      testDeviationHertz(deviationLimitHertz('land mobile 25 kHz')),
      3000,
      1e-9,
    ],
    [
      '60 % of rated deviation, 12.5 kHz channel',
      testDeviationHertz(deviationLimitHertz('land mobile 12.5 kHz')),
      1500,
      1e-9,
    ],
    ['12 V through 20 mΩ and 100 mΩ', faultCurrent(12, 0.02, 0.1), 100, 1e-9],
    ['mobile at 155 MHz', part90TolerancePpm(155e6, 'mobile over 2 W'), 5, 0],
    ['hand-held at 460 MHz', part90TolerancePpm(460e6, 'mobile to 2 W'), 5, 0],
    ['fixed at 460 MHz in 6.25 kHz', part90TolerancePpm(460e6, 'fixed', 6250), 0.5, 0],
    ['1.7241 µΩ·cm is 100 % IACS', iacsPercent(1.7241), 100, 0.001],
    ['100 % IACS is 1/58 Ω·mm²/m', resistivityFromIacs(100), 1 / 58, 1e-12],
    ['a resonant circuit is its resistance', seriesRlc(8, 1 / (2 * Math.PI), 1, 1).im, 0, 1e-12],
    ['1 mH at 1 kHz', seriesRlc(0, 1000, 0.001).im, 6.28319, 0.0001],
    ['(1+2j)(3+4j) real part', multiply({ re: 1, im: 2 }, { re: 3, im: 4 }).re, -5, 0],
    ['(1+2j)(3+4j) imaginary part', multiply({ re: 1, im: 2 }, { re: 3, im: 4 }).im, 10, 0],
    ['skin depth at 100 kHz (handbook)', copperSkinDepthMm(100e3), 0.209, 0.0005],
    ['field of 1 A at 1 m, µT', fieldBesideWire(1, 1000) * 1e6, 0.2, 1e-9],
    ['1 µT at 1 kHz through 1 m², mV', loopVolts(1000, 1e-6, 1e6) * 1000, 6.28319, 0.0001],
    [
      'a loop as wide as it is far: 0.2 µH a metre times ln 2',
      wireToLoopHenries(1000, 10, 10) * 1e6,
      0.138629,
      1e-6,
    ],
    ['two terminators on one party line', partyLineErrorDb([200, 200], []), -6.0206, 0.0001],
    ['the right terminator', partyLineErrorDb([200], [10_000, 10_000]), 0, 1e-9],
    ['1.5 mm² is pulled like the gauge below it, 16 AWG', pullOutNewtons(1.5), 133.4, 0.1],
    ['1 W', dbmFromWatts(1), 30, 1e-9],
    ['coil of 90 Ω at 13.5 V', coilAmps(13.5, 90), 0.15, 1e-9],
    [
      'the same coil in the cold takes more: 254.5/194.5 of it',
      coilAmps(13.5, 90, -40),
      0.15 * (254.5 / 194.5),
      1e-9,
    ],
    ['0.15 A in 0.4 H', coilJoules(0.4, 0.15), 0.0045, 1e-12],
    ['diode behind a 12 V coil', suppressionDiode(12, 0.15).reverseVolts, 24, 0],
    ['Ethernet cable of 6 mm', bendRadius('modular data', 6).minimumMm, 24, 1e-9],
    ['SAR exemption stays level beyond 20 cm', exemptSarMilliwatts(450e6, 300), 918, 1e-9],
  ])('%s', (_question, got, wanted, within) => {
    expect(Math.abs((got ?? Number.NaN) - wanted)).toBeLessThanOrEqual(within)
  })

  test('what no source covers is undefined, not a guess', () => {
    expect(part90TolerancePpm(100e6, 'fixed')).toBeUndefined()
    expect(part90TolerancePpm(929.5e6, 'mobile over 2 W')).toBeUndefined()
    expect(pullOutNewtons(0.05)).toBeUndefined()
    expect(canTrunkLimitMm(5e6)).toBeUndefined()
    expect(exemptErpWatts(30e6, 100)).toBeUndefined()
    expect(exemptSarMilliwatts(155e6, 10)).toBeUndefined()
  })

  test('a dead short is judged by its ratio to the fuse', () => {
    expect([100, 50, 20, 19].map((amps) => faultVerdict(amps, 10))).toEqual([
      'opens at once',
      'opens at once',
      'opens late',
      'may not open',
    ])
  })

  test('a bus with one terminator has too few, and none is open', () => {
    expect(canTermination([120]).verdict).toBe('too few')
    expect(canTermination([])).toEqual({ ohms: Number.POSITIVE_INFINITY, verdict: 'too few' })
  })
})
