export type LossPoint = { readonly hertz: number; readonly dbPerMetre: number }

const FEET_100_M = 30.48
const points = (...rows: readonly [mhz: number, dbPer100Feet: number][]): LossPoint[] =>
  rows.map(([mhz, db]) => ({ hertz: mhz * 1e6, dbPerMetre: db / FEET_100_M }))

/**
 * Loss of generic coaxial cables from a repeater-system training guide, by military type where there is one. The 450 MHz figure
 * of RG-58C/U is left out because its source contradicts itself; the fit between its neighbours gives 11.8 dB/100 ft.
 */
export const GENERIC_COAX: Readonly<Record<string, readonly LossPoint[]>> = {
  'RG-58C/U': points([50, 3.3], [150, 6.1], [850, 17.75]),
  'RG-213': points([50, 1.5], [150, 2.7], [450, 4.97], [850, 7.53]),
  'RG-8 foam': points([50, 1.2], [150, 2.2], [450, 3.98], [850, 5.2]),
  'RG-393': points([50, 1.4], [150, 2.6], [450, 4.75], [850, 6.5]),
  '1/2 in foam': points([50, 0.48], [150, 0.84], [450, 1.57], [850, 2.06]),
}

/**
 * Loss of a coaxial cable in dB/m: between two published points `k1·√f + k2·f` through both, skin and dielectric loss.
 * Below the first point loss falls with √f, above the last it rises with f: both are on the safe side.
 * @returns NaN without points
 */
export function coaxLossDbPerMetre(published: readonly LossPoint[], hertz: number): number {
  const sorted = [...published].sort((a, b) => a.hertz - b.hertz)
  const first = sorted[0]
  const last = sorted.at(-1)
  if (!first || !last || !(hertz > 0)) return Number.NaN
  if (hertz <= first.hertz) return first.dbPerMetre * Math.sqrt(hertz / first.hertz)
  if (hertz >= last.hertz) return last.dbPerMetre * (hertz / last.hertz)
  const upper = sorted.findIndex((point) => point.hertz >= hertz)
  return between(sorted[upper - 1] ?? first, sorted[upper] ?? last, hertz)
}

function between(low: LossPoint, high: LossPoint, hertz: number): number {
  const rootLow = Math.sqrt(low.hertz)
  const rootHigh = Math.sqrt(high.hertz)
  const byRoot = (point: LossPoint, root: number): number => point.dbPerMetre / root
  const k2 = (byRoot(high, rootHigh) - byRoot(low, rootLow)) / (rootHigh - rootLow)
  const k1 = byRoot(low, rootLow) - k2 * rootLow
  return k1 * Math.sqrt(hertz) + k2 * hertz
}

/** Loss in dB to allow for one coaxial joint: 0.25 dB to 150 MHz, 0.5 dB to 450 MHz, 0.6 dB above (same training guide). */
export function coaxJointLossDb(hertz: number): number {
  if (hertz <= 150e6) return 0.25
  return hertz <= 450e6 ? 0.5 : 0.6
}
