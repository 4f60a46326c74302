import { awgAreaMm2, circularMils } from '../../../src/base/wire-size.ts'
import { bendRadius } from '../../../src/solve/formulas/bend-radius.ts'
import { bundleDiameterMm, bundleRuleMm } from '../../../src/solve/formulas/bundle-diameter.ts'
import { carsonBandwidthHertz, emissionDesignator } from '../../../src/solve/formulas/carson-bandwidth.ts'
import { coaxLossDbPerMetre, GENERIC_COAX } from '../../../src/solve/formulas/coax-loss.ts'
import { combinedAreaMm2, combinedSize } from '../../../src/solve/formulas/combined-crimp.ts'
import { contactDerating } from '../../../src/solve/formulas/contact-derating.ts'
import { deviationLimitHertz } from '../../../src/solve/formulas/deviation-limit.ts'
import { feederLossDb, feederOutputWatts } from '../../../src/solve/formulas/feeder-power.ts'
import {
  hertzFromPpm,
  part90TolerancePpm,
  ppmFromHertz,
} from '../../../src/solve/formulas/frequency-tolerance.ts'
import { LOAD_DUMP, loadDumpSourceOhms } from '../../../src/solve/formulas/load-dump.ts'
import {
  pullOutNewtons,
  softCopperBreakNewtons,
  unlistedCrimpNewtons,
} from '../../../src/solve/formulas/pull-out-force.ts'
import {
  dbMicrovoltsFromDbm,
  dbmFromMicrovolts,
  microvoltsFromDbm,
  wattsFromDbm,
} from '../../../src/solve/formulas/received-level.ts'
import {
  reflection,
  reflectionFromPower,
  reflectionFromVswr,
} from '../../../src/solve/formulas/reflection.ts'
import {
  exemptErpWatts,
  exemptSarMilliwatts,
  exposureDistanceMm,
  exposureLimit,
  FULL_REFLECTION,
  powerDensity,
} from '../../../src/solve/formulas/rf-exposure.ts'
import type { Check } from './check.ts'

const FOOT = 304.8
const LBF = 4.4482216
const rg58 = coaxLossDbPerMetre(GENERIC_COAX['RG-58C/U'] ?? [], 150e6)
const match = reflection(50, 75)
const swr3 = reflectionFromVswr(3)

