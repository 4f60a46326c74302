/** Frequency error in Hz allowed by a tolerance in parts per million: `f · ppm / 10⁶`. */
export function hertzFromPpm(carrierHertz: number, ppm: number): number {
  return (carrierHertz * ppm) / 1e6
}

/** Frequency error in parts per million. */
export function ppmFromHertz(carrierHertz: number, errorHertz: number): number {
  return (errorHertz / carrierHertz) * 1e6
}

export type StationKind = 'fixed' | 'mobile over 2 W' | 'mobile to 2 W'
type Band = {
  readonly fromMhz: number
  readonly toMhz: number
  readonly ppm: readonly (number | undefined)[]
}

const band = (fromMhz: number, toMhz: number, ...ppm: (number | undefined)[]): Band => ({
  fromMhz,
  toMhz,
  ppm,
})
const KINDS: readonly StationKind[] = ['fixed', 'mobile over 2 W', 'mobile to 2 W']

/** 47 CFR 90.213(a), in parts per million: fixed and base, mobile over 2 W, mobile of 2 W or less. */
const BANDS: readonly Band[] = [
  band(0, 25, 100, 100, 200),
  band(25, 50, 20, 20, 50),
  band(72, 76, 5, undefined, 50),
  band(150, 174, 5, 5, 50),
  band(216, 220, 1, undefined, 1),
  band(220, 222, 0.1, 1.5, 1.5),
  band(421, 512, 2.5, 5, 5),
  band(806, 809, 1, 1.5, 1.5),
  band(809, 824, 1.5, 2.5, 2.5),
  band(851, 854, 1, 1.5, 1.5),
  band(854, 869, 1.5, 2.5, 2.5),
  band(896, 901, 0.1, 1.5, 1.5),
  band(902, 928, 2.5, 2.5, 2.5),
  band(929, 930, 1.5),
  band(935, 940, 0.1, 1.5, 1.5),
  band(1427, 1435, 300, 300, 300),
]

/**
 * Frequency tolerance in parts per million of 47 CFR 90.213(a) with its note 5 for base stations of 12.5 kHz (2.5 ppm) and
 * 6.25 kHz (1.0 ppm) at 150 to 174 MHz and note 7 at 421 to 512 MHz (1.5 and 0.5 ppm, from memory).
 * @param channelHertz channel spacing; 25 kHz unless said. Narrow mobile notes are not covered: ask the current rules.
 * @returns undefined where the table has no figure
 */
export function part90TolerancePpm(
  carrierHertz: number,
  kind: StationKind,
  channelHertz = 25_000,
): number | undefined {
  const mhz = carrierHertz / 1e6
  const row = BANDS.find((entry) => mhz >= entry.fromMhz && mhz <= entry.toMhz)
  const wide = row?.ppm[KINDS.indexOf(kind)]
  if (kind !== 'fixed' || channelHertz > 12_500) return wide
  if (row?.fromMhz === 150) return channelHertz > 6_250 ? 2.5 : 1
  if (row?.fromMhz === 421) return channelHertz > 6_250 ? 1.5 : 0.5
  return wide
}
