import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { awgAreaMm2, parseWireSize, tradeSizes } from '../../../src/base/wire-size.ts'
import { ampacity } from '../../../src/solve/formulas/ampacity.ts'
import { ampacityTemperatureFactor } from '../../../src/solve/formulas/ampacity-temperature-factor.ts'
import { dbuFromVolts, voltsFromDbu } from '../../../src/solve/formulas/audio-level.ts'
import { bundleDiameterMm } from '../../../src/solve/formulas/bundle-diameter.ts'
import { bundleFactor } from '../../../src/solve/formulas/bundle-factor.ts'
import { coaxLossDbPerMetre, GENERIC_COAX } from '../../../src/solve/formulas/coax-loss.ts'
import { type Complex, complex, magnitude } from '../../../src/solve/formulas/complex.ts'
import { class5OhmsPerMetre, conductorOhms } from '../../../src/solve/formulas/conductor-resistance.ts'
import {
  estimatedConductorTemperature,
  steadyConductorTemperature,
} from '../../../src/solve/formulas/conductor-temperature.ts'
import { contactDerating } from '../../../src/solve/formulas/contact-derating.ts'
import { copperAtTemperature } from '../../../src/solve/formulas/copper-at-temperature.ts'
import { daysToFlat, standingDrainAllowed } from '../../../src/solve/formulas/days-to-flat.ts'
import { feederOutputWatts } from '../../../src/solve/formulas/feeder-power.ts'
import { fuseFitsWire, fuseLimit } from '../../../src/solve/formulas/fuse-limit.ts'
import { bladeFuseOpeningTime } from '../../../src/solve/formulas/fuse-opening-time.ts'
import { FUSE_RATINGS } from '../../../src/solve/formulas/fuse-ratings.ts'
import { heatShrinkFor } from '../../../src/solve/formulas/heat-shrink.ts'
import { parallelImpedance, seriesImpedance } from '../../../src/solve/formulas/impedance.ts'
import { lineEfficiencyLossDb, lineLossDb, loopOhmsForLoss } from '../../../src/solve/formulas/line-loss.ts'
import { parallelShares, seriesShares, speakerLineWatts } from '../../../src/solve/formulas/power-share.ts'
import { dbmFromMicrovolts, microvoltsFromDbm } from '../../../src/solve/formulas/received-level.ts'
import { reflection, reflectionFromVswr } from '../../../src/solve/formulas/reflection.ts'
import { exposureDistanceMm, exposureLimit, powerDensity } from '../../../src/solve/formulas/rf-exposure.ts'
import { requiredCopperAreaMm2, voltageDrop } from '../../../src/solve/formulas/voltage-drop.ts'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const size = fc.constantFrom(...tradeSizes('awg'), ...tradeSizes('metric'))
const lengthMm = between(1, 1e5)
const celsius = between(-40, 150)
/** Relative closeness that rounding of a few operations cannot break. */
const near = (got: number, wanted: number, share = 1e-9, absolute = 1e-12): void => {
  expect(Math.abs(got - wanted)).toBeLessThanOrEqual(Math.abs(wanted) * share + absolute)
}

describe('conductors', () => {
  test('twice the length is twice the resistance, and two halves make one', () => {
    fc.assert(
      fc.property(size, lengthMm, celsius, between(0.01, 0.99), (gauge, length, temperature, split) => {
        const whole = conductorOhms(gauge, length, temperature)
        near(conductorOhms(gauge, 2 * length, temperature), 2 * whole)
        near(
          conductorOhms(gauge, split * length, temperature) +
            conductorOhms(gauge, (1 - split) * length, temperature),
          whole,
        )
      }),
    )
  })
  test('hotter copper and thinner wire resist more', () => {
    fc.assert(
      fc.property(
        between(0.05, 240),
        between(1.001, 3),
        celsius,
        between(0.1, 50),
        (area, factor, temperature, rise) => {
          expect(class5OhmsPerMetre(area * factor, temperature)).toBeLessThan(
            class5OhmsPerMetre(area, temperature),
          )
          expect(class5OhmsPerMetre(area, temperature + rise)).toBeGreaterThan(
            class5OhmsPerMetre(area, temperature),
          )
        },
      ),
    )
  })
  test('no temperature makes resistance negative', () => {
    expect(copperAtTemperature(1, -273)).toBe(0)
    expect(copperAtTemperature(1, 20)).toBe(1)
  })
  test('a wire of the required area drops exactly what was allowed', () => {
    fc.assert(
      fc.property(
        between(0.1, 100),
        lengthMm,
        between(0.05, 5),
        celsius,
        (amps, length, volts, temperature) => {
          const area = requiredCopperAreaMm2(amps, length, volts, temperature)
          near(voltageDrop(amps, (copperAtTemperature(1 / 58 / area, temperature) * length) / 1000), volts)
        },
      ),
    )
  })
})

