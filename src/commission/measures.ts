import { DIMENSIONS } from '../base/units.ts'
import { DBU_VOLTS } from '../solve/formulas/audio-level.ts'
import { dbmFromMicrovolts } from '../solve/formulas/received-level.ts'
import { reflectionFromVswr } from '../solve/formulas/reflection.ts'

/**
 * How a unit becomes the base unit of a measure: `number × factor + offset`; with `curve`, `factor × 20·log10(number) + offset`
 * for a voltage read where a level is wanted, or the standing wave ratio of a return loss.
 */
export interface ReadingUnit {
  readonly factor: number
  readonly offset?: number
  readonly curve?: 'level' | 'return-loss'
}

/** A kind of figure a meter shows: its units, and what no meter can show. */
export interface Measure {
  readonly words: string
  readonly example: string
  readonly units: Readonly<Record<string, ReadingUnit>>
  /** Bounds beyond which a reading is a slip of the pen, in the base unit. */
  readonly floor: number
  readonly ceiling: number
  /** "OL" and "open" are readings: more than the meter can show. */
  readonly open?: true
  /** Forward and reflected power together are a reading too: `38 W / 0.4 W`. */
  readonly powers?: Readonly<Record<string, ReadingUnit>>
  /** Unit of a difference, where it is another: levels differ by decibels. */
  readonly difference?: string
}

const { voltage, current, resistance, power, frequency, radioLevel, level, ratio } = DIMENSIONS

/** Reading of a level meter or a voltmeter across 50 Ω. */
const MICROVOLT_IN_DBM = dbmFromMicrovolts(1)
const VOLT_IN_DBU = -20 * Math.log10(DBU_VOLTS)

export const VOLTS: Measure = {
  words: 'a voltage',
  example: '13.1 V',
  units: voltage.units,
  floor: -1000,
  ceiling: 1000,
}
export const AMPS: Measure = {
  words: 'a current',
  example: '350 mA',
  units: current.units,
  floor: -1000,
  ceiling: 1000,
}
export const OHMS: Measure = {
  words: 'a resistance',
  example: '74 mΩ',
  units: resistance.units,
  floor: 0,
  ceiling: 1e12,
  open: true,
}
export const WATTS: Measure = {
  words: 'a power',
  example: '25 W',
  units: power.units,
  floor: 0,
  ceiling: 10_000,
}
/** A frequency, such as a deviation. */
export const HERTZ: Measure = {
  words: 'a frequency',
  example: '2.4 kHz',
  units: frequency.units,
  floor: 0,
  ceiling: 1e12,
}
/** Received level at 50 Ω, in dBm or as the voltage there. */
export const RADIO_LEVEL: Measure = {
  words: 'a radio level',
  example: '-117 dBm',
  units: {
    ...radioLevel.units,
    µV: { factor: 1, offset: MICROVOLT_IN_DBM, curve: 'level' },
    uV: { factor: 1, offset: MICROVOLT_IN_DBM, curve: 'level' },
  },
  floor: -160,
  ceiling: 60,
  difference: 'dB',
}
/** Audio level, in dBu, dBV or as the voltage. */
export const AUDIO_LEVEL: Measure = {
  words: 'an audio level',
  example: '-0.5 dBu',
  units: {
    ...level.units,
    V: { factor: 1, offset: VOLT_IN_DBU, curve: 'level' },
    mV: { factor: 1, offset: VOLT_IN_DBU - 60, curve: 'level' },
  },
  floor: -120,
  ceiling: 60,
  difference: 'dB',
}
/** Standing wave ratio, or the return loss it is: `VSWR = (1 + Γ) / (1 − Γ)`, `Γ = 10^(−RL/20)`. */
export const STANDING_WAVE: Measure = {
  words: 'a standing wave ratio',
  example: '1.3:1',
  units: { ...ratio.units, dB: { factor: 1, curve: 'return-loss' } },
  floor: 1,
  ceiling: 1000,
  open: true,
  powers: power.units,
}

/** Off frequency, either way: in hertz, or in ppm of the channel. */
export const frequencyError = (channelHertz: number): Measure => ({
  words: 'a frequency error',
  example: '-120 Hz',
  units: { ...frequency.units, ppm: { factor: channelHertz / 1e6 } },
  floor: -1e6,
  ceiling: 1e6,
})

/** A number in a unit as the base unit of its measure; NaN where the curve has no such point. */
export function inBase(number: number, { factor, offset = 0, curve }: ReadingUnit): number {
  if (curve === 'level') return number > 0 ? factor * 20 * Math.log10(number) + offset : Number.NaN
  if (curve === 'return-loss') {
    const back = 10 ** (-number / 20)
    return number > 0 ? (1 + back) / (1 - back) : Number.NaN
  }
  return number * factor + offset
}

/** Standing wave ratio of forward and reflected power in one unit: `Γ = √(Pr/Pf)`; NaN where there is none. */
export function ratioOfPowers(forward: number, reflected: number): number {
  const back = forward > 0 && reflected >= 0 ? Math.sqrt(reflected / forward) : Number.NaN
  return back < 1 ? (1 + back) / (1 - back) : Number.NaN
}

/** A value of the base unit in one of the units; the way back of {@link inBase}. */
export function inUnit(value: number, { factor, offset = 0, curve }: ReadingUnit): number {
  if (curve === 'level') return 10 ** ((value - offset) / factor / 20)
  if (curve === 'return-loss') return reflectionFromVswr(value).returnLossDb
  return (value - offset) / factor
}
