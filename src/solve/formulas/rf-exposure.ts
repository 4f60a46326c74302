export type ExposureGroup = 'occupational' | 'general'

/**
 * Power density limit in mW/cm² for people near an aerial: 47 CFR 1.1310 table 1(e).
 * Averaged over 6 min for occupational, 30 min for general exposure. Domain 0.3 MHz to 100 GHz, else undefined.
 */
export function exposureLimit(hertz: number, group: ExposureGroup): number | undefined {
  const mhz = hertz / 1e6
  if (!(mhz >= 0.3 && mhz <= 100_000)) return undefined
  return group === 'occupational' ? occupational(mhz) : general(mhz)
}

function occupational(mhz: number): number {
  if (mhz <= 3) return 100
  if (mhz <= 30) return 900 / mhz ** 2
  if (mhz <= 300) return 1
  return mhz <= 1500 ? mhz / 300 : 5
}

function general(mhz: number): number {
  if (mhz <= 1.34) return 100
  // The rule's break at 1.34 MHz is rounded: just above it 180/f² would exceed the 100 that holds below.
  if (mhz <= 30) return Math.min(100, 180 / mhz ** 2)
  if (mhz <= 300) return 0.2
  return mhz <= 1500 ? mhz / 1500 : 1
}

/** Factor on power density for a fully reflecting ground (OET Bulletin 65); 2.56 is the milder figure often used. */
export const FULL_REFLECTION = 4

/**
 * Power density in mW/cm² at a distance: `P · G / (4π · R²)`, OET Bulletin 65, far field.
 * @param averageWatts power averaged over the time above (duty and push-to-talk), at the aerial
 * @param gain aerial gain as a ratio over isotropic
 */
export function powerDensity(averageWatts: number, gain: number, distanceMm: number, reflection = 1): number {
  const centimetres = distanceMm / 10
  return (reflection * averageWatts * 1000 * gain) / (4 * Math.PI * centimetres ** 2)
}

/** Distance in mm at which the power density has fallen to a limit in mW/cm²: `sqrt(P · G / (4π · S))`. */
export function exposureDistanceMm(
  averageWatts: number,
  gain: number,
  limit: number,
  reflection = 1,
): number {
  return 10 * Math.sqrt((reflection * averageWatts * 1000 * gain) / (4 * Math.PI * limit))
}

/**
 * Effective radiated power in W below which a source needs no evaluation at distance R: 47 CFR 1.1307(b)(3)(i)(C), R at least
 * λ/2π. Domain 0.3 MHz to 100 GHz, else undefined.
 */
export function exemptErpWatts(hertz: number, distanceMm: number): number | undefined {
  const mhz = hertz / 1e6
  const metres = distanceMm / 1000
  const wavelengthM = 299.792458 / mhz
  if (!(mhz >= 0.3 && mhz <= 100_000) || metres < wavelengthM / (2 * Math.PI)) return undefined
  if (mhz < 1.34) return 1920 * metres ** 2
  if (mhz < 30) return (3450 * metres ** 2) / mhz ** 2
  if (mhz < 300) return 3.83 * metres ** 2
  return mhz < 1500 ? 0.0128 * metres ** 2 * mhz : 19.2 * metres ** 2
}

/**
 * Power in mW below which a source near the body needs no SAR evaluation: 47 CFR 1.1307(b)(3)(i)(B),
 * `ERP20 · (d/20)^x`, `x = -log10(60 / (ERP20 · sqrt(f)))`, d in cm from 0.5 to 40, f in GHz from 0.3 to 6; else undefined.
 * From 20 cm on the threshold stays at ERP20.
 */
export function exemptSarMilliwatts(hertz: number, distanceMm: number): number | undefined {
  const gigahertz = hertz / 1e9
  const centimetres = distanceMm / 10
  if (!(gigahertz >= 0.3 && gigahertz <= 6 && centimetres >= 0.5 && centimetres <= 40)) return undefined
  const erp20 = gigahertz < 1.5 ? 2040 * gigahertz : 3060
  const exponent = -Math.log10(60 / (erp20 * Math.sqrt(gigahertz)))
  return centimetres >= 20 ? erp20 : erp20 * (centimetres / 20) ** exponent
}
