import {
  formatChannel,
  formatDbm,
  formatDecibels,
  formatLength,
  formatWatts,
  significant,
} from '../../base/format-quantity.ts'
import type { Loom } from '../../resolve/loom.ts'
import { pinName } from '../../sheets/names.ts'
import { feederOutputWatts } from '../../solve/formulas/feeder-power.ts'
import { hertzFromPpm, part90TolerancePpm } from '../../solve/formulas/frequency-tolerance.ts'
import { microvoltsFromDbm } from '../../solve/formulas/received-level.ts'
import { reflectionFromVswr } from '../../solve/formulas/reflection.ts'
import { seenThroughFeeder } from '../../solve/formulas/seen-through-feeder.ts'
import type { Paths } from '../../solve/paths.ts'
import { figureLimit } from '../figure-limit.ts'
import type { FigureLimit, Limits, Missing } from '../limit.ts'
import { frequencyError, HERTZ, RADIO_LEVEL, STANDING_WAVE, WATTS } from '../measures.ts'
import { type RfChain, rfChains } from '../rf-chain.ts'
import { unitFor } from '../unit-for.ts'

/** A transmitter may be this far under its rated power: ETSI EN 300 086, normal conditions (from memory). */
const UNDER_DB = 1.5
/** It may be this share over it: 47 CFR 90.205 (from memory). */
const OVER_SHARE = 1.2
/** Looked into where the antenna states nothing; common practice. */
const USUAL_VSWR = 1.5
/** Up to this power hand-portable tolerances apply (47 CFR 90.213). */
const PORTABLE_WATTS = 2

/** Power, match, frequency, deviation and sensitivity of every transmitter. */
export function rfLimits(loom: Loom, paths: Paths): Limits {
  const all = rfChains(loom, paths).map((chain) => chainLimits(loom, chain))
  return {
    limits: all.flatMap(({ limits }) => limits),
    missing: all.flatMap(({ missing }) => missing),
  }
}

function chainLimits(loom: Loom, chain: RfChain): Limits {
  const { radio, needs } = chain
  const lacks = (what: string, needed: string): Missing[] => [{ what, needs: needed, address: radio.address }]
  const frequency = frequencyLimit(loom, chain)
  const { deviation, sensitivity } = radio.does
  return {
    limits: [
      ...powerLimits(chain),
      ...matchLimit(chain),
      ...frequency,
      ...deviationLimit(chain),
      ...sensitivityLimit(chain),
    ],
    missing: [
      ...needs.map((need) => ({ what: 'feeder loss', needs: need, address: radio.address })),
      ...(frequency.length === 0 ? lacks('frequency error', `"tolerance" of ${radio.address}`) : []),
      ...(deviation === undefined ? lacks('deviation', `"deviation" of ${radio.address}`) : []),
      ...(sensitivity === undefined ? lacks('receive sensitivity', `"sensitivity" of ${radio.address}`) : []),
    ],
  }
}

const channelText = ({ hertz }: RfChain): string =>
  hertz === undefined ? 'the channel' : formatChannel(hertz)

function powerLimits(chain: RfChain): FigureLimit[] {
  const { radio, lossDb } = chain
  const watts = radio.does.watts ?? 0
  const common = { group: 'rf', measure: WATTS, address: radio.address } as const
  const window = (nominal: number) => ({
    unit: unitFor(WATTS, nominal),
    least: feederOutputWatts(nominal, UNDER_DB),
    most: nominal * OVER_SHARE,
    expected: nominal,
  })
  const bounds = `−${UNDER_DB} dB to +${Math.round((OVER_SHARE - 1) * 100)} %`
  const source = 'ETSI EN 300 086 and 47 CFR 90.205 for the window (from memory)'
  const at = figureLimit({
    ...common,
    ...window(watts),
    id: `${radio.address}/forward`,
    what: `Forward power at ${pinName(radio)}`,
    how: `Wattmeter at the radio, dummy load first, then the antenna; ${channelText(chain)}.`,
    sum: `Rated ${formatWatts(watts)}, ${bounds}.`,
    source,
  })
  if (lossDb === undefined) return [at]
  const out = feederOutputWatts(watts, lossDb)
  return [
    at,
    figureLimit({
      ...common,
      ...window(out),
      id: `${radio.address}/feeder-end`,
      what: 'Forward power at the antenna end of the feeder',
      how: `Wattmeter and dummy load in place of the antenna; ${channelText(chain)}.`,
      sum: `${formatWatts(watts)} less ${lossText(chain)} leaves ${formatWatts(out)}; ${bounds}.`,
      source: `P · 10^(−dB/10); loss of the cable as published; ${source}`,
    }),
  ]
}

