import { quote } from '../base/quote.ts'
import { bad, good, type Result } from '../base/result.ts'
import { DIMENSIONS, type DimensionFacts } from '../base/units.ts'
import type { Limit } from './limit.ts'
import { inBase, type Measure, type ReadingUnit, ratioOfPowers } from './measures.ts'

const READING = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/
const OPEN = /^(?:o\.?l\.?|open|∞|over ?range)$/i
const YES = /^(?:yes|y|pass|ok)$/i
const NO = /^(?:no|n|fail)$/i
const LONGEST_TEXT = 64

/** What a meter showed, in the base unit of the limit's measure; true or false for a look. */
export type Read =
  | { readonly kind: 'figure'; readonly value: number }
  | { readonly kind: 'look'; readonly good: boolean }

/** One spelling of signs that look alike: omegas, micros, minus, odd spaces, and the asterisk of a ratio. */
const tidy = (text: string): string =>
  text
    .replaceAll('\u2126', 'Ω')
    .replaceAll('\u03bc', 'µ')
    .replaceAll('\u2212', '-')
    .replace(/\s+/g, ' ')
    .trim()

/** Milli and mega differ only by the case of their first letter, so that letter is never guessed. */
const sameFirstM = (a: string, b: string): boolean => !/^m/i.test(a) || a[0] === b[0]

type Units = Readonly<Record<string, ReadingUnit>>

function unitNamed(written: string, units: Units): string | undefined {
  const names = Object.keys(units)
  return (
    names.find((unit) => unit === written) ??
    names.find((unit) => unit.toLowerCase() === written.toLowerCase() && sameFirstM(written, unit))
  )
}

function wrongUnit(written: string, text: string, measure: Measure): string {
  const like = `write ${measure.words} such as ${quote(measure.example)}`
  if (written === '') return `${quote(text)} has no unit; ${like}`
  if (written.startsWith(',')) return `${quote(text)} has a comma; write a point for the decimals`
  const other = Object.values(DIMENSIONS).find((entry: DimensionFacts) => Object.hasOwn(entry.units, written))
  return other
    ? `${quote(written)} is a unit of ${other.words}, and ${measure.words} is asked for; ${like}`
    : `${quote(written)} is not a unit of ${measure.words.replace(/^an? /, '')}; ${like}`
}

/** `38 W / 0.4 W`, `38 / 0.4 W`: what a wattmeter in the line shows; NaN when it is neither. */
function powersRead(text: string, powers: Units): number {
  const [forward, reflected, ...more] = text.split('/').map((part) => READING.exec(part.trim()))
  if (!forward || !reflected || more.length > 0) return Number.NaN
  const back = reflected[2] ?? ''
  const units = [forward[2] === '' ? back : (forward[2] ?? ''), back].map((name) => {
    const unit = unitNamed(name, powers)
    return unit === undefined ? Number.NaN : (powers[unit]?.factor ?? Number.NaN)
  })
  return ratioOfPowers(
    Number(forward[1]) * (units[0] ?? Number.NaN),
    Number(reflected[1]) * (units[1] ?? Number.NaN),
  )
}

/**
 * Reads what a person wrote beside a limit: a number and a unit of its measure, "OL" for more than the meter shows, "yes" or "no"
 * for a look. Refuses what no meter can show. Never throws.
 */
export function readReading(typed: string, limit: Limit): Result<Read> {
  const text = tidy(typed.slice(0, 4 * LONGEST_TEXT))
  if (limit.kind === 'look') {
    if (YES.test(text)) return good({ kind: 'look', good: true })
    if (NO.test(text)) return good({ kind: 'look', good: false })
    return bad(`${quote(typed)} is no answer; write “yes” or “no”`)
  }
  const { measure } = limit
  if (measure.open && OPEN.test(text)) return good({ kind: 'figure', value: Number.POSITIVE_INFINITY })
  if (measure.powers && text.includes('/') && typed.length <= LONGEST_TEXT) {
    const value = powersRead(text, measure.powers)
    return value <= measure.ceiling
      ? good({ kind: 'figure', value })
      : bad(`${quote(typed)} is no forward and reflected power; write them such as “38 W / 0.4 W”`)
  }
  const match = typed.length > LONGEST_TEXT ? null : READING.exec(text)
  if (!match)
    return bad(`${quote(typed)} is not ${measure.words}; write one such as ${quote(measure.example)}`)
  const written = match[2] ?? ''
  const name = unitNamed(written, measure.units)
  const unit = name === undefined ? undefined : measure.units[name]
  if (!unit) return bad(wrongUnit(written, typed, measure))
  const value = inBase(Number(match[1]), unit)
  if (!(value >= measure.floor && value <= measure.ceiling))
    return bad(
      `${quote(typed)} is nothing a meter can show here; write ${measure.words} such as ${quote(measure.example)}`,
    )
  return good({ kind: 'figure', value })
}