/** Published worked checks: radio and mechanics. */
export const RADIO_AND_MECHANICS_CHECKS: readonly Check[] = [
  [
    'W66',
    'published calculator',
    '75 Ω on 50 Ω',
    [match.coefficient, match.returnLossDb, match.vswr, match.mismatchLossDb],
    [0.2, 13.98, 1.5, 0.1773],
    0.001,
  ],
  [
    'W67',
    'transmission-line table',
    'ratio 3: reflected %, return loss, mismatch',
    [100 * swr3.coefficient ** 2, swr3.returnLossDb, swr3.mismatchLossDb],
    [25, 6.02, 1.25],
    0.005,
  ],
  ['W68', 'formula', '50 W forward, 2 W back', [reflectionFromPower(50, 2).vswr], [1.5], 1e-9],
  [
    'W69',
    'UL 486A, MIL-T-7928',
    '18 AWG pull-out, N',
    [pullOutNewtons(awgAreaMm2(18)), pullOutNewtons(awgAreaMm2(18), 'MIL-T-7928')],
    [89, 169],
    0.1,
  ],
  [
    'W70',
    'wire break table',
    '14 AWG soft copper, lbf, and 60 % of it',
    [softCopperBreakNewtons(awgAreaMm2(14)) / LBF, unlistedCrimpNewtons(awgAreaMm2(14)) / LBF],
    [119.3, 71.6],
    0.1,
  ],
  [
    'W71',
    'NASA-STD-8739.4 19.11',
    'two 20 AWG in one barrel',
    [
      circularMils(combinedAreaMm2([awgAreaMm2(20), awgAreaMm2(20)])),
      combinedSize([awgAreaMm2(20), awgAreaMm2(20)])?.label,
    ],
    [2043, '16 AWG'],
    1,
  ],
  ['W72', 'circle packing, 7', 'seven of 2 mm', [bundleDiameterMm(Array(7).fill(2))], [6], 1e-9],
  ['W73', 'Fodor 1999', 'nineteen of 1 mm', [bundleDiameterMm(Array(19).fill(1))], [4.8637], 0.00005],
  [
    'W74',
    'circle packing, 3',
    'three of 2 mm: exact and rule of thumb',
    [bundleDiameterMm([2, 2, 2]), bundleRuleMm([2, 2, 2])],
    [4.309, 4.157],
    0.0005,
  ],
  ['W75', 'best known packing', 'thirty of 1 mm', [bundleDiameterMm(Array(30).fill(1))], [6.1977], 0.00005],
  [
    'W76',
    'NASA-STD-8739.4 7.3',
    'coax of 5 mm',
    [bendRadius('coax', 5).minimumMm, bendRadius('coax', 5).preferredMm],
    [30, 50],
    1e-9,
  ],
  [
    'W77',
    'connector product specification 108-40005',
    '5 A contact, 22 AWG, half loaded',
    [5 * (contactDerating(awgAreaMm2(22), 0.5) ?? 0)],
    [1.385],
    1e-9,
  ],
  [
    'W79',
    '47 CFR 90.213 note 5',
    'base on 155 MHz, 12.5 kHz',
    [hertzFromPpm(155e6, part90TolerancePpm(155e6, 'fixed', 12_500) ?? 0)],
    [387.5],
    1e-6,
  ],
  [
    'W80',
    '47 CFR 90.213(a)',
    'base on 460 MHz',
    [hertzFromPpm(460e6, part90TolerancePpm(460e6, 'fixed') ?? 0)],
    [1150],
    1e-6,
  ],
  [
    'W81',
    '47 CFR 90.213',
    '+380 Hz on 154.95 MHz',
    [ppmFromHertz(154.95e6, 380), ppmFromHertz(154.95e6, 380) <= 2.5],
    [2.452, true],
    0.0005,
  ],
  [
    'W83',
    'published level chart',
    '1, 0.5 and 0.3 µV in dBm',
    [dbmFromMicrovolts(1), dbmFromMicrovolts(0.5), dbmFromMicrovolts(0.3)],
    [-106.99, -113.01, -117.45],
    0.005,
  ],
  ['W84', 'published level chart', '0 dBm in mV', [microvoltsFromDbm(0) / 1000], [223.6], 0.05],
  [
    'W85',
    'definition',
    '+30 dBm in W and V',
    [wattsFromDbm(30), microvoltsFromDbm(30) / 1e6],
    [1, 7.07],
    0.002,
  ],
  ['W86', 'published conversion (126.98)', '20 dBm in dBµV', [dbMicrovoltsFromDbm(20)], [126.99], 0.005],
  [
    'W87',
    '47 CFR 2.202',
    'deviation 2.5 and 5 kHz, audio 3 kHz',
    [
      carsonBandwidthHertz(2500, 3000),
      emissionDesignator(11_000),
      carsonBandwidthHertz(5000, 3000),
      emissionDesignator(16_000),
    ],
    [11_000, '11K0F3E', 16_000, '16K0F3E'],
    1e-9,
  ],
  [
    'W88',
    '47 CFR 95.1775(c)',
    '5 kHz on a 467 MHz interstitial',
    [deviationLimitHertz('GMRS 467 interstitial'), 5000 <= deviationLimitHertz('GMRS 467 interstitial')],
    [2500, false],
    1e-9,
  ],
  [
    'W89',
    'generic coax table',
    '20 ft of RG-58 at 150 MHz from 50 W',
    [feederLossDb(20 * FOOT, rg58), feederOutputWatts(50, feederLossDb(20 * FOOT, rg58))],
    [1.22, 37.75],
    0.01,
  ],
  [
    'W90',
    'generic coax table',
    'the same with two joints',
    [feederLossDb(20 * FOOT, rg58, 2, 0.25), feederOutputWatts(50, feederLossDb(20 * FOOT, rg58, 2, 0.25))],
    [1.72, 33.65],
    0.01,
  ],
  [
    'W91',
    'OET Bulletin 65 sample',
    '39.811 mW, 0 dBi, 20 cm',
    [powerDensity(0.039811, 1, 200)],
    [0.00792],
    0.000005,
  ],
  [
    'W92',
    '47 CFR 1.1310',
    '450 MHz, general and occupational',
    [exposureLimit(450e6, 'general'), exposureLimit(450e6, 'occupational')],
    [0.3, 1.5],
    1e-9,
  ],
  [
    'W93',
    'OET Bulletin 65; 47 CFR 1.1307',
    '50 W, gain 2, 155 MHz, general: m, free and over ground',
    [exposureDistanceMm(50, 2, 0.2) / 1000, exposureDistanceMm(50, 2, 0.2, FULL_REFLECTION) / 1000],
    [1.995, 3.99],
    0.001,
  ],
  [
    'W94',
    'FCC 19-126',
    'SAR exemption, 0.45 GHz at 1 cm, mW',
    [exemptSarMilliwatts(450e6, 10)],
    [44.3725],
    0.00005,
  ],
  [
    'W95',
    '47 CFR 1.1307(b)(3)(i)(C)',
    'exempt ERP at 1 m, 155 and 450 MHz',
    [exemptErpWatts(155e6, 1000), exemptErpWatts(450e6, 1000)],
    [3.83, 5.76],
    1e-9,
  ],
  [
    'W96',
    'ISO 16750-2 test A',
    '95 V in a 12 V system',
    [95 >= LOAD_DUMP[12].volts.min && 95 <= LOAD_DUMP[12].volts.max],
    [true],
  ],
  [
    'W97',
    'ISO 16750-2',
    'source of a 14 V, 100 A alternator at 6000 min⁻¹',
    [loadDumpSourceOhms(14, 100, 6000)],
    [0.875],
    1e-9,
  ],
]
