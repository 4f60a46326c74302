import { describe, expect, test } from 'vitest'
import { limitText, withUnit } from '../../src/commission/judge.ts'
import { limitsOf } from '../../src/commission/limits-of.ts'
import { frequencyError, inBase, inUnit, RADIO_LEVEL, STANDING_WAVE } from '../../src/commission/measures.ts'
import { hertzFromPpm } from '../../src/solve/formulas/frequency-tolerance.ts'
import { reflectionFromVswr } from '../../src/solve/formulas/reflection.ts'
import { seenThroughFeeder } from '../../src/solve/formulas/seen-through-feeder.ts'
import { job } from '../demos/demo-shop.ts'
import { fitted, limits } from './fitted-shop.ts'

describe('formulas behind the record', () => {
  // Definition of ppm; the figure of the commissioning task: ±2.5 ppm at 162 MHz.
  test.each([
    [162e6, 2.5, 405],
    [174e6, 5, 870],
    [154.95e6, 2.5, 387.375],
  ])('%d Hz at %d ppm is %d Hz, and back', (channel, ppm, hertz) => {
    expect(hertzFromPpm(channel, ppm)).toBeCloseTo(hertz, 6)
    expect(inBase(ppm, frequencyError(channel).units.ppm ?? { factor: 0 })).toBeCloseTo(hertz, 6)
  })

  // Return loss and reflected power by standing wave ratio, as handbooks of radio print the table.
  test.each([
    [1.1, 26.44, 0.227],
    [1.2, 20.83, 0.826],
    [1.5, 13.98, 4.0],
    [2.0, 9.54, 11.11],
    [3.0, 6.02, 25.0],
  ])('%d:1 is %d dB return loss and %d %% back', (vswr, returnLossDb, percent) => {
    const one = reflectionFromVswr(vswr)
    expect(one.returnLossDb).toBeCloseTo(returnLossDb, 2)
    expect(100 * one.coefficient ** 2).toBeCloseTo(percent, 2)
    const dB = STANDING_WAVE.units.dB ?? { factor: 0 }
    expect(inBase(returnLossDb, dB)).toBeCloseTo(vswr, 2)
    expect(inUnit(vswr, dB)).toBeCloseTo(returnLossDb, 2)
  })

  test('an open feeder that loses 3 dB looks like 3:1, as every bench book warns', () => {
    expect(seenThroughFeeder(1e9, 3).returnLossDb).toBeCloseTo(6, 3)
    expect(seenThroughFeeder(1e9, 3).vswr).toBeCloseTo(3.01, 2)
    expect(seenThroughFeeder(1.5, 0).vswr).toBeCloseTo(1.5, 9)
  })

  // 1 µV in 50 Ω is −106.99 dBm; 0.25 µV and 0.35 µV are the figures data sheets quote beside −119 and −116 dBm.
  test.each([
    [1, -107.0],
    [0.5, -113.0],
    [0.35, -116.1],
    [0.25, -119.0],
  ])('%d µV is %d dBm', (microvolts, dbm) => {
    expect(inBase(microvolts, RADIO_LEVEL.units.µV ?? { factor: 0 })).toBeCloseTo(dbm, 1)
  })
})