describe('current ratings', () => {
  const question = fc.record({
    areaMm2: between(0.2, 100),
    insulationC: between(60, 250),
    airC: between(-40, 250),
    bundledWires: fc.integer({ min: 1, max: 60 }),
    table: fc.constantFrom('boat', 'aircraft', 'craft'),
  })
  test('hotter air, more company and less copper never raise a rating', () => {
    fc.assert(
      fc.property(question, between(0.1, 30), (asked, rise) => {
        const amps = ampacity(asked)?.amps
        if (amps === undefined) return
        expect(amps).toBeGreaterThanOrEqual(0)
        const slack = amps * 1e-9
        expect(ampacity({ ...asked, airC: asked.airC + rise })?.amps ?? 0).toBeLessThanOrEqual(amps + slack)
        expect(ampacity({ ...asked, bundledWires: asked.bundledWires + 1 })?.amps ?? 0).toBeLessThanOrEqual(
          amps + slack,
        )
        expect(ampacity({ ...asked, areaMm2: asked.areaMm2 * 0.9 })?.amps ?? 0).toBeLessThanOrEqual(
          amps + slack,
        )
      }),
      { numRuns: 500 },
    )
  })
  test('what the table does not cover is said, and never invented on the unsafe side', () => {
    expect(ampacity({ areaMm2: 1, insulationC: 50 })).toBeUndefined()
    expect(ampacity({ areaMm2: 150, insulationC: 105 })).toBeUndefined()
    expect(ampacity({ areaMm2: Number.NaN, insulationC: 105 })).toBeUndefined()
    const thin = ampacity({ areaMm2: 0.22, insulationC: 105 })
    expect(thin?.extrapolated).toBe(true)
    expect(thin?.amps).toBeCloseTo((20 * 0.22) / awgAreaMm2(18), 9)
    expect(ampacity({ areaMm2: 1, insulationC: 85 })?.columnC).toBe(80)
    expect(ampacity({ areaMm2: 1, insulationC: 105, airC: 105 })?.amps).toBe(0)
    expect(ampacity({ areaMm2: 1, insulationC: 105, airC: -40 })?.temperatureFactor).toBe(1)
  })
  test('a metric size lies between the gauges beside it', () => {
    const metric = parseWireSize('1 mm²')
    const amps = ampacity({ areaMm2: metric.ok ? metric.value.areaMm2 : 0, insulationC: 105 })?.amps
    expect(amps).toBeGreaterThan(20)
    expect(amps).toBeLessThan(25)
  })
  test('at the rated current the conductor is as hot as its insulation may be, by both estimates', () => {
    fc.assert(
      fc.property(between(60, 200), between(0, 1), between(1, 100), (insulation, share, imax) => {
        const air = share * insulation
        near(steadyConductorTemperature(air, insulation, imax, imax), insulation)
        near(estimatedConductorTemperature(air, insulation, imax, imax), insulation)
        // Derating by the factor and heating by the square are one law.
        const amps = imax * ampacityTemperatureFactor(insulation, air, 0)
        near(air + insulation * (amps / imax) ** 2, insulation, 1e-9)
        expect(estimatedConductorTemperature(air, insulation, share * imax, imax)).toBeGreaterThanOrEqual(
          steadyConductorTemperature(air, insulation, share * imax, imax) - 1e-9,
        )
      }),
    )
  })
  test('bundle rules by count', () => {
    expect([1, 2, 3, 6, 7, 24, 25].map((count) => bundleFactor(count))).toEqual([
      1, 1, 0.7, 0.6, 0.5, 0.5, 0.4,
    ])
    expect([3, 9, 20, 30, 40, 41].map((count) => bundleFactor(count, 'nec-310'))).toEqual([
      1, 0.7, 0.5, 0.45, 0.4, 0.35,
    ])
    expect([1, 15, 16].map((count) => bundleFactor(count, 'mil-std-975'))).toEqual([1, 0.5, 0.5])
    expect(bundleFactor(0)).toBeNaN()
  })
})

