import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  formatAmpHours,
  formatAmps,
  formatArea,
  formatBitRate,
  formatCelsius,
  formatDays,
  formatDbm,
  formatDbu,
  formatDecibels,
  formatFarads,
  formatGrams,
  formatHenries,
  formatHertz,
  formatLength,
  formatLengthInFeet,
  formatNewtons,
  formatOhms,
  formatPercent,
  formatRange,
  formatSeconds,
  formatVolts,
  formatWatts,
} from '../../src/base/format-quantity.ts'
import { parseQuantity, parseRange } from '../../src/base/quantity.ts'
import { DIMENSIONS, type Dimension, dimensionFacts } from '../../src/base/units.ts'

const dimensions = Object.keys(DIMENSIONS) as Dimension[]

describe('a quantity with its unit', () => {
  const good: [string, Dimension, number][] = [
    ['350 mm', 'length', 350],
    ['350mm', 'length', 350],
    ['  .35 m ', 'length', 350],
    ['35 cm', 'length', 350],
    ['21 ft', 'length', 6400.8],
    ['7 in', 'length', 177.8],
    ['5\' 3"', 'length', 1600.2],
    ['5 ft 3 in', 'length', 1600.2],
    ["6'", 'length', 1828.8],
    ['250 mA', 'current', 0.25],
    ['250 µA', 'current', 2.5e-4],
    ['250 uA', 'current', 2.5e-4],
    ['250 \u03bcA', 'current', 2.5e-4],
    ['\u22122.5 A', 'current', -2.5],
    ['13.8 V', 'voltage', 13.8],
    ['13.8 v', 'voltage', 13.8],
    ['2 kV', 'voltage', 2000],
    ['120 Ω', 'resistance', 120],
    ['120 \u2126', 'resistance', 120],
    ['120 ohm', 'resistance', 120],
    ['2 mΩ', 'resistance', 0.002],
    ['2 MΩ', 'resistance', 2e6],
    ['2 mohm', 'resistance', 0.002],
    ['2 Mohm', 'resistance', 2e6],
    ['4.7 kohm', 'resistance', 4700],
    ['150 mW', 'power', 0.15],
    ['70 Ah', 'capacity', 70],
    ['700 mAh', 'capacity', 0.7],
    ['21 days', 'time', 21 * 86400],
    ['36 h', 'time', 129600],
    ['155.34 MHz', 'frequency', 155.34e6],
    ['1.2 khz', 'frequency', 1200],
    ['-40 °C', 'temperature', -40],
    ['20 C', 'temperature', 20],
    ['212 °F', 'temperature', 100],
    ['-10 dBV', 'level', -7.78151],
    ['+4 dBu', 'level', 4],
    ['-107 dBm', 'radioLevel', -107],
    ['1.5 mm2', 'area', 1.5],
    ['0.5 Nm', 'torque', 0.5],
    ['20 lbf', 'force', 88.96443],
    ['100 nF', 'capacitance', 1e-7],
    ['10 mH', 'inductance', 0.01],
    ['250 kbit/s', 'bitRate', 250000],
    ['13.3 Ω/km', 'resistancePerLength', 0.0133],
    ['50 %', 'share', 0.5],
  ]
  test.each(good)('%s is %s of %d', (text, dimension, expected) => {
    const read = parseQuantity(text, dimension)
    expect(read.ok && read.value).toBeCloseTo(
      expected,
      Math.max(3, 3 - Math.floor(Math.log10(Math.abs(expected)))),
    )
  })

  const refused: [string, Dimension, RegExp][] = [
    ['350', 'length', /no unit.*“350 mm”/],
    ['', 'voltage', /Nothing is written.*“13.8 V”/],
    ['5 V', 'current', /unit of a voltage, but a current is expected.*“2.5 A”/],
    ['1,5 mm', 'length', /comma.*point/],
    ['5 Mm', 'length', /Did you mean “mm”/],
    ['10 mHz', 'frequency', /Did you mean “MHz”/],
    ['10 Amps', 'current', /not a unit of current.*“2.5 A”/],
    ['4 dBv', 'level', /two different levels/],
    ['NaN V', 'voltage', /not a measurable value/],
    ['Infinity V', 'voltage', /not a measurable value/],
    ['1e999 V', 'voltage', /too large/],
    ['1e13 mm', 'length', /too large/],
    ['-3 mm', 'length', /cannot be negative/],
    ['-300 °C', 'temperature', /below absolute zero/],
    ['twelve V', 'voltage', /write a number and a unit/],
    ['12 toString', 'voltage', /not a unit of voltage/],
    ['12 __proto__', 'voltage', /not a unit of voltage/],
  ]
  test.each(refused)('%s is refused as %s', (text, dimension, problem) => {
    const read = parseQuantity(text, dimension)
    expect(read.ok ? 'accepted' : read.problem).toMatch(problem)
  })

  test('the example in every message is itself accepted', () => {
    for (const dimension of dimensions) {
      expect(parseQuantity(dimensionFacts(dimension).example, dimension).ok, dimension).toBe(true)
    }
  })

  test('milli is never read as mega, whatever the case of the rest', () => {
    const read = (text: string, dimension: Dimension) => {
      const result = parseQuantity(text, dimension)
      return result.ok ? result.value : undefined
    }
    for (const dimension of dimensions) {
      for (const [unit, { factor }] of Object.entries(dimensionFacts(dimension).units)) {
        for (const spelling of [unit.toLowerCase(), unit.toUpperCase()]) {
          const value = read(`1 ${spelling}`, dimension)
          if (value !== undefined && spelling[0] === unit[0])
            expect([undefined, factor], spelling).toContain(
              value > 0 && value === factor ? factor : undefined,
            )
        }
      }
    }
    expect(read('1 mω', 'resistance')).toBe(0.001)
    expect(read('1 Mω', 'resistance')).toBe(1e6)
  })

  test('no text makes it throw, and every answer is finite or a sentence', () => {
    const pieces = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.stringMatching(/^[-+.,0-9eE]{0,8} ?[a-zA-ZΩµ°'"%/²]{0,4}$/),
    )
    fc.assert(
      fc.property(pieces, fc.constantFrom(...dimensions), (text, dimension) => {
        const one = parseQuantity(text, dimension)
        const two = parseRange(text, dimension)
        if (one.ok) expect(Number.isFinite(one.value)).toBe(true)
        else expect(one.problem).toMatch(/\.$|\?$|\.”?$|\)\.$/)
        if (two.ok) expect(two.value.min).toBeLessThanOrEqual(two.value.max)
      }),
      { numRuns: 2000 },
    )
  })

  test('a megabyte of input gives a short message', () => {
    for (const text of ['9'.repeat(1e6), `1 ${'m'.repeat(1e6)}`, '1..'.repeat(3e5), ' '.repeat(1e6)]) {
      for (const read of [parseQuantity(text, 'length'), parseRange(text, 'length')]) {
        expect(read.ok ? '' : read.problem).toMatch(/^.{10,200}$/)
      }
    }
  })
})