describe('limits of a 50 W radio on 20 ft of RG-58 at 150 MHz', () => {
  const { figure, missing } = limits()
  const text = (id: string) => limitText(figure(id))
  const expected = (id: string) => withUnit(figure(id), figure(id).expected ?? Number.NaN)

  test('the feeder takes 1.22 dB and two joints 0.5 dB, so 33.65 W of 50 W arrive', () => {
    // Repeater-system training guide: RG-58C/U 6.1 dB per 100 ft at 150 MHz, 0.25 dB a joint.
    expect(figure('radio.ANT.centre/feeder-end').sum).toMatch(
      /1\.22 dB in 6\.096 m .* and 0\.50 dB in 2 joints \(1\.72 dB\)/,
    )
    expect(figure('radio.ANT.centre/feeder-end').expected).toBeCloseTo(50 * 10 ** -0.172, 1)
  })

  test('1.5:1 at the antenna is 13.98 dB there and 17.42 dB at the radio, 1.31:1', () => {
    // RL = 13.98 + 2 × 1.72; Γ = 10^(−17.42/20) = 0.1346.
    expect(figure('radio.ANT.centre/vswr').most).toBe(1.31)
    expect(figure('radio.ANT.centre/vswr').sum).toContain('17.42 dB at the radio')
  })

  test('frequency, deviation and sensitivity come from what is stated', () => {
    expect(text('radio.ANT.centre/frequency')).toBe('within ±375 Hz')
    expect(text('radio.ANT.centre/deviation')).toBe('at most 2.5 kHz')
    expect(text('radio.ANT.centre/sensitivity')).toBe('at most -116 dBm')
    expect(figure('radio.ANT.centre/sensitivity').sum).toContain('0.354 µV')
    expect(missing).toEqual([])
  })

  test('the loop is what IEC 60228 gives for 10.3 m of 6 mm² with the allowances of the shop', () => {
    // 3.30 mΩ/m class 5; two rings and two power contacts of 2 mΩ, a fuse of 4 mΩ and its holder of 3 mΩ.
    const ohms = 10.3 * 3.3e-3 + 4 * 2e-3 + 7e-3
    const loop = figure('radio.J1.1/loop')
    expect(loop.expected).toBeCloseTo(ohms, 4)
    expect(loop.most).toBeCloseTo(1.2 * ohms, 3)
    const drop = figure('radio.J1.1/drop/transmit')
    expect(drop.expected).toBeCloseTo(10 * ohms, 3)
    expect(drop.most).toBeCloseTo(12.5 * ohms + 0.02, 2)
    expect(figure('radio.J1.1/volts/transmit').expected).toBeCloseTo(13.8 - 10 * ohms, 3)
    expect(text('radio.J1.1/volts/transmit')).toBe('10.8 to 15.6 V')
  })

  test('21 days on 25 Ah allow 49.6 mA, so 50 mA of standing current cannot pass', () => {
    // 25 Ah ÷ (24 h × 21) = 49.6 mA.
    expect(text('battery.POS.1/standing')).toBe('at most 49.6 mA')
    expect(expected('battery.POS.1/standing')).toBe('50 mA')
  })

  test('fuse, rest and cranking volts are those stated', () => {
    expect(text('main.F1/rating')).toBe('15 A')
    expect(figure('main.F1/rating').level).toBe('stop')
    expect(text('battery.POS.1/rest')).toBe('12 to 14.4 V')
    expect(text('battery.POS.1/cranking')).toBe('at least 6.5 V')
  })
})

describe('what is not stated', () => {
  const bare = structuredClone(fitted)
  const radio = bare.equipment?.[1]?.connectors[1]
  if (radio) radio.pins = { centre: { kind: 'rf', watts: '50 W' }, shield: { kind: 'shield' } }
  const { figure, missing } = limits(bare)

  test('is taken from the rules where they have it, and asked for where not', () => {
    // 47 CFR 90.213(a): 5 ppm for mobiles over 2 W at 150 to 174 MHz.
    expect(limitText(figure('radio.ANT.centre/frequency'))).toBe('within ±750 Hz')
    expect(figure('radio.ANT.centre/frequency').source).toMatch(/90\.213/)
    expect(missing.map(({ needs }) => needs)).toEqual([
      '"deviation" of radio.ANT.centre',
      '"sensitivity" of radio.ANT.centre',
    ])
  })
})

describe('limits of the demo jobs', () => {
  const of = (id: string) => {
    const { loom, solution } = job(id)
    return new Map(limitsOf(loom, solution).limits.map((limit) => [limit.id, limit]))
  }

  test('two ends of 120 Ω are 60 Ω, 54 to 66 Ω on a meter (ISO 11898-2, CiA 303-1)', () => {
    const limit = of('harbour-launch').get('tee1.A.4/termination')
    expect(limit && limitText(limit)).toBe('54 to 66 Ω')
  })

  test('two loudspeakers of 8 Ω are 4 Ω, and no leg of theirs may touch the body', () => {
    const all = of('council-pickup')
    const line = all.get('radio.J2.1/line')
    expect(line).toMatchObject({ least: 3.06, most: 5.11 })
    expect(all.get('radio.J2.14/chassis')).toMatchObject({ least: 1000, level: 'stop' })
  })

  test('0 dBu out of 600 Ω into 10 kΩ arrives half a decibel down: 20 log(10 ÷ 10.6)', () => {
    expect(of('council-pickup').get('radio.J2.17/level')).toMatchObject({
      expected: expect.closeTo(20 * Math.log10(10 / 10.6), 2),
    })
  })

  test.each(['council-pickup', 'harbour-launch', 'council-pickup-planned'])(
    '%s has a limit, a sum and a source in every line, and no name twice',
    (id) => {
      const { loom, solution } = job(id)
      const { limits: all } = limitsOf(loom, solution)
      expect(new Set(all.map((limit) => limit.id)).size).toBe(all.length)
      for (const limit of all) {
        expect([limit.id, limitText(limit), limit.sum, limit.source, limit.how]).not.toContain('')
        expect(`${limitText(limit)} ${limit.sum}`).not.toMatch(/NaN|Infinity|undefined|unknown/)
      }
    },
  )
})
