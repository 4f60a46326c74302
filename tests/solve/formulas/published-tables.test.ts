import { describe, expect, test } from 'vitest'
import {
  areaFromCircularMils,
  awgAreaMm2,
  circularMils,
  parseWireSize,
  sizeAtLeast,
  tradeSizes,
} from '../../../src/base/wire-size.ts'
import { ampacity } from '../../../src/solve/formulas/ampacity.ts'
import { ampacityTemperatureFactor } from '../../../src/solve/formulas/ampacity-temperature-factor.ts'
import { bundleDiameterMm } from '../../../src/solve/formulas/bundle-diameter.ts'
import { coaxLossDbPerMetre, GENERIC_COAX } from '../../../src/solve/formulas/coax-loss.ts'
import {
  CLASS_5_OHMS_PER_KM,
  class5OhmsPerMetre,
  solidOhmsPerMetre,
  strandedOhmsPerMetre,
} from '../../../src/solve/formulas/conductor-resistance.ts'
import {
  copperAtTemperature,
  iec60228TemperatureFactor,
} from '../../../src/solve/formulas/copper-at-temperature.ts'
import { straightWireHenries } from '../../../src/solve/formulas/magnetic-coupling.ts'
import { pullOutNewtons } from '../../../src/solve/formulas/pull-out-force.ts'
import { reflectionFromVswr } from '../../../src/solve/formulas/reflection.ts'
import { usbCableLimitMm } from '../../../src/solve/formulas/usb-drop.ts'
import { requiredCircularMils } from '../../../src/solve/formulas/voltage-drop.ts'
import {
  ABYC_3_PERCENT,
  ABYC_10_PERCENT,
  ABYC_AGREED_3,
  ABYC_AGREED_10,
  ABYC_AMPS,
  CEC_5A,
  CEC_5A_COLUMNS,
  CFR_TABLE_5,
  CFR_TABLE_5_COLUMNS,
  FAA_105,
  FLOYD,
  IEC_60228_KT,
  NEC_TABLE_8,
  SWR_TABLE,
  UL_486A_NEWTONS,
  USB_LENGTHS,
} from './published-data.ts'

const KFT_M = 304.8
const percent = (share: number): string => `${(100 * share).toFixed(2)} %`
/** Half a unit of the last printed place: a printed figure cannot be matched more closely than that. */
const halfPlace = (printed: string): number => 0.5 * 10 ** -(printed.split('.')[1]?.length ?? 0)

type Row = { readonly label: string; readonly got: number; readonly printed: number; readonly slack: number }
const resistance = (label: string, got: number, printed: string): Row => ({
  label,
  got,
  printed: Number(printed),
  slack: halfPlace(printed),
})
const off = (row: Row): number => Math.abs(row.got / row.printed - 1)
/** What is left of the error when the rounding of the print is taken away. */
const beyondPrint = (row: Row): number =>
  Math.max(0, Math.abs(row.got - row.printed) - row.slack) / row.printed
const worst = (rows: readonly Row[], by: (row: Row) => number): number => Math.max(...rows.map(by))

const floyd = FLOYD.map(([awg, , ohms]) =>
  resistance(`${awg}`, solidOhmsPerMetre(awgAreaMm2(awg)) * KFT_M, ohms),
)
const solid = NEC_TABLE_8.filter(([, strands]) => strands === 1).map(([awg, , ohms]) =>
  resistance(`${awg}`, solidOhmsPerMetre(awgAreaMm2(awg), 75) * KFT_M, ohms),
)
const stranded = NEC_TABLE_8.filter(([, strands]) => strands > 1).map(([awg, , ohms]) =>
  resistance(`${awg}`, strandedOhmsPerMetre(awgAreaMm2(awg), 75) * KFT_M, ohms),
)

