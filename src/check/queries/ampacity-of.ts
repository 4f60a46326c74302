import { formatAmps, formatArea, formatCelsius } from '../../base/format-quantity.ts'
import type { Installation } from '../../describe/installation.ts'
import type { AmpacityTableId, Conductor, Loom } from '../../resolve/loom.ts'
import { ampacity } from '../../solve/formulas/ampacity.ts'
import type { AmpacityTableName } from '../../solve/formulas/ampacity-tables.ts'

/** What a conductor may carry for good, with the sum for people. */
export interface ConductorAmpacity {
  readonly amps: number
  /** "26.4 A in the 90 °C column × 0.707 at 60 °C". */
  readonly sum: string
  readonly assumed: readonly string[]
}

/** Tables by the names the policy has for them. */
const TABLES: Readonly<Record<AmpacityTableId, AmpacityTableName>> = {
  '33-cfr-183': 'boat',
  'ac-43-13': 'aircraft',
  'iso-10133': 'craft',
}

/** Insulation of which nothing is said is taken as plain PVC, the poorest in common use. */
const PLAIN_PVC_CELSIUS = 70
/** The air the table supposes; cooler air earns no bonus. */
const TABLE_AIR_CELSIUS = 30

/**
 * Current rating by the table of the policy, 33 CFR 183.425 table 5 unless it names another, derated for the air of its zone and the loaded wires beside it.
 * Undefined for a shield or where the size is not known.
 */
export function ampacityOf(loom: Loom, conductor: Conductor): ConductorAmpacity | undefined {
  const areaMm2 = conductor.size?.areaMm2
  if (areaMm2 === undefined || conductor.kind === 'shield') return undefined
  const stated = conductor.wirePart?.class ?? conductor.cable?.part?.class
  const bundled = conductor.loom.harness.bundled
  const airC = Math.max(TABLE_AIR_CELSIUS, zoneCelsius(loom, conductor.zone) ?? loom.ambientCelsius)
  const question = {
    areaMm2,
    insulationC: stated ?? PLAIN_PVC_CELSIUS,
    airC,
    bundledWires: bundled ?? 1,
  }
  const chosen = ampacity({ ...question, table: TABLES[loom.settings.ampacityTable] })
  const found = chosen ?? ampacity(question)
  if (!found) return undefined
  const factors = [
    ...(found.temperatureFactor === 1
      ? []
      : [`${found.temperatureFactor.toFixed(2)} for air at ${formatCelsius(airC)}`]),
    ...(found.bundleFactor === 1
      ? []
      : [`${found.bundleFactor.toFixed(2)} for ${bundled} loaded wires together`]),
  ]
  const table = `${formatAmps(found.tableAmps)} (${formatArea(areaMm2)}, ${formatCelsius(found.columnC)} column)`
  return {
    amps: found.amps,
    sum: factors.length === 0 ? table : `${[table, ...factors].join(' × ')} = ${formatAmps(found.amps)}`,
    assumed: [
      `${found.table}: ${found.basis}`,
      ...(chosen ? [] : [`the table of the policy has no column for ${formatCelsius(question.insulationC)}`]),
      ...(stated === undefined ? [`${conductor.id} insulated for ${formatCelsius(PLAIN_PVC_CELSIUS)}`] : []),
      ...(bundled === undefined ? ['no other loaded wire beside it'] : []),
    ],
  }
}

/** The hottest air of a zone; undefined where the installation does not say. */
export function zoneCelsius(loom: Loom, zone: string | undefined): number | undefined {
  if (zone === undefined || loom.kind !== 'installation') return undefined
  return (loom.source as Installation).zones?.find(({ id }) => id === zone)?.hottest
}
