/** What may be lost between source and load, and who says so. */
export type AllowedDrop = { readonly volts: number; readonly source: string }

/** Share of the nominal voltage ABYC E-11 allows: 3 % for feeders, electronics, lights and blowers, 10 % for the rest. */
export function allowedDropByShare(nominalVolts: number, critical: boolean): AllowedDrop {
  return { volts: nominalVolts * (critical ? 0.03 : 0.1), source: `ABYC E-11, ${critical ? 3 : 10} %` }
}

const AIRCRAFT: readonly { nominal: number; continuous: number; intermittent: number }[] = [
  { nominal: 14, continuous: 0.5, intermittent: 1 },
  { nominal: 28, continuous: 1, intermittent: 2 },
  { nominal: 115, continuous: 4, intermittent: 8 },
  { nominal: 200, continuous: 7, intermittent: 14 },
]

/**
 * Volts that FAA AC 43.13-1B table 11-6 allows to be lost (from memory), for the nominal system nearest to `systemVolts`.
 * Intermittent is two minutes at most.
 */
export function allowedDropInVolts(systemVolts: number, duty: 'continuous' | 'intermittent'): AllowedDrop {
  const off = (nominal: number): number => Math.abs(Math.log(systemVolts / nominal))
  const row = AIRCRAFT.reduce((best, entry) => (off(entry.nominal) < off(best.nominal) ? entry : best))
  return { volts: row[duty], source: `FAA AC 43.13-1B table 11-6, ${row.nominal} V system, ${duty}` }
}