describe('resistance tables', () => {
  test(`Floyd's 35 gauges at 20 °C: worst ${percent(worst(floyd, off))}, ${percent(worst(floyd, beyondPrint))} beyond the rounding of the print`, () => {
    expect(worst(floyd, beyondPrint)).toBeLessThan(0.0005)
    expect(
      worst(
        floyd.filter((row) => row.slack / row.printed < 0.001),
        off,
      ),
    ).toBeLessThan(0.002)
  })
  test("Floyd's circular mils agree within 0.1 %", () => {
    for (const [awg, mils] of FLOYD) {
      expect(Math.abs(circularMils(awgAreaMm2(awg)) / mils - 1), `${awg} AWG`).toBeLessThan(0.001)
    }
  })
  test(`NEC chapter 9 table 8, solid at 75 °C: worst ${percent(worst(solid, off))}`, () => {
    expect(solid).toHaveLength(6)
    expect(worst(solid, off)).toBeLessThan(0.006)
  })
  test(`NEC chapter 9 table 8, stranded at 75 °C: worst ${percent(worst(stranded, off))}`, () => {
    expect(stranded).toHaveLength(15)
    expect(worst(stranded, off)).toBeLessThan(0.006)
  })
  test('IEC 60228 temperature factors to three places, and the exact copper form within 0.5 % of them', () => {
    for (const [celsius, kt] of IEC_60228_KT) {
      expect(Math.abs(iec60228TemperatureFactor(celsius) - kt), `${celsius} °C`).toBeLessThanOrEqual(0.0005)
      expect(Math.abs(1 / copperAtTemperature(1, celsius) / kt - 1), `${celsius} °C`).toBeLessThan(0.005)
    }
  })
  test('IEC 60228 class 5 maxima come back at every listed size, above what the copper alone has', () => {
    for (const { areaMm2, plain, tinned } of CLASS_5_OHMS_PER_KM) {
      expect(class5OhmsPerMetre(areaMm2) * 1000).toBeCloseTo(plain, 9)
      expect(class5OhmsPerMetre(areaMm2, 20, 'tinned') * 1000).toBeCloseTo(tinned, 9)
      const filled = solidOhmsPerMetre(areaMm2) / class5OhmsPerMetre(areaMm2)
      expect(filled, `${areaMm2} mm²`).toBeGreaterThan(0.8)
      expect(filled, `${areaMm2} mm²`).toBeLessThan(0.96)
    }
  })
})

describe('current tables', () => {
  test('33 CFR 183.425 table 5: all 105 cells', () => {
    for (const [size, ...amps] of CFR_TABLE_5) {
      const gauge = parseWireSize(`${size} AWG`)
      CFR_TABLE_5_COLUMNS.forEach((insulationC, column) => {
        const found = ampacity({ areaMm2: gauge.ok ? gauge.value.areaMm2 : 0, insulationC })
        expect(found?.amps, `${size} AWG ${insulationC} °C`).toBe(amps[column])
        expect(found?.table).toBe('33 CFR 183.425 table 5')
      })
    }
  })
  test('FAA AC 43.13-1B table 11-9: the 105 °C column', () => {
    for (const [awg, amps] of FAA_105) {
      expect(
        ampacity({ areaMm2: awgAreaMm2(awg), insulationC: 105, table: 'aircraft' })?.amps,
        `${awg}`,
      ).toBe(amps)
    }
  })
  test('Canadian Electrical Code table 5A: all 35 factors to two places', () => {
    let compared = 0
    for (const [airC, ...factors] of CEC_5A) {
      CEC_5A_COLUMNS.forEach((insulationC, column) => {
        expect(
          Math.abs(ampacityTemperatureFactor(insulationC, airC) - (factors[column] ?? 0)),
          `${insulationC} °C in ${airC} °C`,
        ).toBeLessThan(0.0051)
        compared++
      })
    }
    expect(compared).toBe(35)
  })
})