describe('a range', () => {
  const good: [string, number, number][] = [
    ['10.8..15.6 V', 10.8, 15.6],
    ['10.8 V..15.6 V', 10.8, 15.6],
    ['10.8 V .. 15.6 V', 10.8, 15.6],
    ['10.8 to 15.6 V', 10.8, 15.6],
    ['10.8…15.6 V', 10.8, 15.6],
    ['800 mV..1 V', 0.8, 1],
    ['-0.5..0.8 V', -0.5, 0.8],
    ['12 V', 12, 12],
  ]
  test.each(good)('%s', (text, min, max) => {
    expect(parseRange(text, 'voltage')).toEqual({ ok: true, value: { min, max } })
  })
  test.each([
    ['15..10 V', /smaller value first/],
    ['1..2', /no unit/],
    ['1..2..3 V', /not a range/],
    ['..5 V', /not a range/],
    ['1 A..2 V', /unit of a current/],
  ])('%s is refused', (text, problem) => {
    const read = parseRange(text, 'voltage')
    expect(read.ok ? '' : read.problem).toMatch(problem)
  })
})

describe('a quantity written out', () => {
  test.each([
    [formatOhms(0.074), '74 mΩ'],
    [formatOhms(0.9999), '1 Ω'],
    [formatOhms(4700), '4.7 kΩ'],
    [formatOhms(0), '0 Ω'],
    [formatOhms(Number.POSITIVE_INFINITY), '∞ Ω'],
    [formatVolts(1.3), '1.30 V'],
    [formatVolts(-1.3), '-1.30 V'],
    [formatVolts(0.09999), '0.10 V'],
    [formatVolts(0.0625), '62.5 mV'],
    [formatVolts(230), '230 V'],
    [formatAmps(12), '12 A'],
    [formatAmps(0.25), '250 mA'],
    [formatWatts(Number.NaN), 'unknown'],
    [formatLength(350), '350 mm'],
    [formatLength(5600), '5.6 m'],
    [formatLength(1234), '1.234 m'],
    [formatLengthInFeet(1600.2), '5 ft 3 in'],
    [formatLengthInFeet(304.7), '1 ft'],
    [formatSeconds(30), '30 s'],
    [formatSeconds(119), '119 s'],
    [formatSeconds(900), '15 min'],
    [formatSeconds(129600), '36 h'],
    [formatSeconds(21 * 86400), '21 days'],
    [formatDays(21.3), '21 days'],
    [formatDays(4.21), '4.2 days'],
    [formatDays(1.5), '36 h'],
    [formatDays(1e6), 'more than 10 years'],
    [formatPercent(0.03), '3 %'],
    [formatDbu(4), '+4 dBu'],
    [formatDbu(-7.78151), '-7.78 dBu'],
    [formatDecibels(-0.001), '0.00 dB'],
    [formatDbm(-107), '-107 dBm'],
    [formatRange({ min: 10.8, max: 15.6 }, formatVolts), '10.80 V to 15.60 V'],
  ])('%s', (written, expected) => {
    expect(written).toBe(expected)
  })

  const pairs: [string, (value: number) => string, Dimension][] = [
    ['ohms', formatOhms, 'resistance'],
    ['amps', formatAmps, 'current'],
    ['volts', formatVolts, 'voltage'],
    ['watts', formatWatts, 'power'],
    ['length', formatLength, 'length'],
    ['hertz', formatHertz, 'frequency'],
    ['farads', (value) => formatFarads(value * 1e-6), 'capacitance'],
    ['henries', (value) => formatHenries(value * 1e-3), 'inductance'],
    ['bit rate', formatBitRate, 'bitRate'],
    ['seconds', formatSeconds, 'time'],
    ['amp hours', formatAmpHours, 'capacity'],
    ['newtons', formatNewtons, 'force'],
    ['area', formatArea, 'area'],
    ['degrees Celsius', formatCelsius, 'temperature'],
    ['grams', formatGrams, 'mass'],
    ['share', formatPercent, 'share'],
  ]
  test.each(pairs)('%s is read back within half a unit of its last figure', (name, format, dimension) => {
    const scale = name === 'farads' ? 1e-6 : name === 'henries' ? 1e-3 : 1
    fc.assert(
      fc.property(fc.double({ min: 0.11, max: 9e5, noNaN: true }), (value) => {
        const read = parseQuantity(format(value), dimension)
        // Three figures leave 0.5 %; volts and millimetres have a fixed last place instead.
        const lastPlace = name === 'volts' ? 0.005 : name === 'length' ? 0.5 : 0
        const error = Math.abs((read.ok ? read.value / scale : 0) - value)
        expect(error).toBeLessThanOrEqual(Math.max(value * 0.005, lastPlace) * 1.0001)
      }),
    )
  })
})