/** `0.88 dB in 4.5 m at 21.1 dB/100 m and 0.50 dB in 2 joints: 1.38 dB`. */
export function lossText({ runs, joints, jointDb, lossDb }: RfChain): string {
  const cables = runs.map(
    ({ lengthMm, dbPerMetre }) =>
      `${formatDecibels((lengthMm / 1000) * dbPerMetre)} in ${formatLength(lengthMm)} at ${significant(dbPerMetre * 100)} dB/100 m`,
  )
  const ends = `${formatDecibels(joints * jointDb)} in ${joints} ${joints === 1 ? 'joint' : 'joints'}`
  return `${[...cables, ends].join(' and ')} (${formatDecibels(lossDb ?? Number.NaN)})`
}

function matchLimit(chain: RfChain): FigureLimit[] {
  const { radio, antenna, lossDb } = chain
  if (!antenna || lossDb === undefined) return []
  const stated = antenna.does.vswr
  const vswr = stated ?? USUAL_VSWR
  if (!(vswr > 1)) return []
  const far = reflectionFromVswr(vswr)
  const near = seenThroughFeeder(vswr, lossDb)
  const watts = radio.does.watts ?? 0
  return [
    figureLimit({
      id: `${radio.address}/vswr`,
      group: 'rf',
      what: `Standing wave ratio at ${pinName(radio)}`,
      how: `At the radio, antenna on, doors and lids shut, nobody near it; lowest, middle and highest channel, the worst counts. Return loss in dB will do, or forward / reflected W.`,
      measure: STANDING_WAVE,
      unit: ':1',
      most: near.vswr,
      sum: `Antenna ${significant(vswr)}:1${stated === undefined ? ' (not stated: usual limit)' : ''} is ${formatDecibels(far.returnLossDb)} return loss; the feeder weakens what comes back twice by ${formatDecibels(lossDb)}: ${formatDecibels(near.returnLossDb)} at the radio, ${formatWatts(watts * near.coefficient ** 2)} back of ${formatWatts(watts)}.`,
      source: 'Γ = (VSWR − 1)/(VSWR + 1), RL = −20 log Γ; seen through the feeder RL + 2 · loss',
      address: radio.address,
    }),
  ]
}

function frequencyLimit(loom: Loom, { radio, hertz }: RfChain): FigureLimit[] {
  if (hertz === undefined) return []
  const { tolerance, watts = 0 } = radio.does
  const kind =
    loom.setting === 'building' ? 'fixed' : watts > PORTABLE_WATTS ? 'mobile over 2 W' : 'mobile to 2 W'
  // Boats keep to other rules, which the table does not hold.
  const table = loom.setting === 'boat' ? undefined : part90TolerancePpm(hertz, kind)
  const ppm = tolerance === undefined ? table : tolerance * 1e6
  if (ppm === undefined) return []
  const most = hertzFromPpm(hertz, ppm)
  const measure = frequencyError(hertz)
  return [
    figureLimit({
      id: `${radio.address}/frequency`,
      group: 'rf',
      what: `Frequency error of ${pinName(radio)}`,
      how: `No modulation, radio warm, ${formatChannel(hertz)}; counter with its own reference checked.`,
      measure,
      unit: unitFor(measure, most),
      least: -most,
      most,
      expected: 0,
      sum: `±${significant(ppm)} ppm of ${formatChannel(hertz)} = ±${significant(most, 4)} Hz.`,
      source: tolerance === undefined ? `47 CFR 90.213(a), ${kind}` : 'tolerance stated for the equipment',
      address: radio.address,
    }),
  ]
}

function deviationLimit({ radio }: RfChain): FigureLimit[] {
  const { deviation } = radio.does
  if (deviation === undefined) return []
  return [
    figureLimit({
      id: `${radio.address}/deviation`,
      group: 'rf',
      what: `Peak deviation of ${pinName(radio)}`,
      how: 'Loud speech, then a whistle, into the microphone as it is mounted.',
      measure: HERTZ,
      unit: 'kHz',
      most: deviation,
      sum: `Stated: at most ${significant(deviation / 1000)} kHz.`,
      source: 'deviation stated for the equipment and its channel spacing',
      address: radio.address,
    }),
  ]
}

function sensitivityLimit({ radio, lossDb }: RfChain): FigureLimit[] {
  const { sensitivity } = radio.does
  if (sensitivity === undefined) return []
  const microvolts = microvoltsFromDbm(sensitivity)
  const through =
    lossDb === undefined ? '' : ` At the far end of the feeder ${formatDbm(sensitivity + lossDb)}.`
  return [
    figureLimit({
      id: `${radio.address}/sensitivity`,
      group: 'rf',
      what: `Level for 12 dB SINAD at ${pinName(radio)}`,
      how: '1 kHz at 60 % of the rated deviation; engine and everything else off, then on. Write the worse.',
      measure: RADIO_LEVEL,
      unit: 'dBm',
      most: sensitivity,
      sum: `Stated ${formatDbm(sensitivity)} = ${significant(microvolts)} µV in 50 Ω.${through} The margin is how many dB below the stated level it still hears.`,
      source: 'sensitivity stated for the equipment; dBm = 10 log(V²/50 Ω/1 mW); test signal of TIA-603',
      address: radio.address,
    }),
  ]
}