describe('ABYC E-11 drop tables at 12 V', () => {
  const gauge = (amps: number, feet: number, volts: number): string =>
    (sizeAtLeast(areaFromCircularMils(requiredCircularMils(amps, feet, volts)), 'awg')?.label ?? 'none')
      .replace(' AWG', '')
      .replace('1/0', '0')
  // The tables stop at 18 AWG and round its 1624 circular mils; a thinner answer means the thinnest they print.
  const atLeast18 = (size: string): string => (Number(size) > 18 ? '18' : size)
  const stock = tradeSizes('awg').map((size) => size.label.replace(' AWG', '').replace('1/0', '0'))

  const cells = (table: string): [feet: number, amps: number, size: string][] =>
    table
      .trim()
      .split('\n')
      .flatMap((line) => {
        const [feet = '', sizes = ''] = line.split(':')
        return sizes
          .trim()
          .split(' ')
          .map((size, column): [number, number, string] => [Number(feet), ABYC_AMPS[column] ?? 0, size])
      })
  const compare = (table: string, volts: number) => {
    const steps = cells(table).map(([feet, amps, size]) =>
      Math.abs(stock.indexOf(atLeast18(gauge(amps, feet, volts))) - stock.indexOf(size)),
    )
    return { all: steps.length, agree: steps.filter((step) => step === 0).length, worst: Math.max(...steps) }
  }
  const three = compare(ABYC_3_PERCENT, 0.36)
  const ten = compare(ABYC_10_PERCENT, 1.2)

  test.each([
    ['3 %', ABYC_AGREED_3, 0.36, 18],
    ['10 %', ABYC_AGREED_10, 1.2, 20],
  ])('%s: the cells on which AWG areas, SAE areas and the print agree', (_name, agreed, volts, count) => {
    const rows = agreed.split(/\s+/).map((cell) => cell.split(','))
    expect(rows).toHaveLength(count)
    for (const [feet, amps, size] of rows)
      expect(atLeast18(gauge(Number(amps), Number(feet), volts)), `${feet} ft ${amps} A`).toBe(size)
  })
  // The print mixes AWG and SAE areas and has odd cells of its own, so the rest is measured and not asserted cell by cell.
  test(`AWG areas give the printed gauge in ${three.agree} of ${three.all} cells (3 %) and ${ten.agree} of ${ten.all} (10 %), else the next stock size`, () => {
    expect(three).toMatchObject({ all: 137, agree: 110 })
    expect(ten).toMatchObject({ all: 143, agree: 126 })
    expect(Math.max(three.worst, ten.worst)).toBeLessThanOrEqual(1)
  })
})

describe('audio, radio and mechanical tables', () => {
  test('standing wave ratio to return loss, nine rows to 0.01 dB, the print of 1.1 being 0.014 dB low', () => {
    for (const [swr, loss] of SWR_TABLE)
      expect(Math.abs(reflectionFromVswr(swr).returnLossDb - loss), `${swr}`).toBeLessThan(
        swr === 1.1 ? 0.015 : 0.0101,
      )
  })
  test('coaxial loss passes through every published point and rises with frequency', () => {
    for (const [name, published] of Object.entries(GENERIC_COAX)) {
      for (const point of published)
        expect(coaxLossDbPerMetre(published, point.hertz), name).toBeCloseTo(point.dbPerMetre, 12)
      const curve = Array.from({ length: 200 }, (_, index) =>
        coaxLossDbPerMetre(published, (index + 1) * 5e6),
      )
      expect(
        [...curve].sort((a, b) => a - b),
        name,
      ).toEqual(curve)
    }
  })
  test('USB 2.0 cable lengths within 1.3 % of the print', () => {
    for (const [awg, metres] of USB_LENGTHS)
      expect(Math.abs((usbCableLimitMm(awg) ?? 0) / 1000 / metres - 1), `${awg} AWG`).toBeLessThan(0.013)
  })
  test('UL 486A newtons agree with its pounds', () => {
    for (const [awg, newtons] of UL_486A_NEWTONS)
      expect(Math.abs((pullOutNewtons(awgAreaMm2(awg)) ?? 0) / newtons - 1), `${awg} AWG`).toBeLessThan(0.005)
  })
  test('straight wire: 1 m of 18 AWG is 1504 nH', () => {
    expect(straightWireHenries(1000, 1.0237) * 1e9).toBeCloseTo(1504, 0)
  })
  test('circle packings known in closed form', () => {
    const closed: [number, number][] = [
      [1, 1],
      [2, 2],
      [3, 1 + 2 / Math.sqrt(3)],
      [4, 1 + Math.SQRT2],
      [5, 1 + Math.sqrt(2 * (1 + 1 / Math.sqrt(5)))],
      [6, 3],
      [7, 3],
      [8, 1 + 1 / Math.sin(Math.PI / 7)],
      [9, 1 + Math.sqrt(2 * (2 + Math.SQRT2))],
      [13, 2 + Math.sqrt(5)],
      [19, 1 + Math.SQRT2 + Math.sqrt(6)],
    ]
    for (const [count, diameter] of closed)
      expect(bundleDiameterMm(Array(count).fill(1)), `${count}`).toBeCloseTo(diameter, 5)
  })
})