describe('fuses', () => {
  test('more current opens a fuse sooner, and the shortest time is never above the longest', () => {
    fc.assert(
      fc.property(fc.constantFrom(...FUSE_RATINGS), between(0, 20), between(0, 5), (rating, ratio, more) => {
        const first = bladeFuseOpeningTime(rating * ratio, rating)
        const second = bladeFuseOpeningTime(rating * (ratio + more), rating)
        expect(first.minS).toBeLessThanOrEqual(first.maxS)
        expect(second.minS).toBeLessThanOrEqual(first.minS * (1 + 1e-9))
        expect(second.maxS).toBeLessThanOrEqual(first.maxS * (1 + 1e-9))
      }),
    )
  })
  test.each([
    [1, 360_000, Number.POSITIVE_INFINITY],
    [1.35, 0.75, 600],
    [2, 0.15, 5],
    [6, 0.02, 0.1],
  ])('at %d times its rating', (ratio, minS, maxS) => {
    const time = bladeFuseOpeningTime(ratio * 10, 10)
    expect(time.minS).toBeCloseTo(minS, 9)
    expect(time.maxS).toBe(maxS)
  })
  test('the limit, and what fits a wire', () => {
    expect(fuseLimit(35, 60)).toBe(35)
    expect(fuseLimit(36, 60)).toBe(40)
    expect([35, 40, 50, 60].map((rating) => fuseFitsWire(rating, 36))).toEqual([
      'within',
      'next size up',
      'too large',
      'too large',
    ])
    fc.assert(
      fc.property(
        between(0.5, 110),
        between(1, 400),
        (amps, volts) => fuseLimit(amps, volts) <= 1.5 * amps + 1e-9,
      ),
    )
  })
})

describe('audio', () => {
  const impedance = fc.record({ re: between(0.1, 1e4), im: between(-1e4, 1e4) })
  const resistances = fc.array(
    between(0.1, 1e5).map((value) => complex(value)),
    { minLength: 1, maxLength: 8 },
  )
  const someLoads = fc.array(impedance, { minLength: 1, maxLength: 6 })
  const close = (a: Complex, b: Complex) =>
    expect(magnitude({ re: a.re - b.re, im: a.im - b.im })).toBeLessThanOrEqual(1e-9 * magnitude(b))

  test('resistances in parallel come to no more than the smallest, in series to no less than the largest', () => {
    fc.assert(
      fc.property(resistances, (parts) => {
        const values = parts.map((part) => part.re)
        expect(parallelImpedance(parts).re).toBeLessThanOrEqual(Math.min(...values) * (1 + 1e-12))
        expect(seriesImpedance(parts).re).toBeGreaterThanOrEqual(Math.max(...values))
      }),
    )
  })
  test('the order of loads and their grouping make no difference', () => {
    fc.assert(
      fc.property(someLoads, impedance, (loads, extra) => {
        close(parallelImpedance([...loads].reverse()), parallelImpedance(loads))
        close(parallelImpedance([parallelImpedance(loads), extra]), parallelImpedance([...loads, extra]))
      }),
    )
  })
  test('a short shorts, an open circuit changes nothing, and no load at all is open', () => {
    expect(parallelImpedance([complex(8), complex(0)])).toEqual(complex(0))
    close(parallelImpedance([complex(8), complex(Number.POSITIVE_INFINITY)]), complex(8))
    expect(parallelImpedance([]).re).toBe(Number.POSITIVE_INFINITY)
  })
  test('shares of power add up to one', () => {
    fc.assert(
      fc.property(someLoads, (loads) => {
        for (const shares of [seriesShares(loads), parallelShares(loads)])
          near(
            shares.reduce((sum, share) => sum + share, 0),
            1,
          )
      }),
    )
    expect(parallelShares([complex(4), complex(8)]).map((share) => Math.round(share * 1000))).toEqual([
      667, 333,
    ])
  })
  test('what an amplifier gives is what load and line take, and the two loss conventions differ by two', () => {
    fc.assert(
      fc.property(between(0.1, 100), between(1, 100), between(0, 20), (volts, load, loop) => {
        const watts = speakerLineWatts(volts, load, loop)
        near(watts.load + watts.line, watts.amplifier)
        near(lineLossDb(load, loop), 2 * lineEfficiencyLossDb(load, loop))
        near(10 * Math.log10(volts ** 2 / load / watts.load), lineLossDb(load, loop), 1e-9, 1e-9)
      }),
    )
    near(lineLossDb(8, loopOhmsForLoss(8, 0.5)), 0.5)
  })
  test('levels come back from volts', () => {
    fc.assert(fc.property(between(-120, 60), (dbu) => near(dbuFromVolts(voltsFromDbu(dbu)) + 200, dbu + 200)))
  })
})

