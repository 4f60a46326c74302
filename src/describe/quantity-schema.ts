import * as z from 'zod'
import { parseQuantity, parseRange } from '../base/quantity.ts'
import type { Dimension } from '../base/units.ts'

/** A number that carries its unit in its type only; plain arithmetic works, mixing is visible in signatures. */
type Unit<U extends string> = number & { readonly unit?: U }
export type Mm = Unit<'mm'>
export type Ohms = Unit<'ohm'>
export type Amps = Unit<'A'>
export type Volts = Unit<'V'>
export type Watts = Unit<'W'>
export type AmpHours = Unit<'Ah'>
export type Celsius = Unit<'°C'>
export type Hertz = Unit<'Hz'>
export type Newtons = Unit<'N'>
export type NewtonMetres = Unit<'N·m'>
export type Farads = Unit<'F'>
export type BitRate = Unit<'bit/s'>
export type SquareMm = Unit<'mm²'>
export type Dbu = Unit<'dBu'>
export type Days = Unit<'day'>
export type Decibels = Unit<'dB'>
export type Dbm = Unit<'dBm'>
export type Share = Unit<'1'>

/** Lowest and highest value of a quantity, in the base unit of its dimension. */
export interface Range<T extends number = number> {
  readonly min: T
  readonly max: T
}

/** A figure and then a unit. For editors that know the JSON Schema only; the parser has the last word. */
const WITH_UNIT = '^[^A-Za-z]*\\d.*[^\\d\\s.,]\\s*$'

/**
 * A quantity written as text with its unit ("5.2 m", "20 A"), read into its base unit.
 * A bare number is refused with a message that says which unit is wanted.
 */
function quantity<Out extends number, In extends string>(
  dimension: Dimension,
  example: string,
  description: string,
) {
  return z
    .string({ error: (issue) => bareNumber(issue.input, example) })
    .transform((text, ctx): Out => {
      const read = parseQuantity(text, dimension)
      if (read.ok) return read.value as Out
      ctx.addIssue({ code: 'custom', message: read.problem })
      return z.NEVER
    })
    .meta({
      description: `${description} Text with a unit, such as "${example}".`,
      examples: [example],
      pattern: WITH_UNIT,
    }) as unknown as z.ZodType<Out, In>
}

function range<Out extends number, In extends string>(
  dimension: Dimension,
  example: string,
  description: string,
) {
  return z
    .string({ error: (issue) => bareNumber(issue.input, example) })
    .transform((text, ctx): Range<Out> => {
      const read = parseRange(text, dimension)
      if (read.ok) return read.value as Range<Out>
      ctx.addIssue({ code: 'custom', message: read.problem })
      return z.NEVER
    })
    .meta({
      description: `${description} Text with a unit, such as "${example}".`,
      examples: [example],
      pattern: WITH_UNIT,
    }) as unknown as z.ZodType<Range<Out>, In>
}

function bareNumber(input: unknown, example: string): string {
  if (typeof input === 'number')
    return `${input} has no unit; write it as text with one, such as "${example}"`
  return `expected text with a unit, such as "${example}"`
}

/** The ways a length may be written. A bare number is a type error. */
export type LengthText = `${number} ${'mm' | 'cm' | 'm' | 'ft' | 'in'}`
type Si<U extends string> = `${number} ${U}`
type SiRange<U extends string> = Si<U> | `${number}..${number} ${U}`

export const lengthText = (d: string, e = '5.2 m') => quantity<Mm, LengthText>('length', e, d)
export const ampsText = (d: string, e = '12 A') =>
  quantity<Amps, Si<'A' | 'mA' | 'µA' | 'uA'>>('current', e, d)
export const voltsText = (d: string, e = '13.8 V') => quantity<Volts, Si<'V' | 'mV' | 'kV'>>('voltage', e, d)
export const ohmsText = (d: string, e = '120 Ω') =>
  quantity<Ohms, Si<'Ω' | 'ohm' | 'mΩ' | 'mohm' | 'kΩ' | 'kohm' | 'MΩ' | 'Mohm'>>('resistance', e, d)
export const wattsText = (d: string, e = '15 W') => quantity<Watts, Si<'W' | 'mW' | 'kW'>>('power', e, d)
export const ampHoursText = (d: string, e = '25 Ah') => quantity<AmpHours, Si<'Ah' | 'mAh'>>('capacity', e, d)
export const celsiusText = (d: string, e = '85 °C') =>
  quantity<Celsius, Si<'°C' | 'C' | '°F' | 'F'>>('temperature', e, d)
export const hertzText = (d: string, e = '155 MHz') =>
  quantity<Hertz, Si<'Hz' | 'kHz' | 'MHz' | 'GHz'>>('frequency', e, d)
export const bitRateText = (d: string, e = '250 kbit/s') =>
  quantity<BitRate, Si<'bit/s' | 'kbit/s' | 'Mbit/s' | 'Gbit/s'>>('bitRate', e, d)
export const newtonsText = (d: string, e = '89 N') => quantity<Newtons, Si<'N'>>('force', e, d)
export const torqueText = (d: string, e = '9 N·m') => quantity<NewtonMetres, Si<'N·m' | 'Nm'>>('torque', e, d)
export const faradsText = (d: string, e = '100 nF') =>
  quantity<Farads, Si<'F' | 'mF' | 'µF' | 'uF' | 'nF' | 'pF'>>('capacitance', e, d)
export const dbuText = (d: string, e = '+4 dBu') =>
  quantity<Dbu, Si<'dBu' | 'dBV'> | `+${Si<'dBu' | 'dBV'>}`>('level', e, d)
export const dbmText = (d: string, e = '-116 dBm') => quantity<Dbm, Si<'dBm' | 'dBW'>>('radioLevel', e, d)
export const decibelsText = (d: string, e = '2 dB') => quantity<Decibels, Si<'dB'>>('decibels', e, d)
/** A tolerance as a share of 1: 2.5 ppm is 2.5e-6. */
export const ppmText = (d: string, e = '2.5 ppm') => quantity<Share, Si<'ppm' | '%'>>('share', e, d)
/** A standing wave ratio: the larger side, the smaller being 1. */
export const ratioText = (d: string, e = '1.5:1') => quantity<Share, `${number}:1`>('ratio', e, d)
export const areaText = (d: string, e = '0.5 mm²') => quantity<SquareMm, Si<'mm²' | 'mm2'>>('area', e, d)
/** Parked time; kept in days since that is how the trade counts it. */
export const daysText = (d: string, e = '21 days') =>
  quantity<Days, Si<'days' | 'day' | 'h'>>('time', e, d).transform((seconds): Days => seconds / 86_400)

export const voltsRange = (d: string, e = '10.8..15.6 V') =>
  range<Volts, SiRange<'V' | 'mV'>>('voltage', e, d)
export const areaRange = (d: string, e = '0.2..0.5 mm²') =>
  range<SquareMm, SiRange<'mm²' | 'mm2'>>('area', e, d)
export const lengthRange = (d: string, e = '1.7..2.4 mm') => range<Mm, SiRange<'mm' | 'in'>>('length', e, d)
