import {
  AMPACITY_TABLES,
  type AmpacityRow,
  type AmpacityTable,
  type AmpacityTableName,
} from './ampacity-tables.ts'
import { ampacityTemperatureFactor, engineSpaceFactor } from './ampacity-temperature-factor.ts'
import { type BundleRule, bundleFactor } from './bundle-factor.ts'

export type AmpacityQuestion = {
  readonly areaMm2: number
  /** Temperature rating of the insulation, °C. */
  readonly insulationC: number
  /** Air around the wire; 30 °C unless said. */
  readonly airC?: number
  /** Loaded wires lying together, this one included; 1 unless said. */
  readonly bundledWires?: number
  readonly table?: AmpacityTableName
  readonly bundleRule?: BundleRule
  /** Use the printed engine-space factor of 33 CFR 183.425 instead of reckoning with `airC`. */
  readonly engineSpace?: boolean
}

export type Ampacity = {
  /** What the wire may carry all day under these conditions. */
  readonly amps: number
  /** What the table gives before the factors. */
  readonly tableAmps: number
  readonly temperatureFactor: number
  readonly bundleFactor: number
  /** The table used, and what it supposes: ratings of other tables differ by up to three because of this. */
  readonly table: string
  readonly basis: string
  /** The column used, °C. */
  readonly columnC: number
  /** The wire is thinner than any in the table; the current density of the thinnest row is used, which is cautious. */
  readonly extrapolated: boolean
}

/**
 * How much current a copper wire may carry all day: table figure × temperature factor × bundle factor.
 * Between the listed areas amps are interpolated on logarithms of both; the highest column not above the insulation rating
 * is used. Air cooler than the table supposes gives no bonus in tables for single wires.
 * Sources: 33 CFR 183.425 table 5 (also ABYC E-11 VI), FAA AC 43.13-1B table 11-9, ISO 10133 table A.1.
 * @returns undefined when the table has no column for so low an insulation rating, or no row for so thick a wire
 */
export function ampacity(question: AmpacityQuestion): Ampacity | undefined {
  const table: AmpacityTable = AMPACITY_TABLES[question.table ?? 'boat']
  const column = table.insulationC.findLastIndex((rating) => rating <= question.insulationC)
  const columnC = table.insulationC[column]
  const found = tableAmps(table.rows, column, question.areaMm2)
  if (columnC === undefined || !found) return undefined
  const temperatureFactor = airFactor(table, columnC, question)
  const bundle = table.bundled ? 1 : bundleFactor(question.bundledWires ?? 1, question.bundleRule)
  return {
    amps: found.amps * temperatureFactor * bundle,
    tableAmps: found.amps,
    temperatureFactor,
    bundleFactor: bundle,
    table: table.name,
    basis: table.basis,
    columnC,
    extrapolated: found.extrapolated,
  }
}

function airFactor(table: AmpacityTable, columnC: number, question: AmpacityQuestion): number {
  if (question.engineSpace) return engineSpaceFactor(columnC)
  const factor = ampacityTemperatureFactor(columnC, question.airC ?? table.airC, table.airC)
  return table.bundled ? factor : Math.min(1, factor)
}

function tableAmps(rows: readonly AmpacityRow[], column: number, areaMm2: number) {
  if (!(areaMm2 > 0) || column < 0) return undefined
  const upper = rows.findIndex((row) => row.areaMm2 >= areaMm2 * (1 - 1e-9))
  const above = rows[upper]
  const below = rows[upper - 1]
  const high = above?.amps[column]
  if (!above || high === undefined) return undefined
  if (Math.abs(above.areaMm2 / areaMm2 - 1) < 1e-9) return { amps: high, extrapolated: false }
  const low = below?.amps[column]
  if (!below || low === undefined) return { amps: (high * areaMm2) / above.areaMm2, extrapolated: true }
  const share = Math.log(areaMm2 / below.areaMm2) / Math.log(above.areaMm2 / below.areaMm2)
  return { amps: low * (high / low) ** share, extrapolated: false }
}
