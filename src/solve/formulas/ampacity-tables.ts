import { awgAreaMm2 } from '../../base/wire-size.ts'

export type AmpacityRow = { readonly areaMm2: number; readonly amps: readonly number[] }

export type AmpacityTable = {
  /** As a finding names it. */
  readonly name: string
  /** What the table supposes about the wires, in words. */
  readonly basis: string
  /** Air temperature the figures hold for, °C. */
  readonly airC: number
  /** Insulation ratings of the columns, °C, rising. */
  readonly insulationC: readonly number[]
  /** Whether the figures already hold for a full bundle. */
  readonly bundled: boolean
  readonly rows: readonly AmpacityRow[]
}

const awgRow = (awg: number, ...amps: number[]): AmpacityRow => ({ areaMm2: awgAreaMm2(awg), amps })
const metricRow = (areaMm2: number, ...amps: number[]): AmpacityRow => ({ areaMm2, amps })

/** Current ratings by source; all rows rise in area. */
export const AMPACITY_TABLES = {
  /** 33 CFR 183.425 table 5, which is also ABYC E-11 table VI for single conductors. */
  boat: {
    name: '33 CFR 183.425 table 5',
    basis: 'a single conductor in air at 30 °C',
    airC: 30,
    insulationC: [60, 75, 80, 90, 105, 125, 200],
    bundled: false,
    rows: [
      awgRow(18, 10, 10, 15, 20, 20, 25, 25),
      awgRow(16, 15, 15, 20, 25, 25, 30, 35),
      awgRow(14, 20, 20, 25, 30, 35, 40, 45),
      awgRow(12, 25, 25, 35, 40, 45, 50, 55),
      awgRow(10, 40, 40, 50, 55, 60, 70, 70),
      awgRow(8, 55, 65, 70, 70, 80, 90, 100),
      awgRow(6, 80, 95, 100, 100, 120, 125, 135),
      awgRow(4, 105, 125, 130, 135, 160, 170, 180),
      awgRow(3, 120, 145, 150, 155, 180, 195, 210),
      awgRow(2, 140, 170, 175, 180, 210, 225, 240),
      awgRow(1, 165, 195, 210, 210, 245, 265, 280),
      awgRow(0, 195, 230, 245, 245, 285, 305, 325),
      awgRow(-1, 225, 265, 285, 285, 330, 355, 370),
      awgRow(-2, 260, 310, 330, 330, 385, 410, 430),
      awgRow(-3, 300, 360, 385, 385, 445, 475, 510),
    ],
  },
  /** FAA AC 43.13-1B change 1 table 11-9. */
  aircraft: {
    name: 'FAA AC 43.13-1B table 11-9',
    basis:
      'a full bundle (33 wires, or 9 of 8 AWG and thicker) loaded to 20 %, in air at 70 °C, to 60,000 ft',
    airC: 70,
    insulationC: [105, 150, 200],
    bundled: true,
    rows: [
      awgRow(24, 2.5, 4, 5),
      awgRow(22, 3, 5, 6),
      awgRow(20, 4, 7, 9),
      awgRow(18, 6, 9, 12),
      awgRow(16, 7, 11, 14),
      awgRow(14, 10, 14, 18),
      awgRow(12, 13, 19, 25),
      awgRow(10, 17, 26, 32),
      awgRow(8, 38, 57, 71),
      awgRow(6, 50, 76, 97),
      awgRow(4, 68, 103, 133),
      awgRow(2, 95, 141, 179),
      awgRow(1, 113, 166, 210),
      awgRow(0, 128, 192, 243),
      awgRow(-1, 147, 222, 285),
      awgRow(-2, 172, 262, 335),
      awgRow(-3, 204, 310, 395),
    ],
  },
  /** ISO 10133:2012 table A.1, from memory: check the current edition before relying on it. */
  craft: {
    name: 'ISO 10133 table A.1',
    basis: 'a single conductor in air at 30 °C (figures from memory, check the current edition)',
    airC: 30,
    insulationC: [60, 70, 85, 105, 125, 200],
    bundled: false,
    rows: [
      metricRow(0.75, 6, 10, 12, 16, 20, 25),
      metricRow(1, 8, 14, 18, 20, 25, 35),
      metricRow(1.5, 12, 18, 21, 25, 30, 40),
      metricRow(2.5, 17, 25, 30, 35, 40, 45),
      metricRow(4, 22, 35, 40, 45, 50, 55),
      metricRow(6, 29, 45, 50, 60, 70, 75),
      metricRow(10, 40, 65, 70, 90, 100, 120),
      metricRow(16, 54, 90, 100, 130, 150, 170),
      metricRow(25, 71, 120, 140, 170, 185, 200),
    ],
  },
} as const satisfies Record<string, AmpacityTable>

export type AmpacityTableName = keyof typeof AMPACITY_TABLES
