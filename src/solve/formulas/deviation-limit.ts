export type DeviationService =
  | 'land mobile 25 kHz'
  | 'land mobile 12.5 kHz'
  | 'GMRS main'
  | 'GMRS 462 interstitial'
  | 'GMRS 467 interstitial'
  | 'FRS'

/**
 * Largest frequency deviation in Hz: 47 CFR 95.1775 (GMRS), 47 CFR 95.575 (FRS); land mobile by TIA-603 (from memory).
 */
export function deviationLimitHertz(service: DeviationService): number {
  const limits: Readonly<Record<DeviationService, number>> = {
    'land mobile 25 kHz': 5000,
    'land mobile 12.5 kHz': 2500,
    'GMRS main': 5000,
    'GMRS 462 interstitial': 5000,
    'GMRS 467 interstitial': 2500,
    FRS: 2500,
  }
  return limits[service]
}

/** Deviation in Hz of the TIA-603 receiver test: 60 % of the rated deviation, at 1 kHz. */
export function testDeviationHertz(ratedHertz: number): number {
  return 0.6 * ratedHertz
}
