export type LoadDump = {
  readonly volts: { readonly min: number; readonly max: number }
  readonly sourceOhms: { readonly min: number; readonly max: number }
  readonly seconds: { readonly min: number; readonly max: number }
}

/** Load dump without clamping, test A of ISO 16750-2:2012, for 12 V and 24 V systems. */
export const LOAD_DUMP: Readonly<Record<12 | 24, LoadDump>> = {
  12: { volts: { min: 79, max: 101 }, sourceOhms: { min: 0.5, max: 4 }, seconds: { min: 0.04, max: 0.4 } },
  24: { volts: { min: 151, max: 202 }, sourceOhms: { min: 1, max: 8 }, seconds: { min: 0.1, max: 0.35 } },
}

/**
 * Source resistance in Ω of a load dump: `10 · Unom · Nact / (0.8 · Irated · 12000)`, ISO 16750-2.
 * @param alternatorVolts nominal alternator voltage
 * @param ratedAmps rated alternator current at 6000 min⁻¹
 * @param speedPerMinute actual alternator speed
 */
export function loadDumpSourceOhms(
  alternatorVolts: number,
  ratedAmps: number,
  speedPerMinute: number,
): number {
  return (10 * alternatorVolts * speedPerMinute) / (0.8 * ratedAmps * 12000)
}
