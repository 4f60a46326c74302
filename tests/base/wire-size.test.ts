import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  AWG_NAMES,
  areaFromCircularMils,
  awgAreaMm2,
  awgDiameterMm,
  awgFromArea,
  bothSizes,
  circularMils,
  METRIC_AREAS,
  nextSizesUp,
  nextSizeUp,
  parseWireSize,
  sizeAtLeast,
  type WireSize,
} from '../../src/base/wire-size.ts'

describe('gauges of ASTM B258', () => {
  test.each([
    [36, 0.127],
    [-3, 11.684],
    [14, 1.6277],
  ])('gauge %d has diameter %d mm', (awg, diameterMm) => {
    expect(awgDiameterMm(awg)).toBeCloseTo(diameterMm, 4)
  })

  test('area, circular mils and gauge number agree with one another for any size', () => {
    fc.assert(
      fc.property(fc.double({ min: -3, max: 40, noNaN: true }), (awg) => {
        const area = awgAreaMm2(awg)
        expect(awgFromArea(area)).toBeCloseTo(awg, 8)
        expect(areaFromCircularMils(circularMils(area))).toBeCloseTo(area, 10)
        // Three gauges halve the copper, near enough: the workshop rule.
        expect(awgAreaMm2(awg) / awgAreaMm2(awg + 3)).toBeCloseTo(2.005, 2)
      }),
    )
  })
})

describe('a wire size as written', () => {
  test.each([
    ['1.5 mm²', 1.5, '1.5 mm² (≈16 AWG)'],
    ['1.5mm2', 1.5, '1.5 mm² (≈16 AWG)'],
    ['0.5 mm²', 0.5, '0.5 mm² (≈20 AWG)'],
    ['1 mm²', 1, '1 mm² (18–16 AWG)'],
    ['2.5 mm²', 2.5, '2.5 mm² (14–12 AWG)'],
    ['300 mm²', 300, '300 mm² (thicker than 4/0 AWG)'],
    ['18 AWG', 0.823, '18 AWG (0.823 mm²)'],
    ['1/0 AWG', 53.475, '1/0 AWG (53.5 mm²)'],
    ['0 AWG', 53.475, '1/0 AWG (53.5 mm²)'],
    ['0000 AWG', 107.219, '4/0 AWG (107 mm²)'],
    ['4/0 AWG', 107.219, '4/0 AWG (107 mm²)'],
    ['AWG 18', 0.823, '18 AWG (0.823 mm²)'],
  ])('%s', (text, areaMm2, both) => {
    const size = parseWireSize(text)
    expect(size.ok && size.value.areaMm2).toBeCloseTo(areaMm2, 3)
    expect(size.ok && bothSizes(size.value)).toBe(both)
  })

  test.each([
    ['18', /no unit/],
    ['1,5 mm²', /point/],
    ['18 AGW', /Did you mean “18 AWG”/],
    ['5/0 AWG', /runs from “4\/0 AWG” to “40 AWG”/],
    ['41 AWG', /runs from/],
    ['0/0 AWG', /runs from/],
    ['0 mm²', /not a wire size/],
    ['5000 mm²', /not a wire size/],
    ['', /not a wire size/],
  ])('%s is refused', (text, problem) => {
    const size = parseWireSize(text)
    expect(size.ok ? '' : size.problem).toMatch(problem)
  })

  test('every size of the type is understood, and the label is read back as the same size', () => {
    const written: WireSize[] = [
      ...METRIC_AREAS.map((area) => `${area} mm²` as const),
      ...AWG_NAMES.map((name) => `${name} AWG` as const),
    ]
    for (const text of written) {
      const size = parseWireSize(text)
      expect(size.ok, text).toBe(true)
      expect(size.ok && parseWireSize(size.value.label), text).toEqual(size)
    }
  })

  test('a misspelt size does not compile', () => {
    // @ts-expect-error 1.6 mm² is not sold
    const odd: WireSize = '1.6 mm²'
    // @ts-expect-error the unit is misspelt
    const slip: WireSize = '18 AGW'
    expect([odd, slip]).toHaveLength(2)
  })

  test('no text makes it throw', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => typeof parseWireSize(text).ok === 'boolean'),
    )
  })
})

describe('stock sizes', () => {
  test('the next size up is thicker and the nearest such', () => {
    expect(nextSizeUp(1.5)?.label).toBe('2.5 mm²')
    expect(nextSizeUp(awgAreaMm2(18), 'awg')?.label).toBe('16 AWG')
    expect(nextSizeUp(awgAreaMm2(-3), 'awg')).toBeUndefined()
    expect(sizeAtLeast(1.5)?.label).toBe('1.5 mm²')
    expect(sizeAtLeast(1.51)?.label).toBe('2.5 mm²')
    expect(nextSizesUp(1.5, 3).map((size) => size.label)).toEqual(['2.5 mm²', '4 mm²', '6 mm²'])
  })
})
