/**
 * Estimated conductor temperature in °C: `T1 + (TR - T1) · sqrt(I / Imax)`.
 * Source: FAA AC 43.13-1B paragraph 11-66 (from memory). It errs on the hot side below Imax, so drops reckoned with it are
 * not too small; for the temperature itself see {@link steadyConductorTemperature}.
 * @param airC air temperature T1
 * @param insulationC insulation rating TR
 * @param amps current carried
 * @param ampacityAmps current Imax that brings the conductor to TR in that air
 */
export function estimatedConductorTemperature(
  airC: number,
  insulationC: number,
  amps: number,
  ampacityAmps: number,
): number {
  return airC + (insulationC - airC) * Math.sqrt(Math.abs(amps) / ampacityAmps)
}

/**
 * Steady conductor temperature in °C when the heat, and so the rise, goes with the square of current:
 * `Tair + (Tinsulation - Tair) · (I / Imax)²`, the same law as {@link ampacityTemperatureFactor}.
 */
export function steadyConductorTemperature(
  airC: number,
  insulationC: number,
  amps: number,
  ampacityAmps: number,
): number {
  return airC + (insulationC - airC) * (amps / ampacityAmps) ** 2
}