describe('radio', () => {
  test('a reflection is the same seen from either side, and its figures agree', () => {
    fc.assert(
      fc.property(between(1, 1000), between(1, 1000), (line, load) => {
        const one = reflection(line, load)
        near(reflection(load, line).coefficient, one.coefficient)
        expect(one.vswr).toBeGreaterThanOrEqual(1)
        expect(Math.abs(one.vswr - Math.max(line / load, load / line))).toBeLessThan(1e-6 * one.vswr)
        near(reflectionFromVswr(one.vswr).coefficient + 1, one.coefficient + 1)
      }),
    )
  })
  test('microvolts come back from dBm, and a feeder never adds power', () => {
    fc.assert(
      fc.property(between(-140, 50), between(10, 600), (dbm, ohms) =>
        near(dbmFromMicrovolts(microvoltsFromDbm(dbm, ohms), ohms) + 200, dbm + 200),
      ),
    )
    fc.assert(
      fc.property(between(0, 100), between(0, 60), (watts, loss) => feederOutputWatts(watts, loss) <= watts),
    )
  })
  test('at the exposure distance the power density is the limit', () => {
    fc.assert(
      fc.property(
        between(0.1, 1000),
        between(1, 100),
        between(1, 3000),
        fc.constantFrom('general', 'occupational'),
        (watts, gain, mhz, group) => {
          const limit = exposureLimit(mhz * 1e6, group) ?? Number.NaN
          near(powerDensity(watts, gain, exposureDistanceMm(watts, gain, limit)), limit)
          expect(exposureLimit(mhz * 1e6, 'general')).toBeLessThanOrEqual(
            exposureLimit(mhz * 1e6, 'occupational') ?? 0,
          )
        },
      ),
    )
    expect(exposureLimit(100_000, 'general')).toBeUndefined()
  })
  test('between the neighbours left in the table, RG-58 at 450 MHz comes to 11.8 dB for 100 ft', () => {
    expect(coaxLossDbPerMetre(GENERIC_COAX['RG-58C/U'] ?? [], 450e6) * 30.48).toBeCloseTo(11.8, 1)
    expect(coaxLossDbPerMetre([], 1e6)).toBeNaN()
  })
})

describe('mechanics', () => {
  const wires = fc.array(between(0.5, 12), { minLength: 1, maxLength: 60 })
  test('a bundle holds its wires, grows with each, and does not mind their order', () => {
    fc.assert(
      fc.property(wires, between(0.5, 12), (diameters, extra) => {
        const bundle = bundleDiameterMm(diameters)
        const [first = 0, second = 0] = [...diameters].sort((a, b) => b - a)
        expect(bundle).toBeGreaterThanOrEqual(first + second - 1e-9)
        near(bundleDiameterMm([...diameters].reverse()), bundle, 1e-12)
        // Nothing packs circles denser than a hexagonal sheet.
        expect(diameters.reduce((sum, diameter) => sum + diameter ** 2, 0) / bundle ** 2).toBeLessThanOrEqual(
          1,
        )
        if (diameters.length > 1)
          expect(bundleDiameterMm([...diameters, extra])).toBeGreaterThanOrEqual(bundle - 1e-9)
      }),
    )
    expect(bundleDiameterMm([])).toBe(0)
  })
  test('nearly equal wires take nearly what equal ones take', () => {
    expect(bundleDiameterMm([2, 2, 1.99])).toBeGreaterThanOrEqual(bundleDiameterMm([1.99, 1.99, 1.99]))
    expect(bundleDiameterMm([2, 2, 1.99]) / bundleDiameterMm([2, 2, 2])).toBeCloseTo(1, 1)
  })
  test('a chosen sleeve passes and grips', () => {
    fc.assert(
      fc.property(between(1, 40), between(0.3, 1), (passed, share) => {
        const sleeve = heatShrinkFor(passed, passed * share)
        if (!sleeve) return
        expect(sleeve.suppliedMm).toBeGreaterThan(passed)
        expect(sleeve.recoveredMm).toBeLessThan(passed * share)
      }),
    )
    expect(heatShrinkFor(3, 3)).toEqual({ ratio: 2, suppliedMm: 3.2, recoveredMm: 1.6 })
    expect(heatShrinkFor(11.4, 4)?.ratio).toBe(4)
    expect(heatShrinkFor(12, 1)).toBeUndefined()
  })
  test('a contact is never promised more than its rating, and more neighbours never help', () => {
    fc.assert(
      fc.property(between(0.09, 3), between(0, 1), between(0, 1), (area, one, two) => {
        const few = contactDerating(area, Math.min(one, two)) ?? 0
        expect(few).toBeLessThanOrEqual(1)
        expect(contactDerating(area, Math.max(one, two)) ?? 0).toBeLessThanOrEqual(few)
      }),
    )
    expect(contactDerating(0.05, 0.5)).toBeUndefined()
  })
  test('the drain allowed for some days empties the battery in those days', () => {
    fc.assert(
      fc.property(between(1, 200), between(1, 100), (hours, days) =>
        near(daysToFlat(hours, standingDrainAllowed(hours, days)), days),
      ),
    )
    expect(daysToFlat(70, 0)).toBe(Number.POSITIVE_INFINITY)
  })
})
