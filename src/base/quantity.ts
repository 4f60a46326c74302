import { quote } from './quote.ts'
import { bad, good, type Result } from './result.ts'
import { didYouMean, suggest } from './suggest.ts'
import { DIMENSIONS, type Dimension, type DimensionFacts, dimensionFacts, type Unit } from './units.ts'

export type { Dimension } from './units.ts'

const LONGEST_TEXT = 64
const LARGEST_VALUE = 1e12
const QUANTITY = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/
const FEET_AND_INCHES = /^(\d+)\s*(?:ft|')\s*(\d+(?:\.\d+)?)\s*(?:in|")$/

/** A span of values in the base unit of its dimension, `min <= max`. */
export type Range = { readonly min: number; readonly max: number }

/** Makes one spelling of characters that look alike: both omegas, both micro signs, the real minus, odd spaces. */
function tidy(text: string): string {
  return text
    .replaceAll('\u2126', 'Ω')
    .replaceAll('\u03bc', 'µ')
    .replaceAll('\u2212', '-')
    .replaceAll('\u2019', "'")
    .replaceAll('\u201d', '"')
    .replace(/\s+/g, ' ')
    .trim()
}

/**
 * Reads a number with its unit, such as `350 mm`, `74 mΩ` or `5' 3"`.
 * @returns the value in the base unit of the dimension (mm, A, V, Ω, W, Ah, s, Hz, °C, dBu, dB, dBm, mm², deg, N·m, N, F,
 * H, g, bit/s, Ω/m, F/m; per cent as a share of 1), or one sentence that says what is wrong and shows how to write it.
 * Never throws. Case is forgiven except where it would turn milli into mega.
 */
export function parseQuantity(text: string, dimension: Dimension): Result<number> {
  const facts = dimensionFacts(dimension)
  if (typeof text !== 'string')
    return bad(`Expected ${facts.words} as text, such as ${quote(facts.example)}.`)
  if (text.length > LONGEST_TEXT) return notAQuantity(text, facts)
  const tidied = tidy(text)
  const feet = dimension === 'length' ? FEET_AND_INCHES.exec(tidied) : null
  if (feet) return bounded(Number(feet[1]) * 304.8 + Number(feet[2]) * 25.4, text, facts)
  const match = QUANTITY.exec(tidied)
  if (!match) return notAQuantity(text, facts)
  const unit = findUnit(match[2] ?? '', text, dimension)
  if (!unit.ok) return unit
  return bounded(Number(match[1]) * unit.value.factor + (unit.value.offset ?? 0), text, facts)
}

function notAQuantity(text: string, facts: DimensionFacts): Result<never> {
  const quoted = quote(text)
  if (text.trim() === '')
    return bad(`Nothing is written where ${facts.words} is needed, such as ${quote(facts.example)}.`)
  if (/^\s*[+-]?(nan|inf(inity)?)\b/i.test(text))
    return bad(`${quoted} is not a measurable value; write ${facts.words} such as ${quote(facts.example)}.`)
  return bad(`${quoted} is not ${facts.words}; write a number and a unit, such as ${quote(facts.example)}.`)
}

function bounded(value: number, text: string, facts: DimensionFacts): Result<number> {
  const example = quote(facts.example)
  if (!Number.isFinite(value) || Math.abs(value) > LARGEST_VALUE)
    return bad(`${quote(text)} is too large to be ${facts.words} on any bench; write one such as ${example}.`)
  if (value < facts.least) {
    const why = facts.least === 0 ? 'cannot be negative' : 'is below absolute zero'
    return bad(`${quote(text)} ${why}; write ${facts.words} such as ${example}.`)
  }
  return good(value === 0 ? 0 : value)
}

/** Milli and mega differ only by the case of their first letter, so that letter is never guessed. */
const sameFirstM = (a: string, b: string): boolean => !/^m/i.test(a) || a[0] === b[0]

function findUnit(written: string, text: string, dimension: Dimension): Result<Unit> {
  const facts = dimensionFacts(dimension)
  if (written === '')
    return bad(`${quote(text)} has no unit: write ${facts.words} with one, such as ${quote(facts.example)}.`)
  if (written.startsWith(','))
    return bad(`${quote(text)} has a comma: write a point for the decimals, such as ${quote(facts.example)}.`)
  const names = Object.keys(facts.units)
  const name =
    names.find((unit) => unit === written) ??
    (written === 'dBv'
      ? undefined
      : names.find((unit) => unit.toLowerCase() === written.toLowerCase() && sameFirstM(written, unit)))
  const unit = name === undefined ? undefined : facts.units[name]
  return unit ? good(unit) : unknownUnit(written, dimension)
}

function unknownUnit(written: string, dimension: Dimension): Result<never> {
  const facts = dimensionFacts(dimension)
  const example = quote(facts.example)
  if (written === 'dBv')
    return bad(
      '“dBv” has been used for two different levels: write “dBu” (0 dBu = 0.775 V) or “dBV” (0 dBV = 1 V).',
    )
  const other = Object.values(DIMENSIONS).find((entry: DimensionFacts) => Object.hasOwn(entry.units, written))
  if (other)
    return bad(
      `${quote(written)} is a unit of ${other.words}, but ${facts.words} is expected here, such as ${example}.`,
    )
  const near = suggest(written, Object.keys(facts.units))
  const hint = near.length > 0 ? didYouMean(written, near) : ` Write ${facts.words} such as ${example}.`
  return bad(`${quote(written)} is not a unit of ${facts.words.replace(/^an? /, '')}.${hint}`)
}

/**
 * Reads a range, such as `10.8..15.6 V`, `10.8 V..15.6 V` or `10.8 to 15.6 V`; one value is a range of no width.
 * The first value takes the unit of the second when it has none.
 */
export function parseRange(text: string, dimension: Dimension): Result<Range> {
  if (typeof text !== 'string' || text.length > 2 * LONGEST_TEXT) return parseRangeOfOne(text, dimension)
  const parts = tidy(text).split(/\s*(?:\.\.|…)\s*|\s+to\s+/i)
  if (parts.length === 1) return parseRangeOfOne(text, dimension)
  const [from = '', to = ''] = parts
  const facts = dimensionFacts(dimension)
  const shape = `${quote(text)} is not a range; write it like ${quote(exampleRange(facts))}.`
  if (parts.length > 2 || from === '' || to === '') return bad(shape)
  const max = parseQuantity(to, dimension)
  if (!max.ok) return max
  const unit = QUANTITY.exec(to)?.[2] ?? ''
  const min = parseQuantity(QUANTITY.exec(from)?.[2] === '' ? `${from} ${unit}` : from, dimension)
  if (!min.ok) return min
  if (min.value > max.value)
    return bad(`${quote(text)} runs from high to low; write the smaller value first.`)
  return good({ min: min.value, max: max.value })
}

function parseRangeOfOne(text: string, dimension: Dimension): Result<Range> {
  const one = parseQuantity(text, dimension)
  return one.ok ? good({ min: one.value, max: one.value }) : one
}

function exampleRange(facts: DimensionFacts): string {
  const unit = QUANTITY.exec(facts.example)?.[2] ?? ''
  return `10..15 ${unit}`
}
